"""The trainer's desk."""

from trainer.web.desk import asked, eventviews, talkviews, views
from trainer.web.desk.blueprint import bp

__all__ = ["asked", "bp", "eventviews", "talkviews", "views"]
