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


def _international_unfloored(value: Any, seen: Seen) -> Any:
    other = Working()
    add = iso_orthogonal.intrusion(other, seen["O_eff"], "d")
    iso_orthogonal.two_speeds(other, seen["T"], add)
    # Where the floor changes nothing this is the international form itself, which has its own name.
    return other.seen["S_2"] if other.seen["beyond"] and other.seen["S_2"] < iso_orthogonal.FAR else value


def _international_first_half(value: Any, seen: Seen) -> Any:
    other = Working()
    add = iso_orthogonal.intrusion(other, seen["O_eff"], "d")
    iso_orthogonal.two_speeds(other, seen["T"], add)
    return other.seen["S_1"] if other.seen["beyond"] else value


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
        changes={"D_s": _international_unfloored},
    ),
    Slip(
        code="international-form-one-speed",
        title=mark("Answers with the international form, with its first speed only"),
        tell=mark("You used the international form, and only its first speed. This asks for the US consensus form."),
        symbol="D_s",
        changes={"D_s": _international_first_half},
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
