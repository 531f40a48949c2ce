"""The kiosk: sign in with a badge, see what is waiting, learn, answer, see why, see where one stands."""

import trainer.web.kiosk.asking  # each puts its views on the blueprint
import trainer.web.kiosk.enrolment
import trainer.web.kiosk.hazard
import trainer.web.kiosk.record
import trainer.web.kiosk.sittings
import trainer.web.kiosk.standing
import trainer.web.kiosk.views  # noqa: F401
from trainer.web.kiosk.blueprint import bp

__all__ = ["bp"]
