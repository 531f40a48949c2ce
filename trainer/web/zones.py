"""Places on the drawing of a machine as one stands before it: zones by letter and number, as on any drawing."""

from itertools import product
from types import MappingProxyType

from trainer.web.words import _, _l

ACROSS = MappingProxyType(
    {"A": _l("left of it"), "B": _l("its left half"), "C": _l("its right half"), "D": _l("right of it")}
)
DOWN = MappingProxyType({"1": _l("ram and tools"), "2": _l("bed and floor")})
ZONES = tuple(letter + number for number, letter in product(DOWN, ACROSS))


def told_zone(zone: str) -> str:
    """Say where a zone lies; empty for none, or one that this drawing does not have."""
    if zone not in ZONES:
        return ""
    return _("%(zone)s: %(across)s, %(down)s", zone=zone, across=ACROSS[zone[0]], down=DOWN[zone[1]])
