"""From a mounted distance back to times: how long the machine may take to stop, where the monitor must trip."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Annotated, Any

from trainer.safeguarding import sources
from trainer.safeguarding.ansi import DeviceResponse, penetration
from trainer.safeguarding.blanking import ObjectSensitivity
from trainer.safeguarding.cautions import MEASURED
from trainer.safeguarding.inputs import Given, Inputs, Numbers, StoppingTime, Unverified
from trainer.safeguarding.iso_orthogonal import BODY, FAR, HAND, NEAR, intrusion
from trainer.safeguarding.problem import Problem, answer
from trainer.safeguarding.result import Sense
from trainer.safeguarding.slips import Cut, Slip, becomes, leaves_out, times
from trainer.safeguarding.us import HAND_SPEED
from trainer.safeguarding.working import Refused, Working
from trainer.wording import mark, say

Distance = Annotated[Any, Given("D", mark("Distance as mounted"), "length", above=0)]
FIFTH = Fraction(6, 5)  # the machine's time and 20 % of it
TOO_CLOSE = say("The safeguard is mounted too close: no stopping time is short enough here.")


@dataclass(frozen=True, slots=True, kw_only=True)
class LongestStoppingTime(Inputs):
    """Inputs of the longest stopping time that a mounted distance allows."""

    distance: Distance
    object_sensitivity: ObjectSensitivity
    device_response: DeviceResponse
    basis: Annotated[Any, Given("basis", mark("Rule"), "choice", choices=("ansi", "iso", "us"))] = "ansi"
    unverified: Unverified = "no"


def _mounted(w: Working, g: Numbers) -> Any:
    distance = w.given("D", g.distance, "length", mark("Distance as mounted"))
    w.given("O_s", g.object_sensitivity, "length", mark("Object sensitivity of the curtain"))
    return distance


def by_consensus(w: Working, g: Numbers) -> Any:
    """Take the total time that the consensus form allows, in s."""
    distance = _mounted(w, g)
    depth = penetration(w, w.seen["O_s"], "O_s", from_memory=g.unverified == "yes")
    speed = w.constant("K", HAND_SPEED, "speed", mark("Hand speed of the rule"))
    total = w.step("T_max", mark("Longest time in all"), "(D − D_pf) ÷ K", (distance - depth) / speed, "time")
    w.term("allowance", depth)
    w.term("travel", distance - depth)
    w.term("hand-speed", speed, "speed")
    w.cite(sources.B11_19)
    return total


def _by_press_rule(w: Working, g: Numbers) -> Any:
    distance = _mounted(w, g)
    speed = w.constant("K", HAND_SPEED, "speed", mark("Hand speed of the rule"))
    total = w.step("T_max", mark("Time that all must stay below"), "D ÷ K", distance / speed, "time")
    w.sense = Sense.LESS_THAN
    w.warn(say("The press rule has no term for penetration. The object sensitivity plays no part in it."))
    w.warn(say("The safeguard's own response is taken off, although the rule itself has no term for it."))
    w.cite(sources.CFR_217_PSD)
    return total


def _by_international(w: Working, g: Numbers) -> Any:
    distance = _mounted(w, g)
    w.seen["d_e"] = w.seen["O_s"]
    add = intrusion(w, w.seen["O_s"], "O_s")
    if distance < NEAR:
        raise Refused(TOO_CLOSE)
    w.cite(sources.ISO_13855_6_2)
    w.term("allowance", add)
    if distance < FAR:
        speed = w.constant("K_1", HAND, "speed", mark("Speed of a hand near the machine"))
        return w.step("T_max", mark("Longest time in all"), "(D − C) ÷ K_1", (distance - add) / speed, "time")
    speed = w.constant("K_2", BODY, "speed", mark("Speed from 500 mm on"))
    return w.step("T_max", mark("Longest time in all"), "(D − C) ÷ K_2", (distance - add) / speed, "time")


RULES = {"ansi": by_consensus, "us": _by_press_rule, "iso": _by_international}


def after_device(w: Working, total: Any, g: Numbers, symbol: str, label: str) -> Any:
    """Take the safeguard's response off the total; refuse where nothing is left."""
    device = w.given("T_r", g.device_response, "time", mark("Response time of the safeguard"))
    left = w.step(symbol, label, "T_max − T_r", total - device, "time")
    if left <= 0:
        raise Refused(TOO_CLOSE)
    w.term("total-time", total, "time")
    w.term("distance", g.distance)
    return left


