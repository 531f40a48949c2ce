"""The federal press rules: a distance of more than 63 in/s times the stopping time."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from trainer.safeguarding import sources
from trainer.safeguarding.inputs import Inputs, Numbers, StoppingTime
from trainer.safeguarding.problem import Problem, answer
from trainer.safeguarding.result import Sense
from trainer.safeguarding.slips import DISTANCE_SLIPS, INCH, Slip, becomes, plus, time_slips
from trainer.safeguarding.working import Working
from trainer.wording import mark, say

HAND_SPEED = 63 * INCH  # mm/s; 63 in/s = 1600.2 mm/s exactly
WHOLE_CHAIN = say(
    "The stopping time must hold every part of the stop: the machine, its control and the safeguard. "
    "The rule itself has no term for the safeguard."
)
NOT_217 = say(
    "This is the press rule. It does not govern press brakes by itself; the regulator accepts its use on them."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class UsPresenceSensing(Inputs):
    """Inputs of the federal rule for a presence-sensing device."""

    stopping_time: StoppingTime


def hand_travel(w: Working, time: Any, *, symbol: str = "D_s", of: str = "T_s") -> Any:
    """Take ``K × T`` with the hand speed of the press rule, in mm."""
    speed = w.constant("K", HAND_SPEED, "speed", mark("Hand speed of the rule, 63 in/s"))
    value = w.step(symbol, mark("Way of the hand while the machine stops"), f"K × {of}", speed * time)
    w.term("hand-speed", speed, "speed")
    w.term("total-time", time, "time")
    w.term("travel", speed * time)
    return value


def _presence_sensing(w: Working, g: Numbers) -> Any:
    stop = w.given("T_s", g.stopping_time, "time", mark("Stopping time of the machine"))
    distance = hand_travel(w, stop)
    w.term("allowance", Fraction(0))
    w.term("distance", distance)
    w.warn(WHOLE_CHAIN, NOT_217, say("The distance must be more than the figure; equal is not enough."))
    w.cite(sources.CFR_217_PSD, sources.OSHA_CHART, sources.WAC_PSD, sources.OSHA_LETTER_1980)
    return distance


SPEED_SLIPS = (
    Slip(
        code="speed-60",
        title=mark("Uses 60 in/s as the hand speed"),
        tell=mark("You used 60 in/s. The hand speed is 63 in/s."),
        symbol="K",
        changes={"K": becomes(60 * INCH)},
    ),
    Slip(
        code="speed-2000",
        title=mark("Uses the international hand speed of 2000 mm/s"),
        tell=mark("You used 2000 mm/s, from the international rule. The hand speed here is 63 in/s."),
        symbol="K",
        changes={"K": becomes(Fraction(2000))},
    ),
    Slip(
        code="speed-100",
        title=mark("Uses 100 in/s as the hand speed"),
        tell=mark("You used 100 in/s. That is careful, but the least distance is asked with 63 in/s."),
        symbol="K",
        changes={"K": becomes(100 * INCH)},
    ),
)
MORE_THAN_SLIP = Slip(
    code="equal-is-enough",
    title=mark("Takes the figure itself as enough"),
    tell=mark("The distance must be more than the figure. Equal is not enough."),
    symbol="D_s",
    changes={"sense": becomes(Sense.AT_LEAST)},
)
ADDS_PENETRATION = Slip(
    code="adds-penetration",
    title=mark("Adds a penetration allowance (30 mm curtain) to the press rule"),
    tell=mark("You added a penetration allowance. This rule has none; the consensus standard has."),
    symbol="D_s",
    changes={"D_s": plus(Fraction("3.4") * (30 - Fraction("0.276") * INCH))},
)

PROBLEMS = (
    Problem(
        name="us-presence-sensing",
        title=mark("Distance of a presence-sensing device, US press rule"),
        inputs=UsPresenceSensing,
        sum=_presence_sensing,
        answer=answer("D_s", Sense.MORE_THAN, "chart-distance"),
        slips=(*SPEED_SLIPS, ADDS_PENETRATION, *time_slips("T_s"), *DISTANCE_SLIPS),
    ),
)
