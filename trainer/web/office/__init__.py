"""The office: the questions that auditors ask, each with its answer and its file."""

from trainer.web.office import acting, printing, usering
from trainer.web.office.views import bp

__all__ = ["acting", "bp", "printing", "usering"]
