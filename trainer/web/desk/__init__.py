"""The trainer's desk."""

from trainer.web.desk import asked, eventviews, views
from trainer.web.desk.blueprint import bp

__all__ = ["asked", "bp", "eventviews", "views"]