def _longest(w: Working, g: Numbers) -> Any:
    basis = g.basis
    total = RULES[basis](w, g)
    left = after_device(w, total, g, "T_left", mark("Left for machine, control and monitor"))
    if basis == "ansi":
        alone = w.step("T_20", mark("Of that for machine and control, where no monitor is fitted (20 % for it)"),
                       "T_left ÷ 1.2", left / FIFTH, "time")  # fmt: skip
        w.term("without-monitor", alone, "time")
        w.warn(say("Without a monitor leave about 20 % for it (a maker's advice, second hand)."))
    w.warn(say("A time is rounded down: the opposite of a distance."), MEASURED)
    return left


@dataclass(frozen=True, slots=True, kw_only=True)
class MonitorLimit(Inputs):
    """Inputs of the limit that a stopping-time monitor may be set to."""

    distance: Distance
    object_sensitivity: ObjectSensitivity
    device_response: DeviceResponse
    stopping_time: StoppingTime
    unverified: Unverified = "no"


def _monitor(w: Working, g: Numbers) -> Any:
    stop = w.given("T_s", g.stopping_time, "time", mark("Stopping time as measured, machine and control"))
    total = by_consensus(w, g)
    limit = after_device(w, total, g, "T_lim", mark("Highest limit of the monitor"))
    if stop > limit:
        raise Refused(say("The machine already takes longer to stop than the distance allows. Move the safeguard out."))
    allowance = w.step("T_bm", mark("What the monitor then lets pass"), "T_lim − T_s", limit - stop, "time")
    w.term("monitor-allowance", allowance, "time")
    w.warn(say("Set the monitor at or below the limit. It must stop the next stroke, not only show a lamp."))
    return limit


UP = Cut({}, up=True)
TIME_SLIPS = (
    Slip(
        code="leaves-out-penetration",
        title=mark("Divides the whole distance by the hand speed"),
        tell=mark("You did not take the penetration off. The hand is already that far in."),
        symbol="D_pf",
        changes={"D_pf": becomes(Fraction(0)), "C": becomes(Fraction(0))},
    ),
    Slip(
        code="adds-penetration",
        title=mark("Adds the penetration to the distance"),
        tell=mark("You added the penetration. It is taken off the distance."),
        symbol="D_pf",
        changes={"D_pf": times(-1), "C": times(-1)},
    ),
    leaves_out(
        "T_r",
        "leaves-out-device",
        mark("Leaves out the response time of the safeguard"),
        mark("You forgot the safeguard's own response time. It is taken off the total."),
    ),
    Slip(
        code="adds-device",
        title=mark("Adds the response time of the safeguard"),
        tell=mark("You added the safeguard's response time. It is taken off the total."),
        symbol="T_left",
        changes={"T_r": times(-1)},
    ),
    Slip(
        code="speed-2000",
        title=mark("Uses 2000 mm/s for the US hand speed"),
        tell=mark("You used 2000 mm/s. The hand speed here is 63 in/s."),
        symbol="K",
        changes={"K": becomes(HAND)},
    ),
    Slip(
        code="slow-speed",
        title=mark("Uses 1600 mm/s below 500 mm"),
        tell=mark("You used 1600 mm/s. Below 500 mm a hand is taken as 2000 mm/s."),
        symbol="K_1",
        changes={"K_1": becomes(BODY)},
    ),
    Slip(
        code="fast-speed",
        title=mark("Uses 2000 mm/s from 500 mm on"),
        tell=mark("You used 2000 mm/s. From 500 mm on the rule has 1600 mm/s."),
        symbol="K_2",
        changes={"K_2": becomes(HAND)},
    ),
    Slip(
        code="rounds-up",
        title=mark("Rounds a longest time up"),
        tell=mark("You rounded up. A longest time is always rounded down."),
        symbol="answer",
        changes={"rounding": becomes(UP)},
    ),
)
MONITOR_SLIPS = (
    Slip(
        code="limit-plus-fifth",
        title=mark("Takes the measured time and 20 % of it as the limit"),
        tell=mark("You added 20 % to the measured time. The limit follows from the distance."),
        symbol="T_lim",
        changes={"T_lim": lambda _value, seen: seen["T_s"] * FIFTH},
    ),
)

PROBLEMS = (
    Problem(
        name="longest-stopping-time",
        title=mark("Longest stopping time that a mounted distance allows"),
        inputs=LongestStoppingTime,
        sum=_longest,
        answer=answer("T_left", Sense.AT_MOST, "time"),
        slips=TIME_SLIPS,
    ),
    Problem(
        name="monitor-limit",
        title=mark("Highest limit of a stopping-time monitor"),
        inputs=MonitorLimit,
        sum=_monitor,
        answer=answer("T_lim", Sense.AT_MOST, "time"),
        slips=(*(slip for slip in TIME_SLIPS if slip.code not in {"slow-speed", "fast-speed"}), *MONITOR_SLIPS),
    ),
)
