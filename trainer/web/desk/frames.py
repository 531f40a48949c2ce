"""The ways along the top edge of the desk's sheets."""

from trainer.web.sheet import Box, Frame, frame
from trainer.web.words import _l

ZONES = (
    ("desk.week", _l("This week")),
    ("desk.reports", _l("Asked")),
    ("desk.people", _l("People")),
    ("desk.dues", _l("Due")),
    ("desk.machines", _l("Machines")),
    ("desk.practicals", _l("Practicals")),
    ("desk.items", _l("Questions")),
    ("desk.assign", _l("Assign")),
    ("desk.events", _l("Events")),
    ("desk.talks", _l("Talks")),
)


def desk_frame(here: str, name: str, *boxes: Box) -> Frame:
    """Make the frame of a desk sheet."""
    return frame("desk", ZONES, here, name, *boxes)
