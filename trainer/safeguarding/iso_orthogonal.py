"""The international form for a field met at a right angle: ``S = K × T + C`` with its two speeds and two floors."""

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from typing import Annotated, Any

from trainer.safeguarding import blanking, reach, sources
from trainer.safeguarding.blanking import BeamPitch, BeamsBlanked
from trainer.safeguarding.inputs import Given, Inputs, Numbers
from trainer.safeguarding.problem import Problem, answer
from trainer.safeguarding.reach import EdgeHeight, HazardHeight
from trainer.safeguarding.result import Sense
from trainer.safeguarding.slips import DISTANCE_SLIPS, Slip, becomes, leaves_out, pick, swap_for, time_slips
from trainer.safeguarding.tables import band_of
from trainer.safeguarding.working import Refused, Working
from trainer.wording import mark, say

HAND, BODY = Fraction(2000), Fraction(1600)  # mm/s: a hand near the machine; a hand or body further out
NEAR, FAR = Fraction(100), Fraction(500)  # mm: never closer than; never closer than once 1600 mm/s is used
FINE, COARSEST = Fraction(40), Fraction(70)  # mm: detects a hand up to; still a curtain up to
ARM = Fraction(850)  # mm, an arm to the shoulder
TOO_COARSE = say("A detection capability above 70 mm does not protect as a light curtain. Use another safeguard.")


MachineStop = Annotated[Any, Given("t_2", mark("Stopping time of the machine, as measured"), "time", above=0)]
DeviceTime = Annotated[Any, Given("t_1", mark("Response time of the safeguard and its interface"), "time")]
Capability = Annotated[Any, Given("d", mark("Detection capability of the field, no beam blanked"), "length", above=0)]


def overall_time(w: Working, g: Numbers) -> Any:
    """Take the overall time until standstill, in s."""
    first = w.given("t_1", g.device_response, "time", mark("Response time of the safeguard"))
    second = w.given("t_2", g.stopping_time, "time", mark("Stopping time of the machine"))
    total = w.step("T", mark("Time until everything stands still"), "t_1 + t_2", first + second, "time")
    w.term("total-time", total, "time")
    return total


def intrusion(w: Working, size: Any, symbol: str) -> Any:
    """Take ``C`` for a detection capability in mm; above 70 mm there is no such curtain."""
    if size > COARSEST:
        raise Refused(TOO_COARSE)
    if w.ask("above-fine", size > FINE):
        w.warn(say("Above 40 mm a hand is not seen at all; the whole arm is assumed to reach through."))
        return w.step("C", mark("Reach before the arm is seen"), "850 mm", ARM)
    value, formula = 8 * (size - 14), f"8 × ({symbol} − 14 mm)"
    if value < 0 and w.ask("clamp", 1):
        value, formula = Fraction(0), f"max(0 mm, {formula})"
    return w.step("C", mark("Reach before the hand is seen"), formula, value)


@dataclass(frozen=True, slots=True)
class Names:
    """The symbols of one run of the two-speed rule: through the field, or over it. ``floor`` is its place."""

    first: str
    second: str
    result: str
    add: str
    floor: str


THROUGH = Names("S_1", "S_2", "S", "C", "floor-through")
THROUGH_TOO = Names("S_1", "S_2", "S_RT", "C", "floor-through")
OVER = Names("S_3", "S_4", "S_RO", "C_RO", "floor-over")


def two_speeds(w: Working, total: Any, add: Any, names: Names = THROUGH) -> tuple[Any, Any]:
    """Take ``S`` in mm by the rule of two speeds and two floors; returns it and the speed that governed."""
    hand = w.constant("K_1", HAND, "speed", mark("Speed of a hand near the machine"))
    body = w.constant("K_2", BODY, "speed", mark("Speed further out"))
    first = w.step(names.first, mark("Distance with the speed of a hand"), f"K_1 × T + {names.add}", hand * total + add)
    if not w.ask("beyond", first > FAR):
        floored = w.ask(names.floor, max(NEAR, first))
        return w.step(names.result, mark("Not closer than 100 mm"), f"max(100 mm, {names.first})", floored), hand
    label = mark("More than 500 mm, so again with 1600 mm/s")
    second = w.step(names.second, label, f"K_2 × T + {names.add}", body * total + add)
    floored = w.ask(names.floor, max(FAR, second))
    return w.step(names.result, mark("Then not closer than 500 mm"), f"max(500 mm, {names.second})", floored), body


