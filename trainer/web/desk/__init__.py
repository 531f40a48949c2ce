"""The trainer's desk."""

import trainer.web.desk.asked  # noqa: F401  (puts its views on the blueprint)
from trainer.web.desk.views import bp

__all__ = ["bp"]
