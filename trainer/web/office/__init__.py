"""The office: the questions that auditors ask, each with its answer and its file."""

from trainer.web.office import acting as acting
from trainer.web.office import askedpaper as askedpaper
from trainer.web.office import checking as checking
from trainer.web.office import judging as judging
from trainer.web.office import kiosking as kiosking
from trainer.web.office import printing as printing
from trainer.web.office import privacy as privacy
from trainer.web.office import retaining as retaining
from trainer.web.office import ruling as ruling
from trainer.web.office import timing as timing
from trainer.web.office import usering as usering
from trainer.web.office.views import bp

__all__ = ["bp"]
