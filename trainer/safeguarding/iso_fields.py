"""The international form for whole bodies: multi-beam safeguards, fields along the floor, pressure mats."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Annotated, Any

from trainer.errors import UsageError
from trainer.safeguarding import reach, sources
from trainer.safeguarding.inputs import Given, Inputs, Numbers
from trainer.safeguarding.iso_orthogonal import (
    ARM,
    BODY,
    HAND,
    Capability,
    DeviceTime,
    MachineStop,
    Names,
    finish,
    intrusion,
    larger_of_over,
    overall_time,
    two_speeds,
)
from trainer.safeguarding.problem import Problem, answer
from trainer.safeguarding.reach import EdgeHeight, HazardHeight
from trainer.safeguarding.result import Sense
from trainer.safeguarding.slips import (
    DISTANCE_SLIPS,
    INCH,
    Slip,
    becomes,
    leaves_out,
    pick,
    swap_for,
    time_slips,
)
from trainer.safeguarding.tables import table
from trainer.safeguarding.working import Refused, Working
from trainer.wording import mark, say

FAR_REACH, SLOPE = Fraction(1200), Fraction("0.4")  # mm; mm of reach less per mm of height
HIGHEST, CRAWL = Fraction(1000), Fraction(300)  # mm
TURN = Fraction(30)  # degrees between parallel and orthogonal
STANDING = Names("S_1", "S_2", "S_O", "C", "floor-through")
NEW_EDITION_FIELD = say(
    "The 2024 edition asks for a flat 1200 mm here and sees crawling from 200 mm (from a page on its draft, not "
    "confirmed). Check which edition binds you."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class IsoMultiBeam(Inputs):
    """Inputs of the rule for two to four beams, or one, that detect a whole body."""

    stopping_time: MachineStop
    device_response: DeviceTime
    beams: Annotated[Any, Given("beams", mark("Number of beams"), "count", least=1, most=4)]
    hazard_height: HazardHeight = None
    upper_edge_height: EdgeHeight = None

    def agree(self) -> None:
        """Refuse one height without the other."""
        reach.both_or_none(self)


def body_travel(w: Working, total: Any, add: Any, symbol: str = "S") -> Any:
    """Take ``K × T + C`` with the speed of a body, in mm."""
    speed = w.constant("K", BODY, "speed", mark("Speed of a body or an arm stretched out"))
    return w.step(symbol, mark("Distance with that speed"), "K × T + C", speed * total + add)


def _multi_beam(w: Working, g: Numbers) -> Any:
    total = overall_time(w, g)
    count = w.given("beams", g.beams, "count", mark("Number of beams"))
    row = next(row for row in table("iso-13855-beams").records() if row["beams"] == str(count))
    add = w.step("C", mark("Reach of the arm through the beams, from the table"), "table(beams)", Fraction(row["c"]))
    distance = body_travel(w, total, add, "S" if g.hazard_height is None else "S_RT")
    if row["heights"]:
        w.warn(say("The beams stand at {heights} mm above the floor.", heights=row["heights"].replace(" ", ", ")))
    w.warn(say("It sees a person who walks in, not a hand. It is no safeguard for hands at the tool."))
    w.cite(sources.ISO_13855_BEAMS)
    return larger_of_over(w, g, total, (distance, w.seen["K"], add))


@dataclass(frozen=True, slots=True, kw_only=True)
class IsoParallelField(Inputs):
    """Inputs of the rule for a field along the floor."""

    stopping_time: MachineStop
    device_response: DeviceTime
    detection_capability: Capability
    field_height: Annotated[Any, Given("H", mark("Height of the field above the floor"), "length")]
    angle: Annotated[Any, Given("angle", mark("Angle of the field to the way in"), "angle", most=90)] = None

    def agree(self) -> None:
        """Refuse an angle at which the field is not parallel."""
        if self.angle is not None and self.numbers().angle > TURN:
            raise UsageError(say("angle: above 30° the field is not parallel. Use iso-angled-field."))


@dataclass(frozen=True, slots=True, kw_only=True)
class IsoAngledField(Inputs):
    """Inputs of the rule for a field at an angle; the height matters up to 30 degrees."""

    stopping_time: MachineStop
    device_response: DeviceTime
    detection_capability: Capability
    field_height: Annotated[Any, Given("H", mark("Height of the field above the floor"), "length")] = None
    angle: Annotated[Any, Given("angle", mark("Angle of the field to the way in"), "angle", most=90)] = None

    def agree(self) -> None:
        """Refuse a missing height where it matters."""
        if self.field_height is None and (self.angle is None or self.numbers().angle <= TURN):
            raise UsageError(say("field-height is missing. Up to 30°, or with no angle given, it is needed."))


def along_floor(w: Working, g: Numbers, total: Any, symbols: tuple[str, str] = ("S", "C")) -> tuple[Any, Any, Any]:
    """Take the distance of a field along the floor, with its speed and reach, in mm and mm/s."""
    result, reach_symbol = symbols
    size = w.given("d", g.detection_capability, "length", mark("Detection capability of the field"))
    height = w.given("H", g.field_height, "length", mark("Height of the field above the floor"))
    _fits(w, size, height)
    label = mark("Reach over the edge of the field, not less than an arm")
    falling = w.ask("falling", FAR_REACH - SLOPE * height)
    floored = w.ask("arm-floor", max(ARM, falling))
    add = w.step(reach_symbol, label, "max(850 mm, 1200 mm − 0.4 × H)", floored)
    speed = w.constant("K", BODY, "speed", mark("Speed of a walking person"))
    distance = w.step(result, mark("Distance with that speed"), f"K × T + {reach_symbol}", speed * total + add)
    w.warn(say("Measure from the beam that is furthest from the hazard."), NEW_EDITION_FIELD)
    w.cite(sources.ISO_13855_6_3)
    return distance, speed, add


def _fits(w: Working, size: Any, height: Any) -> None:
    if height > HIGHEST:
        raise Refused(say("A field along the floor lies 1000 mm high at most."))
    if size > height / 15 + 50:
        raise Refused(
            say("This detection capability is too coarse for that height: a leg would pass. It may be H ÷ 15 + 50 mm.")
        )
    if height > CRAWL:
        w.warn(say("Above 300 mm a person can crawl under the field. Assess that and close it."))


def _parallel(w: Working, g: Numbers) -> Any:
    if g.angle is not None:
        w.given("angle", g.angle, "angle", mark("Angle of the field to the way in"))
    if g.angle == TURN:
        return _larger_at_turn(w, g)
    total = overall_time(w, g)
    distance, speed, add = along_floor(w, g, total)
    return finish(w, distance, speed, total, add)


def _angled(w: Working, g: Numbers) -> Any:
    angle = None if g.angle is None else w.given("angle", g.angle, "angle", mark("Angle of the field to the way in"))
    if angle is None:
        w.warn(say("No angle was given, so the larger of the two rules is taken."))
    if angle is None or angle == TURN:
        return _larger_at_turn(w, g)
    flat = angle < TURN
    if w.ask("flat", flat) if g.field_height is not None else flat:
        total = overall_time(w, g)
        distance, speed, add = along_floor(w, g, total)
        w.cite(sources.ISO_13855_6_4)
        return finish(w, distance, speed, total, add)
    if g.field_height is not None:
        w.warn(say("Above 30° the height of the field is not used."))
    return _steep(w, g)


def _steep(w: Working, g: Numbers) -> Any:
    total = overall_time(w, g)
    size = w.given("d", g.detection_capability, "length", mark("Detection capability of the field"))
    add = intrusion(w, size, "d")
    distance, speed = two_speeds(w, total, add)
    w.warn(reach.NOT_CHECKED_HERE)
    w.cite(sources.ISO_13855_6_4, sources.ISO_13855_6_2)
    return finish(w, distance, speed, total, add)


def _larger_at_turn(w: Working, g: Numbers) -> Any:
    # Sources differ on which rule holds at just 30 degrees.
    total = overall_time(w, g)
    flat, flat_speed, flat_add = along_floor(w, g, total, ("S_P", "C_P"))
    w.warn(say("At 30° sources differ on the rule, so the larger distance is taken."))
    w.cite(sources.ISO_13855_6_4, sources.ISO_13855_6_2)
    add = intrusion(w, g.detection_capability, "d")
    steep, steep_speed = two_speeds(w, total, add, STANDING)
    distance = w.step("S", mark("The larger of the two rules"), "max(S_P, S_O)", max(flat, steep))
    if flat >= steep:
        return finish(w, distance, flat_speed, total, flat_add)
    return finish(w, distance, steep_speed, total, add)


@dataclass(frozen=True, slots=True, kw_only=True)
class IsoPressureMat(Inputs):
    """Inputs of the rule for a pressure-sensitive mat or floor."""

    stopping_time: MachineStop
    device_response: DeviceTime
    step_height: Annotated[Any, Given("H", mark("Height of a step that the mat lies on"), "length", most=1000)] = None


def _mat(w: Working, g: Numbers) -> Any:
    total = overall_time(w, g)
    height = w.given("H", g.step_height or Fraction(0), "length", mark("Height of the step that the mat lies on"))
    add = w.step("C", mark("Stride before the foot comes down"), "1200 mm − 0.4 × H", FAR_REACH - SLOPE * height)
    distance = body_travel(w, total, add)
    w.warn(
        say("The mat is at least 750 mm wide, so that nobody steps across."),
        say("Add to the measured stopping time for brakes that wear."),
    )
    w.cite(sources.ISO_13855_7)
    return finish(w, distance, w.seen["K"], total, add)


LEAVES_OUT_DEVICE = leaves_out(
    "t_1",
    "leaves-out-device",
    mark("Leaves out the response time of the safeguard"),
    mark("You left out the safeguard's own response time."),
)
LEAVES_OUT_REACH = leaves_out(
    "C",
    "leaves-out-reach",
    mark("Leaves out the reach C"),
    mark("You left out C. A person is already that far in before the machine is told to stop."),
)
HAND_SPEED = Slip(
    code="hand-speed",
    title=mark("Uses 2000 mm/s"),
    tell=mark("You used 2000 mm/s, the speed of a hand. Here a body moves: 1600 mm/s."),
    symbol="K",
    changes={"K": becomes(HAND)},
)
HEIGHT_SLIPS = (
    Slip(
        code="height-added",
        title=mark("Adds 0.4 × H instead of taking it away"),
        tell=mark("You added 0.4 × H. The higher the field, the shorter the reach: take it away."),
        symbol="C",
        changes={
            "falling": pick(lambda seen: FAR_REACH + SLOPE * seen["H"]),
        },
    ),
    Slip(
        code="height-left-out",
        title=mark("Leaves the height out of the reach"),
        tell=mark("You left out 0.4 × H. That is more distance than this asks for."),
        symbol="C",
        changes={"falling": becomes(FAR_REACH)},
    ),
    Slip(
        code="no-arm-floor",
        title=mark("Forgets that C is never less than 850 mm"),
        tell=mark("You forgot the floor. C is never less than 850 mm, the length of an arm."),
        symbol="C",
        changes={"arm-floor": swap_for("falling")},
    ),
)
MAT_SLIPS = (
    Slip(
        code="height-added",
        title=mark("Adds 0.4 × H instead of taking it away"),
        tell=mark("You added 0.4 × H. On a step the stride is shorter: take it away."),
        symbol="C",
        changes={"C": pick(lambda seen: FAR_REACH + SLOPE * seen["H"])},
    ),
    Slip(
        code="height-left-out",
        title=mark("Leaves the step out"),
        tell=mark("You left out the step. That is more distance than this asks for."),
        symbol="C",
        changes={"C": becomes(FAR_REACH)},
    ),
    Slip(
        code="inch-constants",
        title=mark("Uses 63 in/s and 48 in"),
        tell=mark("You used the inch constants, 63 in/s and 48 in. This rule has 1600 mm/s and 1200 mm."),
        symbol="K",
        changes={"K": becomes(63 * INCH), "C": lambda value, _seen: value + 48 * INCH - FAR_REACH},
    ),
    Slip(
        code="arm-reach",
        title=mark("Uses 850 mm for C"),
        tell=mark("You used 850 mm, the length of an arm. A person strides onto a mat: 1200 mm."),
        symbol="C",
        changes={"C": becomes(ARM)},
    ),
)
BEAM_SLIPS = (
    Slip(
        code="single-beam-reach",
        title=mark("Uses the 1200 mm of a single beam"),
        tell=mark("You used 1200 mm, for a single beam. With two beams or more C is 850 mm."),
        symbol="C",
        changes={"C": becomes(FAR_REACH)},
    ),
    Slip(
        code="several-beams-reach",
        title=mark("Uses the 850 mm of several beams for one beam"),
        tell=mark("You used 850 mm. For a single beam C is 1200 mm."),
        symbol="C",
        changes={"C": becomes(ARM)},
    ),
    Slip(
        code="leaves-out-reaching-over",
        title=mark("Does not check reaching over the beams"),
        tell=mark("You checked only the way through the beams. Reaching over them needs more here."),
        symbol="S_RO",
        changes={"S": pick(lambda seen: seen.get("S_RT", seen.get("S")))},
    ),
)
ANGLE_SLIPS = (
    Slip(
        code="other-rule-of-angle",
        title=mark("Uses the rule for the other side of 30 degrees"),
        tell=mark("You used the rule of the other angle. Below 30° the field counts as lying, above as standing."),
        symbol="S",
        changes={"flat": lambda value, _seen: not value},
    ),
)
COMMON = (LEAVES_OUT_DEVICE, LEAVES_OUT_REACH, HAND_SPEED, *time_slips("t_1", "t_2"), *DISTANCE_SLIPS)

PROBLEMS = (
    Problem(
        name="iso-multi-beam",
        title=mark("Distance of a multi-beam safeguard, international rule"),
        inputs=IsoMultiBeam,
        sum=_multi_beam,
        answer=answer("S", Sense.AT_LEAST),
        slips=(*BEAM_SLIPS, *reach.reading_slips("C_RO"), *COMMON),
    ),
    Problem(
        name="iso-parallel-field",
        title=mark("Distance of a field along the floor, international rule"),
        inputs=IsoParallelField,
        sum=_parallel,
        answer=answer("S", Sense.AT_LEAST),
        slips=(*HEIGHT_SLIPS, *COMMON),
    ),
    Problem(
        name="iso-angled-field",
        title=mark("Distance of a field at an angle, international rule"),
        inputs=IsoAngledField,
        sum=_angled,
        answer=answer("S", Sense.AT_LEAST),
        slips=(*ANGLE_SLIPS, *HEIGHT_SLIPS, *COMMON),
    ),
    Problem(
        name="iso-pressure-mat",
        title=mark("Distance of a pressure mat, international rule"),
        inputs=IsoPressureMat,
        sum=_mat,
        answer=answer("S", Sense.AT_LEAST),
        slips=(*MAT_SLIPS, *COMMON),
    ),
)
