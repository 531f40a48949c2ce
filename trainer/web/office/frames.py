"""The ways along the top edge of the office's sheets."""

from trainer.web.sheet import Box, Frame, frame
from trainer.web.words import _l

ZONES = (
    ("office.questions", _l("Questions")),
    ("office.asof", _l("Who was authorised")),
    ("office.about", _l("One person")),
    ("office.overdue", _l("Overdue")),
    ("office.changed", _l("Ledger")),
    ("office.roster", _l("Roster")),
    ("office.requests", _l("Requests")),
    ("office.users", _l("Users")),
    ("office.kiosks", _l("Kiosks")),
)


def office_frame(here: str, name: str, *boxes: Box) -> Frame:
    """Make the frame of an office sheet."""
    return frame("office", ZONES, here, name, *boxes)
