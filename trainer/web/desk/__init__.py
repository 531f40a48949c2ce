"""The trainer's desk."""

from trainer.web.desk import asked, coaching, crews, eventviews, plan, talkviews, views
from trainer.web.desk.blueprint import bp

__all__ = ["asked", "bp", "coaching", "crews", "eventviews", "plan", "talkviews", "views"]
