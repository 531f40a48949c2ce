"""The US consensus form: ``D_s = K × (T_s + T_c + T_r + T_bm) + D_pf``."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Annotated, Any

from trainer.safeguarding import blanking, sources
from trainer.safeguarding.blanking import BeamPitch, BeamsBlanked, ObjectSensitivity
from trainer.safeguarding.inputs import Given, Inputs, Numbers, StoppingTime, Unverified
from trainer.safeguarding.problem import Problem, answer
from trainer.safeguarding.result import Sense
from trainer.safeguarding.slips import (
    DISTANCE_SLIPS,
    INCH,
    Slip,
    becomes,
    leaves_out,
    pick,
    time_slips,
    times,
)
from trainer.safeguarding.us import ADDS_250, ADDS_PENETRATION, HAND_SPEED, SPEED_SLIPS
from trainer.safeguarding.working import Working
from trainer.wording import mark, say

SHALLOW = Fraction("0.276") * INCH  # mm; the published inch form is the one used, its metric twin says 7 mm
SLOPE = Fraction("3.4")
COARSE = Fraction("2.5") * INCH  # mm; from here on the line does not hold
REACH_THROUGH = 36 * INCH  # mm, from memory
ROUND_SPEED = Fraction(1600)  # mm/s, as sources round 63 in/s
TIMES = ("T_s", "T_c", "T_r", "T_bm")
NO_MONITOR = say(
    "Without a monitor of the stopping time, add about 20 % of the machine's and control's time as its allowance "
    "(a maker's advice, second hand)."
)
MEASURED_TOGETHER = say(
    "Stopping time and control response are often measured together. Then give the control response as 0."
)


ControlResponse = Annotated[Any, Given("T_c", mark("Response time of the control"), "time")]
DeviceResponse = Annotated[Any, Given("T_r", mark("Response time of the safeguard and its interface"), "time")]
MonitorAllowance = Annotated[Any, Given("T_bm", mark("Extra stopping time that the monitor lets pass"), "time")]
HandSpeed = Annotated[Any, Given("K", mark("Hand speed, 63 in/s or more"), "speed", least=HAND_SPEED)]


@dataclass(frozen=True, slots=True, kw_only=True)
class AnsiPresenceSensing(Inputs):
    """Inputs of the consensus form for a light curtain met at a right angle."""

    stopping_time: StoppingTime
    control_response: ControlResponse
    device_response: DeviceResponse
    monitor_allowance: MonitorAllowance
    object_sensitivity: ObjectSensitivity
    beams_blanked: BeamsBlanked = 0
    beam_pitch: BeamPitch = None
    hand_speed: HandSpeed = None
    unverified: Unverified = "no"

    def agree(self) -> None:
        """Refuse blanked beams without a pitch."""
        blanking.needs_pitch(self)


def total_time(w: Working, g: Numbers) -> Any:
    """Take the time from the first touch of the field to standstill, in s."""
    stop = w.given("T_s", g.stopping_time, "time", mark("Stopping time of the machine"))
    control = w.given("T_c", g.control_response, "time", mark("Response time of the control"))
    device = w.given("T_r", g.device_response, "time", mark("Response time of the safeguard"))
    monitor = w.given("T_bm", g.monitor_allowance, "time", mark("Allowance of the stopping-time monitor"))
    total = w.step(
        "T", mark("Time until everything stands still"), " + ".join(TIMES), stop + control + device + monitor, "time"
    )
    w.term("total-time", total, "time")
    return total


def penetration(w: Working, seen_size: Any, symbol: str, *, from_memory: bool = False) -> Any:
    """Take ``D_pf``, how far a hand gets into the field before it is seen, in mm."""
    if w.ask("coarse", seen_size >= COARSE):
        return _coarse(w, from_memory=from_memory)
    shallow = w.ask("shallow", SHALLOW)
    value = SLOPE * (seen_size - shallow)
    formula = f"3.4 × ({symbol} − 0.276 in)"
    if value < 0 and w.ask("clamp", 1):
        value, formula = Fraction(0), f"max(0 mm, {formula})"
    value = w.step("D_pf", mark("Penetration before the hand is seen"), formula, value)
    w.cite(sources.B11_19_DPF)
    return value


COARSE_FIELD = say(
    "An object sensitivity of 63.5 mm (2.5 in) or more is outside this formula: it no longer sees a hand. "
    "The reach-through allowance is known from memory only; unverified=yes uses it."
)


def _coarse(w: Working, *, from_memory: bool) -> Any:
    w.from_memory(COARSE_FIELD, "yes" if from_memory else "no")
    w.cite(sources.B11_19_COARSE)
    return w.step("D_pf", mark("Allowance for reaching through"), "36 in", REACH_THROUGH)


def _presence_sensing(w: Working, g: Numbers) -> Any:
    total = total_time(w, g)
    size = blanking.effective(w, g.object_sensitivity, g.beams_blanked, g.beam_pitch, ("O_s", "O_eff"))
    symbol = "O_eff" if g.beams_blanked else "O_s"
    depth = penetration(w, size, symbol, from_memory=g.unverified == "yes")
    speed = w.constant("K", g.hand_speed or HAND_SPEED, "speed", mark("Hand speed, at least 63 in/s"))
    travel = w.step("D_t", mark("Way of the hand in that time"), "K × T", speed * total)
    distance = w.step("D_s", mark("Least distance from the hazard"), "D_t + D_pf", travel + depth)
    w.term("hand-speed", speed, "speed")
    w.term("travel", travel)
    w.term("allowance", depth)
    w.term("distance", distance)
    w.warn(MEASURED_TOGETHER)
    if not g.monitor_allowance:
        w.warn(NO_MONITOR)
    w.cite(sources.B11_19)
    return distance


@dataclass(frozen=True, slots=True, kw_only=True)
class AnsiTwoHandControl(Inputs):
    """Inputs of the consensus form for a two-hand control."""

    stopping_time: StoppingTime
    control_response: ControlResponse
    device_response: DeviceResponse
    monitor_allowance: MonitorAllowance
    unverified: Unverified = "no"


NO_PENETRATION = say(
    "That no penetration is added for a two-hand control is known from memory only. unverified=yes uses it, and says so."
)


def _two_hand_control(w: Working, g: Numbers) -> Any:
    w.from_memory(NO_PENETRATION, g.unverified)
    total = total_time(w, g)
    speed = w.constant("K", HAND_SPEED, "speed", mark("Hand speed, at least 63 in/s"))
    distance = w.step("D_s", mark("Least distance from the hazard"), "K × T", speed * total)
    w.term("hand-speed", speed, "speed")
    w.term("travel", distance)
    w.term("allowance", Fraction(0))
    w.term("distance", distance)
    w.warn(MEASURED_TOGETHER, say("It protects only the person whose two hands are on it."))
    if not g.monitor_allowance:
        w.warn(NO_MONITOR)
    w.cite(sources.B11_19, sources.B11_19_TWO_HAND)
    return distance


TERM_SLIPS = (
    leaves_out(
        "T_bm",
        "leaves-out-monitor",
        mark("Leaves out the allowance of the monitor"),
        mark("You left out the monitor's allowance. The brake may get that much slower before it is stopped."),
    ),
    leaves_out(
        "T_r",
        "leaves-out-device",
        mark("Leaves out the response time of the safeguard"),
        mark("You left out the safeguard's own response time."),
    ),
    leaves_out(
        "T_c",
        "leaves-out-control",
        mark("Leaves out the response time of the control"),
        mark("You left out the control's response time."),
    ),
    Slip(
        code="control-twice",
        title=mark("Counts the response time of the control twice"),
        tell=mark("You counted the control's response time twice."),
        symbol="T",
        changes={"T_c": times(2)},
    ),
    Slip(
        code="fifth-of-everything",
        title=mark("Takes 20 % of all times as the monitor's allowance"),
        tell=mark("You took 20 % of all times for the monitor. Its allowance was given."),
        symbol="T_bm",
        changes={"T_bm": pick(lambda seen: (seen["T_s"] + seen["T_c"] + seen["T_r"]) / 5)},
    ),
)
PENETRATION_SLIPS = (
    leaves_out(
        "D_pf",
        "leaves-out-penetration",
        mark("Leaves out the penetration allowance"),
        mark("You left out the penetration allowance. A hand gets part of the way in before it is seen."),
    ),
    Slip(
        code="bare-press-rule",
        title=mark("Uses 63 in/s times the stopping time alone"),
        tell=mark("You used the bare press rule. This form also counts control, safeguard, monitor and penetration."),
        symbol="T",
        changes={"T": pick(lambda seen: seen["T_s"]), "D_pf": becomes(Fraction(0))},
    ),
    Slip(
        code="leaves-out-monitor-and-penetration",
        title=mark("Leaves out the monitor's allowance and the penetration allowance"),
        tell=mark("You left out two terms: the monitor's allowance and the penetration allowance."),
        symbol="D_s",
        changes={"T_bm": becomes(Fraction(0)), "D_pf": becomes(Fraction(0))},
    ),
    Slip(
        code="subtracts-penetration",
        title=mark("Subtracts the penetration allowance"),
        tell=mark("You took the penetration allowance away. It is added, because the hand is already that far in."),
        symbol="D_s",
        changes={"D_pf": times(-1)},
    ),
    Slip(
        code="loses-the-bracket",
        title=mark("Loses the bracket in 3.4 × (O − 0.276 in)"),
        tell=mark("You multiplied only the sensitivity by 3.4. Take 0.276 in away first, then multiply."),
        symbol="D_pf",
        changes={"D_pf": pick(lambda seen: SLOPE * seen["O_eff"] - SHALLOW)},
    ),
    Slip(
        code="sensitivity-as-penetration",
        title=mark("Takes the object sensitivity itself as the penetration allowance"),
        tell=mark("You added the object sensitivity itself. The allowance is 3.4 times what is over 0.276 in."),
        symbol="D_pf",
        changes={"D_pf": pick(lambda seen: seen["O_eff"])},
    ),
    Slip(
        code="millimetres-in-inch-formula",
        title=mark("Puts millimetres into the inch formula"),
        tell=mark("You put millimetres where the formula wants inches. Divide by 25.4 first."),
        symbol="D_pf",
        changes={"D_pf": pick(lambda seen: SLOPE * (seen["O_eff"] * INCH - SHALLOW))},
    ),
    Slip(
        code="penetration-inside-bracket",
        title=mark("Multiplies the penetration allowance by the hand speed"),
        tell=mark("You put the penetration allowance into the bracket with the times. It is added at the end."),
        symbol="D_s",
        changes={"D_pf": times(HAND_SPEED / INCH)},
    ),
    Slip(
        code="adds-inches-to-millimetres",
        title=mark("Adds the penetration in inches to a distance in millimetres"),
        tell=mark("You added inches to millimetres. Bring both to one unit first."),
        symbol="D_s",
        changes={"D_pf": times(1 / INCH)},
    ),
    Slip(
        code="mixed-sum-as-inches",
        title=mark("Adds millimetres and inches and takes the sum for inches"),
        tell=mark("You added millimetres to inches and took the sum for inches. Bring both to one unit first."),
        symbol="D_s",
        changes={"K": becomes(ROUND_SPEED), "D_pf": times(1 / INCH), "answer": times(INCH)},
    ),
    Slip(
        code="pitch-added-to-distance",
        title=mark("Adds one beam pitch for each blanked beam to the distance"),
        tell=mark(
            "You added the beam pitch to the distance. It adds to the sensitivity, so the distance grows 3.4 times as much."
        ),
        symbol="D_pf",
        changes={
            "O_eff": pick(lambda seen: seen["O_s"]),
            "D_pf": lambda value, seen: value + seen.get("n", 0) * seen.get("p", 0),
        },
    ),
    Slip(
        code="formula-beyond-limit",
        title=mark("Uses the formula although the curtain no longer sees a hand"),
        tell=mark("The formula ends at 63.5 mm. A coarser field does not see a hand at all."),
        symbol="D_pf",
        changes={"coarse": becomes(other=False)},
    ),
)


PROBLEMS = (
    Problem(
        name="ansi-presence-sensing",
        title=mark("Distance of a light curtain, US consensus form"),
        inputs=AnsiPresenceSensing,
        sum=_presence_sensing,
        answer=answer("D_s", Sense.AT_LEAST),
        slips=(
            *blanking.blanking_slips("O_s", "O_eff"),
            *TERM_SLIPS,
            *PENETRATION_SLIPS,
            *SPEED_SLIPS,
            *time_slips(*TIMES),
            *DISTANCE_SLIPS,
        ),
    ),
    Problem(
        name="ansi-two-hand-control",
        title=mark("Distance of a two-hand control, US consensus form"),
        inputs=AnsiTwoHandControl,
        sum=_two_hand_control,
        answer=answer("D_s", Sense.AT_LEAST),
        slips=(ADDS_PENETRATION, ADDS_250, *TERM_SLIPS, *SPEED_SLIPS, *time_slips(*TIMES), *DISTANCE_SLIPS),
    ),
)
