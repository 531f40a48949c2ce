"""The trainer's desk."""

from trainer.web.desk import asked, coaching, eventviews, talkviews, views
from trainer.web.desk.blueprint import bp

__all__ = ["asked", "bp", "coaching", "eventviews", "talkviews", "views"]
