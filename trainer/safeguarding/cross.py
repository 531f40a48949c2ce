"""Slips between rule sets: somebody answers with the form of another country or another standard.

Each borrows the other rule's own sum; nothing is written twice.
"""

from collections.abc import Mapping
from typing import Any

from trainer.safeguarding import ansi, iso_orthogonal
from trainer.safeguarding.slips import Slip, pick
from trainer.safeguarding.us import HAND_SPEED
from trainer.safeguarding.working import Seen, Working
from trainer.wording import mark


def _international(seen: Seen) -> Any:
    other = Working()
    add = iso_orthogonal.intrusion(other, seen["O_eff"], "d")
    return iso_orthogonal.two_speeds(other, seen["T"], add)[0]


def _international_unfloored(seen: Seen) -> Any:
    other = Working({"floor-through": lambda value, own: own["S_2"] if own["beyond"] else value})
    add = iso_orthogonal.intrusion(other, seen["O_eff"], "d")
    return iso_orthogonal.two_speeds(other, seen["T"], add)[0]


def _consensus(seen: Seen) -> Any:
    return HAND_SPEED * seen["T"] + ansi.penetration(Working(), seen["d_e"], "O_s")


INTERNATIONAL = (
    Slip(
        code="international-form",
        title=mark("Answers with the international form"),
        tell=mark("You used the international form. This asks for the US consensus form."),
        symbol="D_s",
        changes={"D_s": pick(_international)},
    ),
    Slip(
        code="international-form-no-floor",
        title=mark("Answers with the international form, without its floor of 500 mm"),
        tell=mark("You used the international form, and without its floor. This asks for the US consensus form."),
        symbol="D_s",
        changes={"D_s": pick(_international_unfloored)},
    ),
)
CONSENSUS = (
    Slip(
        code="us-form",
        title=mark("Answers with the US consensus form"),
        tell=mark("You used the US form. This asks for the international one."),
        symbol="S",
        changes={"S": pick(_consensus)},
    ),
)
ALSO: Mapping[str, tuple[Slip, ...]] = {
    "ansi-presence-sensing": INTERNATIONAL,
    "iso-presence-sensing": CONSENSUS,
}
