"""The trainer's desk."""

from trainer.web.desk import acting, asked, coaching, crews, eventviews, plan, talkviews, views
from trainer.web.desk.blueprint import bp

__all__ = ["acting", "asked", "bp", "coaching", "crews", "eventviews", "plan", "talkviews", "views"]
