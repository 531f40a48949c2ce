"""An old mechanical brake from the front: flywheel, clutch, eccentric shaft with two screws to the ram, treadle bar."""

from trainer.figures.ink import box, boxes, dot, line, path, shape
from trainer.figures.kit.brake_front import RAM_BOTTOM, back_stop, clamps, lower
from trainer.figures.kit.registry import Measures, Piece, part

SHAFT, TOP = 2080.0, 1640.0  # mm: the height of the shaft and of the ram's upper edge
HOUSING = 250.0  # mm: how wide a side frame is, seen from the front


@part("flywheel-brake", "front", bed=3050)
def flywheel_brake(m: Measures) -> Piece:
    """Draw a mechanical brake with its flywheel at the right; it cannot be stopped at each place of its stroke."""
    bed = float(m["bed"])
    marks = _frames(bed) + back_stop(bed) + _shaft(bed) + _ram(bed) + lower(bed) + _flywheel(bed) + _treadle(bed)
    places = {
        "middle": (bed / 2, 1000.0),
        "ram": (bed / 2, 1480.0),
        "bed": (bed / 2, 460.0),
        "flywheel": (bed + 240, SHAFT - 200),
        "flywheel-top": (bed + 150, SHAFT + 430),
        "clutch": (bed - 20, SHAFT + 110),
        "shaft": (bed / 2, SHAFT + 40),
        "treadle": (bed * 0.62, 150.0),
    }
    return Piece(marks=marks, places=places)


def _frames(bed: float) -> str:
    """Draw the two cast frames with their bearings, and the beam that ties them together above."""
    plates = boxes("behind", [(x, 892, HOUSING, 1560) for x in (90, bed - 90 - HOUSING)])
    tie = box("part", 60, 2330, bed - 120, 150) + line("fine", (60, 2360), (bed - 60, 2360))
    bearings = "".join(
        box("part", x - 30, SHAFT - 130, HOUSING + 60, 260) + line("fine", (x - 30, SHAFT), (x + HOUSING + 30, SHAFT))
        for x in (90, bed - 90 - HOUSING)
    )
    return plates + tie + bearings


def _shaft(bed: float) -> str:
    """Draw the shaft; an eccentric on it drives each of the two screws that carry the ram."""
    shaft = box("part", 370, SHAFT - 46, bed - 740, 92)
    screws = ""
    for x in (bed * 0.27, bed * 0.73):
        screws += boxes("part", [(x - 60, SHAFT - 330, 120, 330), (x - 84, TOP, 168, 110)])
        screws += path("fine", "".join(f"M{x - 60:.0f} {SHAFT - 150 - 30 * i:.0f}l120 16" for i in range(5)))
        screws += box("part", x - 120, SHAFT - 120, 240, 240) + dot("fine", x, SHAFT, 78)
    return shaft + screws


def _ram(bed: float) -> str:
    corners = [(0, RAM_BOTTOM), (bed, RAM_BOTTOM), (bed, TOP - 60), (bed - 60, TOP), (60, TOP), (0, TOP - 60)]
    ribs = path("fine", f"M0 1346H{bed:.0f}M60 {TOP - 40:.0f}H{bed - 60:.0f}")
    return shape("part", corners) + ribs + clamps(bed, RAM_BOTTOM)


def _flywheel(bed: float) -> str:
    """Draw clutch and flywheel, seen on its rim, with its belts down to the motor behind; the gears' cover at the left."""
    wheel = box("part", bed + 60, SHAFT - 460, 180, 920)
    grooves = path("fine", "".join(f"M{bed + 60 + 36 * i:.0f} {SHAFT - 460:.0f}v920" for i in range(1, 5)))
    hub = boxes("part", [(bed - 60, SHAFT - 110, 120, 220), (bed + 240, SHAFT - 70, 40, 140)])
    cover = path("part", f"M-150 {SHAFT - 330:.0f}H-40V{SHAFT + 330:.0f}H-150q-50 0-50-50v-560q0-50 50-50z")
    shaft_end = box("part", -40, SHAFT - 46, 130, 92)
    return cover + shaft_end + wheel + grooves + hub


def _treadle(bed: float) -> str:
    """Draw the bar along the floor and the rod from it to the clutch."""
    rod = box("part", bed - 40, 190, 24, SHAFT - 300)
    bar = box("part", 300, 128, bed - 340, 40) + boxes("part", [(x, 100, 36, 120) for x in (300, bed * 0.4, bed - 90)])
    return rod + bar
