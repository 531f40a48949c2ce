"""Sums of the press brake itself: fields that keep people away, slow closing, overrun, distance by procedure."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Annotated, Any

from trainer.safeguarding import sources
from trainer.safeguarding.inputs import YES_NO, Given, Inputs, Numbers, StoppingTime
from trainer.safeguarding.problem import Problem, answer
from trainer.safeguarding.result import Sense
from trainer.safeguarding.slips import (
    INCH,
    UNIT_SLIPS,
    Cut,
    Slip,
    becomes,
    leaves_out,
    pick,
    plus,
    time_slips,
    times,
)
from trainer.safeguarding.working import Refused, Working
from trainer.units import round_up
from trainer.wording import mark, say

KEEP_AWAY = Fraction(1000)  # mm
PROMPT = Fraction(1, 5)  # s; no supplement up to here
SUPPLEMENT, BEGUN = Fraction(20), Fraction(1, 100)  # mm for each 10 ms that has begun; the source gives whole ones
SLOW = Fraction(10)  # mm/s; hold-to-run counts as hand protection up to here
HAND_DISTANCE = 4 * INCH  # mm


@dataclass(frozen=True, slots=True, kw_only=True)
class DistancingField(Inputs):
    """Inputs of a field along the floor that keeps the operator away from a press brake."""

    stopping_time: StoppingTime
    made_before_marking: Annotated[
        Any, Given("old", mark("Press brake made before marking was required"), "choice", YES_NO)
    ] = "no"


def _distancing(w: Working, g: Numbers) -> Any:
    stop = w.given("T_s", g.stopping_time, "time", mark("Stopping time of the machine"))
    old = w.given("old", g.made_before_marking, "choice", mark("Made before marking was required"))
    w.warn(
        say("Each operator has a foot switch of their own."),
        say("Where it is the operator's safeguard, the field must be of type 4."),
    )
    w.cite(sources.DGUV_008_16)
    over = w.ask("over", max(Fraction(0), stop - PROMPT))
    added = Fraction(0) if old == "yes" else SUPPLEMENT * round_up(over / BEGUN)
    formula = "0 mm" if old == "yes" else "20 mm × ⌈max(0 s, T_s − 0.2 s) ÷ 10 ms⌉"
    supplement = w.step("Z", mark("Supplement, 20 mm for each 10 ms above 200 ms that has begun"), formula, added)
    distance = w.step("S", mark("Least distance"), "1000 mm + Z", KEEP_AWAY + supplement)
    w.term("total-time", stop, "time")
    w.term("allowance", supplement)
    w.term("distance", distance)
    return distance


@dataclass(frozen=True, slots=True, kw_only=True)
class ApproachOverrun(Inputs):
    """Inputs of how far the beam still moves after the signal."""

    speed: Annotated[Any, Given("v", mark("Closing speed"), "speed", above=0)]
    response: Annotated[Any, Given("T", mark("Time until the beam stands, or until it brakes"), "time", above=0)]
    deceleration: Annotated[Any, Given("a", mark("Deceleration after that time"), "acceleration", above=0)] = None


def _overrun(w: Working, g: Numbers) -> Any:
    speed = w.given("v", g.speed, "speed", mark("Closing speed"))
    time = w.given("T", g.response, "time", mark("Time at full speed after the signal"))
    w.cite(sources.PLAIN_PHYSICS)
    w.warn(
        say("This is how far the beam moves, not how far a hand reaches. Do not compare it with a distance S."),
        say("The field of a close-proximity device must lie further ahead than this."),
    )
    way = w.step("s_1", mark("Way at full speed"), "v × T", speed * time)
    if g.deceleration is None:
        w.warn(say("With no deceleration given, full speed is assumed until standstill: the upper bound."))
        w.term("distance", way)
        return way
    brake = w.given("a", g.deceleration, "acceleration", mark("Deceleration after that time"))
    second = w.step("s_2", mark("Way while braking"), "v × v ÷ (2 × a)", speed * speed / (2 * brake))
    total = w.step("s", mark("Overrun"), "s_1 + s_2", way + second)
    w.term("distance", total)
    return total


@dataclass(frozen=True, slots=True, kw_only=True)
class ClosingTime(Inputs):
    """Inputs of how long a gap takes to close."""

    gap: Annotated[Any, Given("g", mark("Gap between the tools"), "length", above=0)]
    speed: Annotated[Any, Given("v", mark("Closing speed"), "speed", above=0)]


def _closing(w: Working, g: Numbers) -> Any:
    gap = w.given("g", g.gap, "length", mark("Gap between the tools"))
    speed = w.given("v", g.speed, "speed", mark("Closing speed"))
    if speed > SLOW:
        w.warn(say("Faster than 10 mm/s, hold-to-run does not count as protection of the hands."))
    else:
        w.warn(say("Slow closing alone is not a safeguard. It is combined with a technical measure."))
    w.cite(sources.PLAIN_PHYSICS, sources.DGUV_008_21)
    return w.step("t", mark("Time until the gap is closed"), "g ÷ v", gap / speed, "time")


@dataclass(frozen=True, slots=True, kw_only=True)
class SafeDistanceByProcedure(Inputs):
    """Inputs of working by a written safe-distance procedure, where nothing better can be done."""

    hand_distance: Annotated[Any, Given("D", mark("Distance of the hands from the die"), "length")]
    feasible_safeguard: Annotated[Any, Given("feasible", mark("A barrier or device is feasible"), "choice", YES_NO)] = (
        None
    )
    small_quantity: Annotated[Any, Given("small", mark("A custom run of small quantity"), "choice", YES_NO)] = None


FAR_ENOUGH = mark("The hands are far enough away, if every condition of the procedure is shown.")
TOO_NEAR = mark("The hands are too near. Not allowed.")


def _procedure(w: Working, g: Numbers) -> Any:
    hands = w.given("D", g.hand_distance, "length", mark("Distance of the hands from the die"))
    w.cite(sources.CPL_02_01_025)
    if g.feasible_safeguard == "yes":
        raise Refused(say("A barrier or device is feasible, so it must be used. Distance by procedure is not allowed."))
    if g.small_quantity == "no":
        raise Refused(say("Distance by procedure is for custom runs of small quantity only. Not allowed here."))
    least = w.step("D_min", mark("Least distance from the nearest outside point of the die"), "4 in", HAND_DISTANCE)
    w.word = w.ask("word", FAR_ENOUGH if hands >= least else TOO_NEAR)
    _conditions(w, g)
    w.term("distance", least)
    return least


def _conditions(w: Working, g: Numbers) -> None:
    if g.feasible_safeguard is None:
        w.warn(say("It was not said whether a barrier or device is feasible. Show first that none is."))
    if g.small_quantity is None:
        w.warn(say("It was not said whether the run is a custom one of small quantity. It must be."))
    w.warn(
        say("The shop has a history of safe operation and a programme: written procedure, training, shown ability, "
            "supervision, a yearly inspection."),
        say("It is not the mounting distance of a light curtain and has nothing to do with the stopping time."),
    )  # fmt: skip


DISTANCING_SLIPS = (
    leaves_out("Z", "leaves-out-supplement", mark("Leaves out the supplement"),
               mark("You left out the supplement. Above 200 ms the field moves out.")),
    Slip(
        code="supplement-from-nought",
        title=mark("Counts the supplement from nought"),
        tell=mark("You counted every 10 ms. Only the time above 200 ms adds."),
        symbol="Z",
        changes={"over": pick(lambda seen: seen["T_s"])},
    ),
    Slip(
        code="supplement-speed-1600",
        title=mark("Uses 16 mm for each 10 ms"),
        tell=mark("You used 16 mm for each 10 ms. It is 20 mm."),
        symbol="Z",
        changes={"Z": times(Fraction(4, 5))},
    ),
    Slip(
        code="ten-per-ten",
        title=mark("Uses 10 mm for each 10 ms"),
        tell=mark("You used 10 mm for each 10 ms. It is 20 mm."),
        symbol="Z",
        changes={"Z": times(Fraction(1, 2))},
    ),
)  # fmt: skip
OVERRUN_SLIPS = (
    Slip(
        code="leaves-out-braking",
        title=mark("Leaves out the way while braking"),
        tell=mark("You left out the way while braking."),
        symbol="s_2",
        changes={"s_2": becomes(Fraction(0))},
    ),
    Slip(
        code="forgets-the-half",
        title=mark("Forgets the 2 under the braking way"),
        tell=mark("You forgot to divide by 2. While braking the beam moves at half its speed on average."),
        symbol="s_2",
        changes={"s_2": times(2)},
    ),
    Slip(
        code="divides-by-time",
        title=mark("Divides the speed by the time"),
        tell=mark("You divided. The way is speed times time."),
        symbol="s_1",
        changes={"s_1": pick(lambda seen: seen["v"] / seen["T"])},
    ),
    Slip(
        code="per-minute-speed",
        title=mark("Takes the speed as millimetres a minute"),
        tell=mark("You took the speed as millimetres a minute. It is given a second."),
        symbol="v",
        changes={"v": times(Fraction(1, 60))},
    ),
)
CLOSING_SLIPS = (
    Slip(
        code="multiplies",
        title=mark("Multiplies gap and speed"),
        tell=mark("You multiplied. The time is the gap divided by the speed."),
        symbol="t",
        changes={"t": pick(lambda seen: seen["g"] * seen["v"])},
    ),
    Slip(
        code="upside-down",
        title=mark("Divides the speed by the gap"),
        tell=mark("You divided the wrong way round. The time is the gap divided by the speed."),
        symbol="t",
        changes={"t": pick(lambda seen: seen["v"] / seen["g"])},
    ),
    Slip(
        code="to-six-millimetres",
        title=mark("Stops counting 6 mm before the tools meet"),
        tell=mark("You stopped at 6 mm. This asks for the whole gap."),
        symbol="g",
        changes={"g": lambda value, _seen: value - 6 if value > 6 else value},
    ),
    Slip(
        code="rounds-up",
        title=mark("Rounds the time left up"),
        tell=mark("You rounded up. A time that is left is rounded down."),
        symbol="answer",
        changes={"rounding": becomes(Cut({}, up=True))},
    ),
)
PROCEDURE_SLIPS = (
    Slip(
        code="hundred-millimetres",
        title=mark("Takes 4 in as 100 mm"),
        tell=mark("You took 4 in as 100 mm. It is 101.6 mm, and 100 mm is too near."),
        symbol="D_min",
        changes={"D_min": becomes(Fraction(100))},
    ),
    Slip(
        code="three-and-a-half-inches",
        title=mark("Takes 3 1/2 in as enough"),
        tell=mark("You took 3 1/2 in. The least distance is 4 in."),
        symbol="D_min",
        changes={"D_min": plus(-INCH / 2)},
    ),
)

PROBLEMS = (
    Problem(
        name="distancing-field",
        title=mark("Distance of a field that keeps the operator away from a press brake"),
        inputs=DistancingField,
        sum=_distancing,
        answer=answer("S", Sense.AT_LEAST),
        slips=(*DISTANCING_SLIPS, *time_slips("T_s"), *UNIT_SLIPS),
    ),
    Problem(
        name="approach-overrun",
        title=mark("Overrun of the beam after the stop signal"),
        inputs=ApproachOverrun,
        sum=_overrun,
        answer=answer("s", Sense.AT_LEAST, "fine-length"),
        slips=(*OVERRUN_SLIPS, *time_slips("T"), *UNIT_SLIPS),
    ),
    Problem(
        name="closing-time",
        title=mark("Time until a gap is closed"),
        inputs=ClosingTime,
        sum=_closing,
        answer=answer("t", Sense.AT_MOST, "time"),
        slips=CLOSING_SLIPS,
    ),
    Problem(
        name="safe-distance-by-procedure",
        title=mark("Distance of the hands by a written procedure"),
        inputs=SafeDistanceByProcedure,
        sum=_procedure,
        answer=answer("D_min", Sense.AT_LEAST),
        slips=PROCEDURE_SLIPS,
    ),
)
