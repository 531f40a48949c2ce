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
        what=mark("A screen bolted in place. Sheet goes in through a narrow slot; fingers do not reach the tools."),
    ),
    Safeguard(
        code="interlocked_guard",
        name=mark("Interlocked guard"),
        what=mark("A gate with a switch. Open it to load; with the gate open the ram stays up."),
    ),
    Safeguard(
        code="limited_opening",
        name=mark("Limited opening"),
        what=mark("The stroke is limited, so the gap never admits a finger."),
    ),
    Safeguard(
        code="curtain",
        name=mark("Light curtain"),
        what=mark("A vertical field of light at the front. Nothing is blanked and nothing is muted."),
    ),
    Safeguard(
        code="curtain_muted",
        name=mark("Light curtain with muting"),
        what=mark("The field stops watching by itself once the opening is too small for a finger, or going up."),
    ),
    Safeguard(
        code="curtain_fixed_blank",
        name=mark("Light curtain with fixed blanking"),
        what=mark("The field has a window for one object that stays put."),
    ),
    Safeguard(
        code="curtain_float_blank",
        name=mark("Light curtain with floating blanking"),
        what=mark("The field puts up with a thin edge that moves about."),
    ),
    Safeguard(
        code="aopd",
        name=mark("Laser at the punch"),
        what=mark("A laser that travels with the punch and looks just under its tip."),
    ),
    Safeguard(
        code="aopd_plus_curtain",
        name=mark("Laser and curtain together"),
        what=mark("Two devices. The program brings up the one that suits the bend."),
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
        what=mark("Two buttons, one for each hand, out of reach of the tools."),
    ),
    Safeguard(
        code="two_hand_foot",
        name=mark("Two-hand control, then the pedal"),
        what=mark("Two buttons for the approach. The pedal bends once fingers no longer fit."),
    ),
    Safeguard(
        code="distancing_field",
        name=mark("Floor field that keeps people back"),
        what=mark("A scanner near the floor that stops the ram when feet come too close."),
    ),
    Safeguard(
        code="slow_hold",
        name=mark("Slow closing with a held control"),
        what=mark("The ram creeps for as long as you hold on, and halts when you let go."),
    ),
    Safeguard(
        code="adjustable_guard",
        name=mark("Adjustable guard without a switch"),
        what=mark("A screen that is moved by hand. Nothing tells the control where it is."),
    ),
    Safeguard(
        code="pull_back",
        name=mark("Pull-backs"),
        what=mark("Wrist cables that the closing ram pulls back."),
    ),
    Safeguard(
        code="restraint",
        name=mark("Restraint"),
        what=mark("Straps that end before the tools begin."),
    ),
    Safeguard(
        code="safe_distance",
        name=mark("Safe distance by procedure"),
        what=mark("People keep their hands away by a method that is written down and supervised."),
    ),
    Safeguard(
        code="side_rear_guards",
        name=mark("End covers and rear guard"),
        what=mark("What closes the sides and the back of the brake."),
        kind=Kind.COMPLETING,
    ),
    Safeguard(
        code="hand_tools",
        name=mark("Hand tools"),
        what=mark("Something that holds the part in place of fingers."),
        kind=Kind.AID,
    ),
    Safeguard(
        code="awareness_barrier",
        name=mark("Awareness barrier"),
        what=mark("Something that shows where the danger begins."),
        kind=Kind.AID,
    ),
    Safeguard(
        code="signs_training",
        name=mark("Signs and training"),
        what=mark("What people are told and shown."),
        kind=Kind.AID,
    ),
    Safeguard(
        code="foot_switch",
        name=mark("Foot pedal"),
        what=mark("An order to close, given with the foot."),
        kind=Kind.NONE,
    ),
)

SAFEGUARDS: Mapping[str, Safeguard] = MappingProxyType({safeguard.code: safeguard for safeguard in _ALL})
PRIMARIES = tuple(code for code, safeguard in SAFEGUARDS.items() if safeguard.kind is Kind.PRIMARY)
COMBINED = frozenset(code for code, safeguard in SAFEGUARDS.items() if safeguard.best_of)

CURTAINS = frozenset({"curtain", "curtain_muted", "curtain_fixed_blank", "curtain_float_blank"})
BLANKED = frozenset({"curtain_fixed_blank", "curtain_float_blank"})
