"""The safeguards, aids and things taken for safeguards that can stand at a press brake, in the shop's words.

They stand in the order in which a shop should reach for them where the rules speak equally well of several: what
stands by itself and protects everybody comes before what protects one person, and the last resort comes last.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from types import MappingProxyType

from trainer.wording import mark


class Kind(StrEnum):
    """What a thing at the brake can be."""

    PRIMARY = "primary"  # can be the safeguard of a job
    COMPLETING = "completing"  # always needed, never enough
    AID = "aid"  # worth having, never counts
    NONE = "not-a-safeguard"


@dataclass(frozen=True, slots=True, kw_only=True)
class Safeguard:
    """One thing that may be there.

    ``name`` and ``what`` are messages. ``best_of`` maps the parts of a combination to the message that says which part
    carries the bend; a combination has no rules on its parts' ground, it is as good as the best of them.
    """

    code: str
    name: str
    what: str
    kind: Kind = Kind.PRIMARY
    best_of: Mapping[str, str] = field(default_factory=lambda: MappingProxyType({}))


_ALL = (
    Safeguard(
        code="fixed_guard",
        name=mark("Fixed guard"),
        what=mark("A bolted barrier; the part slides through a slot that fingers do not get far into."),
    ),
    Safeguard(
        code="interlocked_guard",
        name=mark("Interlocked guard"),
        what=mark("A barrier that opens for loading; the ram cannot close while it is open."),
    ),
    Safeguard(
        code="limited_opening",
        name=mark("Limited opening"),
        what=mark("The stroke is locked so that the tools never open wide enough for a finger."),
    ),
    Safeguard(
        code="curtain",
        name=mark("Light curtain"),
        what=mark("An upright light field in front, with all beams live during the whole closing."),
    ),
    Safeguard(
        code="curtain_muted",
        name=mark("Light curtain with muting"),
        what=mark("The field stops watching by itself once the opening is too small for a finger, or going up."),
    ),
    Safeguard(
        code="curtain_fixed_blank",
        name=mark("Light curtain with fixed blanking"),
        what=mark("Some beams are off in one place, which an object must fill."),
    ),
    Safeguard(
        code="curtain_float_blank",
        name=mark("Light curtain with floating blanking"),
        what=mark("A few beams may be broken anywhere in the field."),
    ),
    Safeguard(
        code="aopd",
        name=mark("Laser at the punch"),
        what=mark("A laser on the beam watches the last millimetres below the punch tip."),
    ),
    Safeguard(
        code="aopd_plus_curtain",
        name=mark("Laser and curtain together"),
        what=mark("Laser for plain bends, curtain for the others; the control decides which one is live."),
        best_of=MappingProxyType(
            {
                "aopd": mark("For this bend the laser is the one that has to be live."),
                "curtain": mark("For this bend the curtain without muting is the one that has to be live."),
                "curtain_muted": mark("For this bend the curtain with muting is the one that has to be live."),
            }
        ),
    ),
    Safeguard(
        code="two_hand",
        name=mark("Two-hand control"),
        what=mark("Both hands on buttons, far enough away, until the danger is over."),
    ),
    Safeguard(
        code="two_hand_foot",
        name=mark("Two-hand control, then the pedal"),
        what=mark("Both hands bring the ram down to a gap too small for a finger; then the pedal bends."),
    ),
    Safeguard(
        code="distancing_field",
        name=mark("Floor field that keeps people back"),
        what=mark("A level field over the floor stops the ram when somebody stands nearer than about a metre."),
    ),
    Safeguard(
        code="slow_hold",
        name=mark("Slow closing with a held control"),
        what=mark("10 mm/s or less while a control is held; it stops on release."),
    ),
    Safeguard(
        code="adjustable_guard",
        name=mark("Adjustable guard without a switch"),
        what=mark("A barrier on screws; the machine does not know where it stands."),
    ),
    Safeguard(
        code="pull_back",
        name=mark("Pull-backs"),
        what=mark("Cables from both wrists to the ram; they draw the hands out as it closes."),
    ),
    Safeguard(
        code="restraint",
        name=mark("Restraint"),
        what=mark("Tethers of a fixed length; the hands never get as far as the tools."),
    ),
    Safeguard(
        code="safe_distance",
        name=mark("Safe distance by procedure"),
        what=mark("No device: a written method that keeps the hands at least 4 in (101.6 mm) away."),
    ),
    Safeguard(
        code="side_rear_guards",
        name=mark("End covers and rear guard"),
        what=mark("Covers at the die ends, and a fence or gate at the rear."),
        kind=Kind.COMPLETING,
    ),
    Safeguard(
        code="hand_tools",
        name=mark("Hand tools"),
        what=mark("Tongs, magnets, suction holders."),
        kind=Kind.AID,
    ),
    Safeguard(
        code="awareness_barrier",
        name=mark("Awareness barrier"),
        what=mark("A chain, a rail or a line on the floor."),
        kind=Kind.AID,
    ),
    Safeguard(
        code="signs_training",
        name=mark("Signs and training"),
        what=mark("Signs, instruction, supervision."),
        kind=Kind.AID,
    ),
    Safeguard(
        code="foot_switch",
        name=mark("Foot pedal"),
        what=mark("It gives the order to close."),
        kind=Kind.NONE,
    ),
)

SAFEGUARDS: Mapping[str, Safeguard] = MappingProxyType({safeguard.code: safeguard for safeguard in _ALL})
PRIMARIES = tuple(code for code, safeguard in SAFEGUARDS.items() if safeguard.kind is Kind.PRIMARY)
COMBINED = frozenset(code for code, safeguard in SAFEGUARDS.items() if safeguard.best_of)

CURTAINS = frozenset({"curtain", "curtain_muted", "curtain_fixed_blank", "curtain_float_blank"})
BLANKED = frozenset({"curtain_fixed_blank", "curtain_float_blank"})
