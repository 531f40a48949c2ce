"""The trainer's desk."""

from trainer.web.desk.views import bp

__all__ = ["bp"]
