"""The federal rule for a press that the sensing device itself starts: ``D_s = H_s × (T_s + T_p + T_r + 2 T_m) + D_p``."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Annotated, Any

from trainer.errors import UsageError
from trainer.safeguarding import sources
from trainer.safeguarding.inputs import Given, Inputs, Numbers, Unverified
from trainer.safeguarding.problem import Problem, answer
from trainer.safeguarding.result import Sense
from trainer.safeguarding.slips import DISTANCE_SLIPS, Slip, leaves_out, pick, time_slips, times
from trainer.safeguarding.us import HAND_SPEED
from trainer.safeguarding.working import Working
from trainer.wording import mark, say

AVERAGES = 3  # at about 45, 60 and 90 degrees of the crank
NOT_USED = say("No organisation was ever recognised to validate this mode, so it has not been used in practice.")
FROM_MEMORY = say(
    "The definitions of the terms of this sum are known from memory only. unverified=yes uses them, and says so."
)
MONITOR_CAP = say(  # 29 CFR 1910.217(h)(5)(iii), second hand; the stop at the top of the stroke is not among the inputs
    "Check the monitor by hand: it may let pass no more than the longer of 10 % of the longest stopping time at the top "
    "of the stroke and 10 ms."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class UsSelfInitiation(Inputs):
    """Inputs of the federal rule for presence-sensing device initiation."""

    stopping_times: Annotated[
        Any, Given("T_abc", mark("Averages of the stopping time at three crank positions"), "list", above=0)
    ]
    press_response: Annotated[Any, Given("T_p", mark("Response time of the press control"), "time")]
    device_response: Annotated[Any, Given("T_r", mark("Response time of the sensing device"), "time")]
    monitor_allowance: Annotated[Any, Given("T_m", mark("Increase that the brake monitor lets pass"), "time")]
    penetration: Annotated[Any, Given("D_p", mark("Penetration before the hand is seen"), "length")]
    unverified: Unverified = "no"

    def agree(self) -> None:
        """Refuse anything but three averages."""
        if len(self.stopping_times) != AVERAGES:
            raise UsageError(say("stopping-times: give three averages, such as 142 ms, 150 ms, 147 ms."))


def _sum(w: Working, g: Numbers) -> Any:
    w.from_memory(FROM_MEMORY, g.unverified)
    averages = w.given("T_abc", g.stopping_times, "list", mark("Averages of the stopping time at three positions"))
    press = w.given("T_p", g.press_response, "time", mark("Response time of the press control"))
    device = w.given("T_r", g.device_response, "time", mark("Response time of the sensing device"))
    monitor = w.given("T_m", g.monitor_allowance, "time", mark("Increase that the brake monitor lets pass"))
    depth = w.given("D_p", g.penetration, "length", mark("Penetration before the hand is seen"))
    stop = w.step("T_s", mark("Longest of the three averages"), "max(T_abc)", max(averages), "time")
    twice = w.ask("twice", 2 * monitor)
    total = w.step(
        "T", mark("Time until everything stands still"), "T_s + T_p + T_r + 2 × T_m", stop + press + device + twice,
        "time",
    )  # fmt: skip
    speed = w.constant("H_s", HAND_SPEED, "speed", mark("Hand speed of the rule"))
    travel = w.step("D_t", mark("Way of the hand in that time"), "H_s × T", speed * total)
    distance = w.step("D_s", mark("Least distance from the hazard"), "D_t + D_p", travel + depth)
    for name, value in (("travel", travel), ("allowance", depth), ("distance", distance)):
        w.term(name, value)
    w.term("total-time", total, "time")
    w.term("hand-speed", speed, "speed")
    w.warn(NOT_USED, MONITOR_CAP, say("The penetration is read from a graph of the rule. No beam may be blanked."))
    w.cite(sources.CFR_217_H9, sources.CFR_217_H9_TERMS, sources.CFR_217_H5, sources.NOT_VALIDATED)
    return distance


SLIPS = (
    Slip(
        code="monitor-once",
        title=mark("Counts the monitor's increase once"),
        tell=mark("You counted the monitor's increase once. The rule counts it twice."),
        symbol="T",
        changes={"twice": pick(lambda seen: seen["T_m"])},
    ),
    Slip(
        code="mean-of-positions",
        title=mark("Takes the mean of the three averages"),
        tell=mark("You took the mean of the three positions. The longest counts."),
        symbol="T_s",
        changes={"T_s": pick(lambda seen: sum(seen["T_abc"], Fraction(0)) / AVERAGES)},
    ),
    Slip(
        code="shortest-position",
        title=mark("Takes the shortest of the three averages"),
        tell=mark("You took the shortest of the three positions. The longest counts."),
        symbol="T_s",
        changes={"T_s": pick(lambda seen: min(seen["T_abc"]))},
    ),
    leaves_out(
        "D_p",
        "leaves-out-penetration",
        mark("Leaves out the penetration"),
        mark("You left out the penetration. A hand gets part of the way in before it is seen."),
    ),
    leaves_out(
        "T_p",
        "leaves-out-press-response",
        mark("Leaves out the response time of the press control"),
        mark("You left out the response time of the press control."),
    ),
    leaves_out(
        "T_r",
        "leaves-out-device",
        mark("Leaves out the response time of the sensing device"),
        mark("You left out the response time of the sensing device."),
    ),
    Slip(
        code="subtracts-penetration",
        title=mark("Subtracts the penetration"),
        tell=mark("You took the penetration away. It is added, because the hand is already that far in."),
        symbol="D_s",
        changes={"D_p": times(-1)},
    ),
)

PROBLEMS = (
    Problem(
        name="us-self-initiation",
        title=mark("Distance of a sensing device that starts the press, US press rule"),
        inputs=UsSelfInitiation,
        sum=_sum,
        answer=answer("D_s", Sense.AT_LEAST),
        slips=(*SLIPS, *time_slips("T"), *DISTANCE_SLIPS),
    ),
)
