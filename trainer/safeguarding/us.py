"""The federal press rules: a distance of more than 63 in/s times the stopping time."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Annotated, Any

from trainer.safeguarding import sources
from trainer.safeguarding.inputs import Given, Inputs, Numbers, StoppingTime
from trainer.safeguarding.problem import Problem, answer
from trainer.safeguarding.result import Sense
from trainer.safeguarding.slips import CHART_ROUNDING_SLIPS, INCH, UNIT_SLIPS, Slip, becomes, pick, plus, time_slips
from trainer.safeguarding.working import Working
from trainer.wording import mark, say

HALF = Fraction(1, 2)
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


def hand_travel(
    w: Working,
    time: Any,
    *,
    symbol: str = "D_s",
    of: str = "T_s",
    label: str = mark("Way of the hand while the machine stops"),
) -> Any:
    """Take ``K × T`` with the hand speed of the press rule, in mm."""
    speed = w.constant("K", HAND_SPEED, "speed", mark("Hand speed of the rule"))
    value = w.step(symbol, label, f"K × {of}", speed * time)
    w.term("hand-speed", speed, "speed")
    w.term("total-time", time, "time")
    w.term("travel", speed * time)
    return value


def _presence_sensing(w: Working, g: Numbers) -> Any:
    stop = w.given("T_s", g.stopping_time, "time", mark("Stopping time of the machine"))
    distance = _more_than(w, hand_travel(w, stop))
    w.warn(WHOLE_CHAIN, NOT_217)
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
    title=mark("Adds the penetration allowance of a 30 mm light curtain"),
    tell=mark("You added the penetration allowance of a light curtain. This rule has no such term."),
    symbol="D_s",
    changes={"D_s": plus(Fraction("3.4") * (30 - Fraction("0.276") * INCH))},
)


@dataclass(frozen=True, slots=True, kw_only=True)
class UsTwoHandTrip(Inputs):
    """Inputs of the federal rule for a two-hand trip on a full-revolution clutch."""

    strokes_per_minute: Annotated[Any, Given("SPM", mark("Strokes per minute"), "rate", above=0, bare_unit="1/minute")]
    engaging_points: Annotated[Any, Given("N", mark("Engaging points of the clutch"), "count", least=1, most=1000)]


def _two_hand_control(w: Working, g: Numbers) -> Any:
    stop = w.given("T_s", g.stopping_time, "time", mark("Stopping time of the machine"))
    distance = _more_than(w, hand_travel(w, stop))
    w.warn(WHOLE_CHAIN, NOT_217, say("Each operator has a set of hand controls, fixed in place, for both hands."))
    w.cite(sources.CFR_217_TWO_HAND, sources.OSHA_LETTER_1975, sources.WAC_TRIP)
    return distance


def _two_hand_trip(w: Working, g: Numbers) -> Any:
    rate = w.given("SPM", g.strokes_per_minute, "rate", mark("Strokes per minute"))
    points = w.given("N", g.engaging_points, "count", mark("Engaging points of the clutch"))
    turn = w.step("t_rev", mark("Time of one revolution"), "1 ÷ SPM", 1 / rate, "time")
    share = w.step(
        "f", mark("Revolutions until the dies have closed, at worst"), "1/2 + 1/N", HALF + Fraction(1, points), "number"
    )
    time = w.step("T_m", mark("Longest time from trip to closed dies"), "f × t_rev", share * turn, "time")
    distance = _more_than(
        w, hand_travel(w, time, symbol="D_m", of="T_m", label=mark("Way of the hand until the dies have closed"))
    )
    w.warn(say("A full-revolution clutch cannot be stopped in mid-stroke, so its stopping time plays no part here."))
    w.cite(sources.CFR_217_TRIP, sources.OSHA_ETOOL, sources.WAC_TRIP)
    return distance


def _more_than(w: Working, distance: Any) -> Any:
    w.sense = w.ask("sense", Sense.MORE_THAN)
    w.term("allowance", Fraction(0))
    w.term("distance", distance)
    w.warn(say("The distance must be more than the figure; equal is not enough."))
    return distance


TRIP_SLIPS = (
    Slip(
        code="half-times-share",
        title=mark("Multiplies 1/2 and 1/N instead of adding them"),
        tell=mark("You multiplied 1/2 by 1/N. They are added."),
        symbol="f",
        changes={"f": pick(lambda seen: HALF / seen["N"])},
    ),
    Slip(
        code="leaves-out-half-turn",
        title=mark("Leaves out the half revolution"),
        tell=mark("You left out the half revolution. After engaging, the ram still has to come down."),
        symbol="f",
        changes={"f": pick(lambda seen: Fraction(1, seen["N"]))},
    ),
    Slip(
        code="one-engaging-point",
        title=mark("Takes one and a half revolutions for any clutch"),
        tell=mark("You took 1 1/2 revolutions. That is for one engaging point; more of them make it shorter."),
        symbol="f",
        changes={"N": becomes(1)},
    ),
    Slip(
        code="rate-upside-down",
        title=mark("Divides the strokes per minute by 60"),
        tell=mark("You divided the strokes by 60. The time of one revolution is 60 s divided by the strokes."),
        symbol="t_rev",
        changes={"t_rev": pick(lambda seen: seen["SPM"])},
    ),
)
ADDS_250 = Slip(
    code="adds-250",
    title=mark("Adds the 250 mm of the international two-hand rule"),
    tell=mark("You added 250 mm, from the international rule. This rule adds nothing."),
    symbol="D_s",
    changes={"D_s": plus(Fraction(250))},
)
COMMON = (*SPEED_SLIPS, MORE_THAN_SLIP, *UNIT_SLIPS, *CHART_ROUNDING_SLIPS)

PROBLEMS = (
    Problem(
        name="us-presence-sensing",
        title=mark("Distance of a presence-sensing device, US press rule"),
        inputs=UsPresenceSensing,
        sum=_presence_sensing,
        answer=answer("D_s", Sense.MORE_THAN, "chart-distance"),
        slips=(ADDS_PENETRATION, *time_slips("T_s"), *COMMON),
    ),
    Problem(
        name="us-two-hand-control",
        title=mark("Distance of a two-hand control, US press rule"),
        inputs=UsPresenceSensing,
        sum=_two_hand_control,
        answer=answer("D_s", Sense.MORE_THAN, "chart-distance"),
        slips=(ADDS_PENETRATION, ADDS_250, *time_slips("T_s"), *COMMON),
    ),
    Problem(
        name="us-two-hand-trip",
        title=mark("Distance of a two-hand trip on a full-revolution clutch, US press rule"),
        inputs=UsTwoHandTrip,
        sum=_two_hand_trip,
        answer=answer("D_m", Sense.MORE_THAN, "chart-distance"),
        slips=(*TRIP_SLIPS, *COMMON),
    ),
)
