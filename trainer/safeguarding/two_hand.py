"""The international forms for a two-hand control and for an interlocked guard without locking."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Annotated, Any

from trainer.safeguarding import sources
from trainer.safeguarding.inputs import YES_NO, Given, Inputs, Numbers
from trainer.safeguarding.iso_fields import HAND_SPEED, LEAVES_OUT_DEVICE
from trainer.safeguarding.iso_orthogonal import (
    BODY,
    FAR,
    HAND,
    NEAR,
    DeviceTime,
    MachineStop,
    finish,
    overall_time,
)
from trainer.safeguarding.problem import Problem, answer
from trainer.safeguarding.result import Sense
from trainer.safeguarding.slips import DISTANCE_SLIPS, Slip, becomes, leaves_out, swap_for, time_slips, times
from trainer.safeguarding.working import Seen, Working
from trainer.wording import mark, say

ENCROACH = Fraction(250)  # mm
NEW_EDITION_HANDS = say(
    "The 2024 edition asks for 550 mm instead of 250 mm (from a page on its draft, not confirmed). Check which edition "
    "binds you."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class IsoTwoHandControl(Inputs):
    """Inputs of the rule for a two-hand control."""

    stopping_time: MachineStop
    device_response: DeviceTime
    shrouded: Annotated[Any, Given("shrouded", mark("Shrouds stop a hand from moving in"), "choice", YES_NO)] = "no"


def _two_hand(w: Working, g: Numbers) -> Any:
    total = overall_time(w, g)
    shrouded = w.given("shrouded", g.shrouded, "choice", mark("Shrouds stop a hand from moving towards the hazard"))
    speed = w.constant("K", BODY, "speed", mark("Speed of a hand that leaves a button"))
    w.warn(NEW_EDITION_HANDS, say("It protects only the person whose two hands are on it."))
    w.warn(say("Measure with a tape from the centre of the button, round the shroud, to the nearest hazard."))
    w.cite(sources.ISO_13855_8, sources.DGUV_030_7)
    if shrouded == "yes":
        return _shrouded(w, total, speed)
    add = w.step("C", mark("What a hand may move in before it counts"), "250 mm", ENCROACH)
    distance = w.step("S", mark("Distance with that speed"), "K × T + C", speed * total + add)
    return finish(w, distance, speed, total, add)


def _shrouded(w: Working, total: Any, speed: Any) -> Any:
    add = w.step("C", mark("Nothing is added behind shrouds"), "0 mm", Fraction(0))
    first = w.step("S_1", mark("Distance with that speed"), "K × T + C", speed * total + add)
    floored = w.ask("floor", max(NEAR, first))
    distance = w.step("S", mark("Not closer than 100 mm"), "max(100 mm, S_1)", floored)
    return finish(w, distance, speed, total, add)


@dataclass(frozen=True, slots=True, kw_only=True)
class IsoInterlockedGuard(Inputs):
    """Inputs of the rule for an interlocked guard without guard locking."""

    stopping_time: MachineStop
    device_response: DeviceTime = None
    opening_credit: Annotated[
        Any, Given("t_3", mark("Time until the guard is open far enough to reach in"), "time")
    ] = None
    intrusion: Annotated[Any, Given("C", mark("Reach through the gap before the stop signal"), "length")] = None


def _guard(w: Working, g: Numbers) -> Any:
    first = w.given("t_1", g.device_response or Fraction(0), "time", mark("Response time of the interlock"))
    second = w.given("t_2", g.stopping_time, "time", mark("Stopping time of the machine"))
    credit = w.given("t_3", g.opening_credit or Fraction(0), "time", mark("Time until the guard lets a hand in"))
    add = w.given("C", g.intrusion or Fraction(0), "length", mark("Reach through the gap before the stop signal"))
    left = w.ask("left", first + second - credit)
    total = w.step("T", mark("Time until everything stands still"), "max(0 s, t_1 + t_2 − t_3)", max(Fraction(0), left),
                   "time")  # fmt: skip
    w.term("total-time", total, "time")
    speed = w.constant("K", BODY, "speed", mark("Speed of a body or an arm"))
    distance = w.step("S", mark("Distance with that speed"), "K × T + C", speed * total + add)
    w.warn(
        say("Where this distance cannot be kept, the guard needs locking until everything stands still."),
        say("A plain interlock will do only while reaching the hazard takes longer than stopping it."),
    )
    w.cite(sources.ISO_13855_9, sources.ISO_14119)
    return finish(w, distance, speed, total, add)


def _hand_reach(seen: Seen) -> Any:
    # Up to 500 mm the two speeds of a curtain come to what 2000 mm/s alone gives; only beyond are they a slip of their own.
    return HAND * seen["T"] + seen["C"]


TWO_HAND_SLIPS = (
    HAND_SPEED,
    Slip(
        code="leaves-out-250",
        title=mark("Leaves out the 250 mm although there are no shrouds"),
        tell=mark("You left out 250 mm. Only shrouds make it nought."),
        symbol="C",
        changes={"C": lambda value, _seen: Fraction(0) if value == ENCROACH else value},
    ),
    Slip(
        code="adds-250-behind-shrouds",
        title=mark("Adds 250 mm although shrouds stop the hand"),
        tell=mark("You added 250 mm. Behind shrouds nothing is added."),
        symbol="C",
        changes={"C": lambda value, _seen: ENCROACH if value == 0 else value},
    ),
    Slip(
        code="no-100-floor",
        title=mark("Forgets the floor of 100 mm"),
        tell=mark("You forgot the floor. The distance is never less than 100 mm."),
        symbol="S",
        changes={"floor": swap_for("S_1")},
    ),
    Slip(
        code="adds-500-floor",
        title=mark("Uses the floor of 500 mm of a light curtain"),
        tell=mark("You used the floor of 500 mm. That belongs to light curtains."),
        symbol="S",
        changes={"S": lambda value, seen: max(value, FAR) if _hand_reach(seen) <= FAR else value},
    ),
    Slip(
        code="two-speeds",
        title=mark("Uses the two speeds of a light curtain"),
        tell=mark("You used 2000 mm/s and then 1600 mm/s. A two-hand control has 1600 mm/s only."),
        symbol="S",
        changes={"S": lambda value, seen: max(value, FAR) if _hand_reach(seen) > FAR else value},
    ),
    Slip(
        code="draft-550",
        title=mark("Uses the 550 mm of the later edition's draft"),
        tell=mark("You used 550 mm. This asks for the 2010 edition: 250 mm."),
        symbol="C",
        changes={"C": lambda value, _seen: Fraction(550) if value == ENCROACH else value},
    ),
    LEAVES_OUT_DEVICE,
)
GUARD_SLIPS = (
    HAND_SPEED,
    LEAVES_OUT_DEVICE,
    leaves_out(
        "C",
        "leaves-out-intrusion",
        mark("Leaves out the reach through the gap"),
        mark("You left out C. A hand can reach through the gap before the stop signal comes."),
    ),
    leaves_out(
        "t_3",
        "leaves-out-credit",
        mark("Leaves out the time that the guard takes to open"),
        mark("You left out the opening time. It may be taken away, so the distance can be shorter."),
    ),
    Slip(
        code="adds-credit",
        title=mark("Adds the time that the guard takes to open"),
        tell=mark("You added the opening time. It is taken away."),
        symbol="T",
        changes={"t_3": times(-1)},
    ),
    Slip(
        code="two-hand-reach",
        title=mark("Uses the 250 mm of a two-hand control"),
        tell=mark("You used 250 mm, from the two-hand rule. Here C is the reach through the gap."),
        symbol="C",
        changes={"C": becomes(ENCROACH)},
    ),
)


PROBLEMS = (
    Problem(
        name="iso-two-hand-control",
        title=mark("Distance of a two-hand control, international rule"),
        inputs=IsoTwoHandControl,
        sum=_two_hand,
        answer=answer("S", Sense.AT_LEAST),
        slips=(*TWO_HAND_SLIPS, *time_slips("t_1", "t_2"), *DISTANCE_SLIPS),
    ),
    Problem(
        name="iso-interlocked-guard",
        title=mark("Distance of an interlocked guard without locking, international rule"),
        inputs=IsoInterlockedGuard,
        sum=_guard,
        answer=answer("S", Sense.AT_LEAST),
        slips=(*GUARD_SLIPS, *time_slips("t_1", "t_2", "t_3"), *DISTANCE_SLIPS),
    ),
)
