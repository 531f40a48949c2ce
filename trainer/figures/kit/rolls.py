"""Plate rolls from the front and from the side: two pinch rolls, the bending roll behind, the wire that stops them."""

from trainer.figures.ink import Point, box, boxes, disc, dot, group, line, n, path
from trainer.figures.kit.motion import turns
from trainer.figures.kit.registry import Measures, Piece, floats, part

NIP, RADIUS = 1000.0, 95.0  # mm: where the plate goes in, and how thick the rolls are
REAR = (230.0, 985.0)  # mm: the middle of the bending roll
HOUSING = "M-260 60L-210 780V1180Q-210 1300-90 1300H120Q190 1300 230 1240L400 1060Q430 1030 430 980V780L480 60z"


@part("plate-rolls", "side", plate=False, turning=True, reverse=False, cord=True)
def plate_rolls_side(m: Measures) -> Piece:
    """Draw the three rolls cut through in front of their far housing; the nip is where the plate goes in.

    ``plate`` draws a plate that is being rolled, ``turning`` the way the rolls turn (``reverse``: the other way), ``cord``
    the wire along the front that stops them when somebody is pulled against it.
    """
    back = -1 if m["reverse"] else 1
    marks = path("wash-part", HOUSING) + path("edge", HOUSING) + _bearings() + _base()
    marks += _plate() if m["plate"] else ""
    for (x, y), way, side, hatch in _rolls():
        marks += disc(f"cut {hatch}", x, y, RADIUS) + disc("cut", x, y, 30)
        marks += turns((x, y), RADIUS + 34, side - back * way * 48, back * way * 96, 40) if m["turning"] else ""
    marks += _wire() if m["cord"] else ""
    places = {
        "middle": (0.0, NIP),
        "nip": (0.0, NIP),
        "top-roll": (60.0, NIP + RADIUS + 60),
        "lower-roll": (60.0, NIP - RADIUS - 60),
        "rear-roll": (REAR[0] + 60, REAR[1] + 60),
        "rear-nip": (120.0, 1000.0),
        "housing": (360.0, 700.0),
        "cord": (-420.0, 780.0),
    }
    return Piece(marks=marks, places={k: v for k, v in places.items() if k != "cord" or m["cord"]})


def _rolls() -> list[tuple[Point, int, float, str]]:
    """Return middle, way of turning (1 against the clock), the side (degrees) of its arrow and hatching of the rolls."""
    return [
        ((0.0, NIP + RADIUS), 1, 90.0, "hatched"),
        ((0.0, NIP - RADIUS), -1, 270.0, "hatched-back"),
        (REAR, -1, -10.0, "hatched"),
    ]


def _bearings() -> str:
    """Draw the blocks that carry the rolls in the housing, and the slanted way of the bending roll with its screw."""
    blocks = boxes("fine-part", [(-126, NIP + 2, 252, 230), (-126, 770, 252, 228)])
    slide = path("fine-part", "M150 880L330 1100 420 1010 250 800z")
    screw = box("part", -26, 1300, 52, 130) + box("part", -70, 1430, 140, 36)
    return blocks + slide + screw + line("centre", (0, 720), (0, 1500))


def _base() -> str:
    foot = boxes("part", [(-310, 0, 840, 60)]) + boxes("fine", [(-270, 16, 60, 26), (430, 16, 60, 26)])
    return foot + path("fine", "M-200 120L-160 700M420 120L390 700M-140 300H370M-140 340H370")


def _plate() -> str:
    """Draw a plate: level at the left, through the pinch and curled up over the bending roll."""
    outer = "M-620 994H20Q130 994 196 1060 330 1190 330 1370 330 1500 240 1600"
    inner = "L230 1592Q318 1496 318 1370 318 1196 188 1070 124 1006 20 1006H-620z"
    return path("solid", outer + inner)


def _wire() -> str:
    """Draw the bracket of the trip wire in front of the rolls, and the wire seen on its end."""
    arm = path("part", "M-214 640H-400L-432 760H-404L-380 680H-214z")
    return arm + dot("part", -420, 780, 24) + dot("solid", -420, 780, 8)


@part("plate-rolls", "front", bed=2050, plate=False, cord=True, dropped=False, swings=False, shell=False, slung=False)
def plate_rolls_front(m: Measures) -> Piece:
    """Draw the rolls between their housings: the drive at the left, the end that drops open at the right.

    ``dropped`` swings that end down, ``swings`` adds an arrow of its way, ``shell`` hangs a closed pipe on the top roll, ``slung`` takes it up with a sling.
    """
    (bed,) = floats(m, "bed")
    marks = _frame(bed) + box("behind", 0, 880, bed, 2 * RADIUS) + _long(bed, NIP - 2 * RADIUS) + _long(bed, NIP + 6)
    if m["plate"]:
        marks += box("part", bed * 0.2, NIP - 150, bed * 0.6, 150) + line(
            "fine", (bed * 0.2, NIP - 8), (bed * 0.8, NIP - 8)
        )
    marks += _drive() + _drop_end(bed, open_=bool(m["dropped"]))
    if m["cord"]:
        marks += _cord(bed)
    marks += turns((bed + 196, 945), 350, 98, -96) if m["swings"] else ""
    marks += _shell(bed, slung=bool(m["slung"])) if m["shell"] else ""
    places = {
        "middle": (bed / 2, NIP),
        "nip": (bed / 2, NIP),
        "nip-left": (bed * 0.12, NIP),
        "nip-right": (bed * 0.88, NIP),
        "top-roll": (bed * 0.5, NIP + RADIUS),
        "lower-roll": (bed * 0.5, NIP - RADIUS),
        "drive": (-240.0, 900.0),
        "drop-end": (bed + 420, 900.0) if m["dropped"] else (bed + 130, 1150.0),
        "hinge": (bed + 196, 945.0),
        "shell": (bed * 0.62, 860.0),
        "sling": (bed * 0.55, 1700.0),
        "cord": (bed / 2, 560.0),
        "cord-right": (bed * 0.8, 560.0),
        "stop": (-240.0, 1170.0),
    }
    gone = {"cord": not m["cord"], "cord-right": not m["cord"], "shell": not m["shell"], "sling": not m["slung"]}
    return Piece(marks=marks, places={k: v for k, v in places.items() if not gone.get(k)})