def finish(w: Working, distance: Any, speed: Any, total: Any, add: Any) -> Any:
    """Keep what drawings and feedback need, and hand the distance on."""
    w.term("hand-speed", speed, "speed")
    w.term("travel", speed * total)
    w.term("allowance", add)
    w.term("distance", distance)
    return distance


@dataclass(frozen=True, slots=True, kw_only=True)
class IsoPresenceSensing(Inputs):
    """Inputs of the general international rule for a light curtain met at a right angle."""

    stopping_time: MachineStop
    device_response: DeviceTime
    detection_capability: Capability
    beams_blanked: BeamsBlanked = 0
    beam_pitch: BeamPitch = None
    hazard_height: HazardHeight = None
    upper_edge_height: EdgeHeight = None

    def agree(self) -> None:
        """Refuse blanked beams without a pitch, and one height without the other."""
        blanking.needs_pitch(self)
        reach.both_or_none(self)


def larger_of_over(w: Working, g: Numbers, total: Any, through: tuple[Any, Any, Any]) -> Any:
    """Take the larger of the distances through and over the field; ``through`` is distance, speed and reach."""
    distance, speed, add = through
    if g.hazard_height is None:
        w.warn(reach.NOT_CHECKED)
        return finish(w, distance, speed, total, add)
    over_add = reach.field_reach(w, g.hazard_height, g.upper_edge_height)
    over, over_speed = two_speeds(w, total, over_add, OVER)
    if over > distance:
        speed, add = over_speed, over_add
    label = mark("The larger of the two, through and over")
    distance = w.step("S", label, "max(S_RT, S_RO)", max(distance, over))
    return finish(w, distance, speed, total, add)


def _presence_sensing(w: Working, g: Numbers) -> Any:
    total = overall_time(w, g)
    size = blanking.effective(w, g.detection_capability, g.beams_blanked, g.beam_pitch, ("d", "d_e"))
    add = intrusion(w, size, "d_e" if g.beams_blanked else "d")
    distance, speed = two_speeds(w, total, add, THROUGH if g.hazard_height is None else THROUGH_TOO)
    w.cite(sources.ISO_13855_6_2)
    return larger_of_over(w, g, total, (distance, speed, add))


@dataclass(frozen=True, slots=True, kw_only=True)
class PressTablePresenceSensing(Inputs):
    """Inputs of the press standards' rule, with a stepped supplement."""

    stopping_time: MachineStop
    device_response: DeviceTime
    detection_capability: Capability


def _press_table(w: Working, g: Numbers) -> Any:
    total = overall_time(w, g)
    size = w.given("d", g.detection_capability, "length", mark("Detection capability of the field"))
    w.seen["d_e"] = size
    row = band_of("press-intrusion", size)
    if row is None:
        raise Refused(TOO_COARSE)
    add = w.step("C", mark("Supplement, from the press table"), "table(d)", Fraction(row.cells["c"]))
    if row.cells["cycle_start"] == "no":
        w.warn(say("With this detection capability the curtain must not start the cycle."))
    distance, speed = two_speeds(w, total, add)
    w.warn(say("Measure from the centre of the curtain to the nearest hazard. This rule is for newer, marked presses."))
    w.cite(sources.DGUV_030_7)
    return finish(w, distance, speed, total, add)


def _slip(code: str, title: str, tell: str, symbol: str, **changes: Callable[[Any, Any], Any]) -> Slip:
    return Slip(code=code, title=title, tell=tell, symbol=symbol, changes=changes)


def _slow_where_fast_is_due(value: Any, seen: Any) -> Any:
    # Beyond 500 mm the rule has 1600 mm/s as well; what is missing there is the floor, and that is its own slip.
    return BODY if value * seen["T"] + seen.get("C_RO", seen["C"]) <= FAR else value


