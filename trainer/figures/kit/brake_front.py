"""The hydraulic press brake from the front: frames, cylinders, tank, ram with its clamps, bed. Millimetres from the bed's left end."""

from trainer.figures.ink import Point, box, boxes, dot, line, path, shape
from trainer.figures.kit.registry import Measures, Piece, part

FLOOR, FOOT, BED_TOP, TABLE_TOP, DIE_TOP = 0.0, 80.0, 830.0, 892.0, 1000.0
CLAMP_BOTTOM, RAM_BOTTOM, RAM_TOP = 1202.0, 1300.0, 1890.0
CHAMFER = 150.0
FRAME, PLATE = 150.0, 84.0  # from the bed's end to the side frame, and the frame's thickness
CYLINDER = 210.0


@part("brake", "front", bed=3050, lift=0)
def brake(m: Measures) -> Piece:
    """Draw a down-acting hydraulic brake; ``lift`` moves the ram up or down from its usual place."""
    bed, lift = float(m["bed"]), float(m["lift"])
    marks = _frames(bed) + back_stop(bed) + _drive(bed, lift) + ram(bed, lift) + lower(bed)
    return Piece(marks=marks, places=_places(bed, lift))


def _places(bed: float, lift: float) -> dict[str, Point]:
    return {
        "middle": (bed / 2, DIE_TOP),
        "ram": (bed / 2, 1600.0 + lift),
        "ram-right": (bed, 1620.0 + lift),
        "ram-left": (0.0, 1620.0 + lift),
        "bed": (bed / 2, 460.0),
        "bed-left": (0.0, 460.0),
        "left-end": (0.0, DIE_TOP),
        "right-end": (bed, DIE_TOP),
        "back-stop": (bed * 0.5, 1034.0),
        "tank": (bed / 2, 2260.0),
    }


def _frames(bed: float) -> str:
    """Draw the two side frames, seen on their edge behind ram and bed."""
    plates = [(x, TABLE_TOP, PLATE, 1588.0) for x in (FRAME, bed - FRAME - PLATE)]
    return boxes("behind", plates)


def back_stop(bed: float) -> str:
    """Draw the beam of the back-stop and its two fingers, far behind the tools."""
    beam = box("behind", 380, 1012, bed - 760, 46) + line("fine", (380, 1026), (bed - 380, 1026))
    fingers = boxes("behind", [(bed * share - 50, 996, 100, 34) for share in (0.32, 0.68)])
    return beam + fingers + boxes("behind", [(bed * share - 28, 1030, 56, 44) for share in (0.32, 0.68)])


def _drive(bed: float, lift: float) -> str:
    tank = box("part", 470, 2074, bed - 940, 262) + boxes("fine", [(500, 2100, bed - 1000, 206)])
    seams = "".join(line("fine", (bed * share, 2074), (bed * share, 2336)) for share in (0.36, 0.64))
    gauge = path("fine", f"M{bed * 0.3:.0f} 2140v110q15 15 30 0v-110q-15-15-30 0z")
    cap = boxes("part", [(620, 2336, 76, 26), (634, 2362, 48, 30)])
    return (
        _pipes(bed)
        + tank
        + seams
        + gauge
        + cap
        + _pump(bed / 2)
        + "".join(_cylinder(left, lift) for left in (FRAME - 54, bed - FRAME - CYLINDER + 54))
    )


def _pump(middle: float) -> str:
    motor = boxes(
        "part", [(middle - 270, 2352, 350, 176), (middle - 300, 2376, 30, 128), (middle - 160, 2528, 120, 40)]
    )
    fins = path("fine", "".join(f"M{middle - 240 + 48 * i:.0f} 2352v176" for i in range(7)))
    pump = boxes("part", [(middle + 80, 2382, 70, 116), (middle + 150, 2362, 120, 156), (middle + 270, 2404, 44, 72)])
    feet = boxes("part", [(middle - 250, 2336, 90, 16), (middle - 30, 2336, 90, 16), (middle + 160, 2336, 90, 26)])
    return motor + fins + pump + feet


def _pipes(bed: float) -> str:
    middle, rise = bed / 2, 2464.0
    left, right = FRAME + 150, bed - FRAME - 150
    return "".join(
        line("fine", (left, rise + off), (middle - 300, rise + off))
        + line("fine", (middle + 314, rise - 30 + off), (right, rise - 30 + off))
        for off in (-12, 14)
    )


def _cylinder(left: float, lift: float) -> str:
    """Draw a cylinder on its frame: rod, gland, barrel with its tie-rods, valve block on top."""
    x = left
    rod = box("part", x + 66, RAM_TOP + lift - 10, 78, 200 - lift)
    joint = box("part", x + 36, RAM_TOP + lift - 4, 138, 44)
    gland = boxes("part", [(x - 26, 2060, CYLINDER + 52, 42), (x + 22, 2030, CYLINDER - 44, 30)])
    barrel = box("part", x, 2102, CYLINDER, 396) + path(
        "fine", f"M{x + 34:.0f} 2102v396M{x + CYLINDER - 34:.0f} 2102v396"
    )
    head = (
        box("part", x - 20, 2498, CYLINDER + 40, 54)
        + box("part", x + 46, 2552, 118, 48)
        + dot("fine", x + 105, 2576, 14)
    )
    return rod + joint + gland + barrel + head


def ram(bed: float, lift: float = 0) -> str:
    """Draw the ram with its row of clamps."""
    low, top = RAM_BOTTOM + lift, RAM_TOP + lift
    corners = [(0, low), (bed, low), (bed, top - CHAMFER), (bed - CHAMFER, top), (CHAMFER, top), (0, top - CHAMFER)]
    inner = line("fine", (0, low + 46), (bed, low + 46)) + line(
        "fine", (CHAMFER + 20, top - 34), (bed - CHAMFER - 20, top - 34)
    )
    eyes = "".join(dot("fine", x, top - 84, 22) for x in (bed * 0.25, bed * 0.75))
    return shape("part", corners) + inner + eyes + clamps(bed, low)


def clamps(bed: float, low: float) -> str:
    """Draw the row of clamps that hangs below the ram's lower edge."""
    count = int(bed // 205)
    pitch = bed / count
    starts = [pitch * i + pitch / 2 - 62 for i in range(count)]
    plates = boxes("part", [(x, low - 98, 124, 98) for x in starts])
    return plates + boxes("fine", [(x + 40, low - 60, 44, 34) for x in starts])


def lower(bed: float) -> str:
    """Draw the bed: table with its groove, front plate, the rail for support arms, feet on levelling screws."""
    feet = boxes("part", [(x, FLOOR, 250, 26) for x in (120, bed - 370)]) + boxes(
        "part", [(x, 26, 200, 54) for x in (145, bed - 345)]
    )
    front = box("part", 0, FOOT, bed, BED_TOP - FOOT) + box("part", 0, BED_TOP, bed, TABLE_TOP - BED_TOP)
    rail = box("fine-part", 150, 742, bed - 300, 34) + line("fine", (150, 759), (bed - 150, 759))
    sides = path("fine", f"M110 {FOOT:.0f}V{BED_TOP:.0f}M{bed - 110:.0f} {FOOT:.0f}V{BED_TOP:.0f}M0 866H{bed:.0f}")
    bolts = "".join(dot("fine", x, y, 16) for x in (55, bed - 55) for y in (190, 700))
    return feet + front + rail + sides + bolts