def _long(bed: float, low: float) -> str:
    """Draw a roll along its length: a plain cylinder, lit at the top, with its journals."""
    return box("part", 0, low, bed, 2 * RADIUS) + path(
        "fine",
        f"M0 {n(low + 34)}H{n(bed)}M0 {n(low + 2 * RADIUS - 22)}H{n(bed)}M26 {n(low)}v{n(2 * RADIUS)}M{n(bed - 26)} {n(low)}v{n(2 * RADIUS)}",
    )


def _frame(bed: float) -> str:
    beam = box("part", 0, 300, bed, 190) + path("fine", f"M0 330H{n(bed)}M0 460H{n(bed)}")
    floor = boxes("part", [(-420, 0, bed + 720, 60)])
    return floor + box("part", -40, 60, bed + 120, 40) + beam


def _drive() -> str:
    """Draw the housing with gears and motor at the left, its stop button, and the screw above."""
    body = path("part", "M-400 60H0V1260Q0 1310-50 1310H-350Q-400 1310-400 1260z")
    cover = path("fine", "M-370 420H-40V1080H-370z")
    bolts = "".join(dot("fine", x, y, 12) for x in (-350, -60) for y in (440, 1060))
    stop = dot("part", -240, 1170, 52) + dot("solid", -240, 1170, 30)
    motor = boxes("part", [(-640, 380, 240, 220), (-660, 430, 20, 120)]) + path(
        "fine", "M-600 380v220M-560 380v220M-520 380v220M-480 380v220M-440 380v220"
    )
    keys = boxes("fine", [(-140, 1140, 44, 60), (-80, 1140, 44, 60)])
    return motor + body + cover + bolts + stop + keys + boxes("part", [(-90, 1310, 52, 110), (-130, 1420, 132, 34)])


def _drop_end(bed: float, *, open_: bool) -> str:
    """Draw the bearing at the right that swings down so that a rolled pipe comes off the top roll."""
    post = path("part", f"M{n(bed)} 60H{n(bed + 260)}V930H{n(bed)}z")
    yoke = path(
        "part",
        f"M{n(bed)} 960H{n(bed + 170)}Q{n(bed + 230)} 960 {n(bed + 230)} 1020V1180Q{n(bed + 230)} 1230 {n(bed + 180)} 1230H{n(bed)}z",
    )
    pin = dot("part", bed + 196, 945, 40) + dot("fine", bed + 196, 945, 14)
    ribs = path("fine", f"M{n(bed + 40)} 120V880M{n(bed + 220)} 120V880")
    yoke += path("fine", f"M{n(bed + 30)} 990V1200M{n(bed)} 1100H{n(bed + 230)}")
    if open_:
        yoke = group(yoke, transform=f"rotate(-96 {n(bed + 196)} 945)") + box("part", bed, NIP + 60, 90, 70)
    return post + ribs + yoke + pin


def _shell(bed: float, *, slung: bool) -> str:
    """Draw a closed pipe that hangs on the top roll, seen from its side, with its seam; and the sling that carries it."""
    left, right, top, wide = bed * 0.3, bed * 0.8, NIP + 2 * RADIUS + 16, 520.0
    body = box("part", left, top - wide, right - left, wide) + path(
        "fine", f"M{n(left)} {n(top - 60)}H{n(right)}M{n(left)} {n(top - wide + 70)}H{n(right)}"
    )
    roll = "".join(line("hidden", (left, y), (right, y)) for y in (NIP + 6, NIP + 2 * RADIUS))
    seam = line("edge", (left, top - 190), (right, top - 190))
    if not slung:
        return body + roll + seam
    middle, eye = (left + right) / 2, top + 500
    legs = "".join(line("edge", (x, top), (middle, eye)) for x in (left + 150, right - 150))
    bands = boxes("part", [(x - 22, top - wide, 44, wide + 6) for x in (left + 150, right - 150)])
    hook = dot("part", middle, eye, 30) + line("edge", (middle, eye + 30), (middle, 2300))
    return body + roll + seam + bands + legs + hook


def _cord(bed: float) -> str:
    """Draw the wire along the whole front, at the height of the thigh, from switch to eye."""
    ends = boxes("part", [(20, 500, 60, 110), (bed - 80, 510, 60, 90)])
    eyes = "".join(dot("fine", bed * share, 560, 18) for share in (0.33, 0.66))
    return ends + line("edge", (80, 560), (bed - 80, 560)) + eyes