SPEED_SLIPS = (
    _slip(
        "no-500-floor",
        mark("Forgets the floor of 500 mm after working it out again"),
        mark("You forgot the floor. Once 1600 mm/s is used, the distance is never less than 500 mm."),
        "S",
        **{
            "floor-through": lambda value, seen: seen["S_2"] if seen["beyond"] else value,
            "floor-over": lambda value, seen: seen["S_4"] if seen["beyond"] else value,
        },
    ),
    _slip(
        "no-second-speed",
        mark("Does not work it out again with 1600 mm/s"),
        mark("You stayed with 2000 mm/s. Above 500 mm the rule works it out again with 1600 mm/s."),
        "S_2",
        beyond=becomes(other=False),
    ),
    _slip(
        "slow-speed-first",
        mark("Uses 1600 mm/s from the start"),
        mark("You used 1600 mm/s, the speed of walking. A hand near the machine is taken as 2000 mm/s."),
        "K_1",
        K_1=_slow_where_fast_is_due,
    ),
    _slip(
        "no-100-floor",
        mark("Forgets the floor of 100 mm"),
        mark("You forgot the floor. The distance is never less than 100 mm."),
        "S",
        **{
            "floor-through": lambda value, seen: value if seen["beyond"] else seen["S_1"],
            "floor-over": lambda value, seen: value if seen["beyond"] else seen["S_3"],
        },
    ),
)
INTRUSION_SLIPS = (
    leaves_out(
        "t_1",
        "leaves-out-device",
        mark("Leaves out the response time of the safeguard"),
        mark("You left out the safeguard's own response time."),
    ),
    leaves_out(
        "C",
        "leaves-out-intrusion",
        mark("Leaves out the reach before the hand is seen"),
        mark("You left out C. A hand gets part of the way in before it is seen."),
    ),
    _slip(
        "negative-intrusion",
        mark("Lets C go below nought for a fine curtain"),
        mark("You took a negative C. Below 14 mm it is nought, never less."),
        "C",
        clamp=becomes(0),
    ),
    _slip(
        "line-above-40",
        mark("Uses 8 × (d − 14) above 40 mm"),
        mark("You used 8 × (d − 14) above 40 mm. There the whole arm reaches through: 850 mm."),
        "C",
        **{"above-fine": becomes(other=False)},
    ),
    _slip(
        "loses-the-bracket",
        mark("Loses the bracket in 8 × (d − 14 mm)"),
        mark("You multiplied only d by 8. Take 14 mm away first, then multiply."),
        "C",
        C=lambda value, seen: 8 * seen["d_e"] - 14 if seen["d_e"] <= FINE else value,
    ),
    _slip(
        "old-british-form",
        mark("Uses an older national form, 1.8 mm per ms and 3.4 × (d − 7)"),
        mark("You used an older national form. It is shorter than the rule asked for."),
        "K_1",
        K_1=becomes(Fraction(1800)),
        C=pick(lambda seen: Fraction("3.4") * (seen["d_e"] - 7)),
        beyond=becomes(other=False),
        **{"floor-through": swap_for("S_1")},
    ),
)

OVER_SLIP = _slip(
    "leaves-out-reaching-over",
    mark("Does not check reaching over the field"),
    mark("You checked only the way through the field. Reaching over it needs more here."),
    "S_RO",
    S=pick(lambda seen: seen.get("S_RT", seen.get("S"))),
)
GENERAL_LINE = _slip(
    "general-line",
    mark("Uses 8 × (d − 14) instead of the press table"),
    mark("You used the general line 8 × (d − 14). For presses the table sets the supplement."),
    "C",
    C=lambda value, seen: max(Fraction(0), 8 * (seen["d_e"] - 14)) if seen["d_e"] <= FINE else value,
)
PRESS_STEPS = _slip(
    "press-table",
    mark("Uses the steps of the press table"),
    mark("You used the press table. This asks for the general rule, 8 × (d − 14 mm)."),
    "C",
    C=pick(lambda seen: Fraction(band_of("press-intrusion", seen["d_e"]).cells["c"])),  # type: ignore[union-attr]
)

PROBLEMS = (
    Problem(
        name="iso-presence-sensing",
        title=mark("Distance of a light curtain, general international rule"),
        inputs=IsoPresenceSensing,
        sum=_presence_sensing,
        answer=answer("S", Sense.AT_LEAST),
        slips=(
            *blanking.blanking_slips("d", "d_e"),
            *SPEED_SLIPS,
            *INTRUSION_SLIPS,
            PRESS_STEPS,
            OVER_SLIP,
            *reach.reading_slips("C_RO"),
            *time_slips("t_1", "t_2"),
            *DISTANCE_SLIPS,
        ),
    ),
    Problem(
        name="press-table-presence-sensing",
        title=mark("Distance of a light curtain, table of the press standards"),
        inputs=PressTablePresenceSensing,
        sum=_press_table,
        answer=answer("S", Sense.AT_LEAST),
        slips=(GENERAL_LINE, *SPEED_SLIPS, *INTRUSION_SLIPS[:2], *time_slips("t_1", "t_2"), *DISTANCE_SLIPS),
    ),
)
