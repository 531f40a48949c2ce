"""The press brake from the front: frames, ram, bed, tooling, light curtain, guards, pedal, supports, sheet."""

from trainer.figures.ink import box, boxes, line, path, shape
from trainer.figures.kit import Measures, Piece, part

BED_TOP = 830.0
DIE_TOP = 1000.0
RAM_BOTTOM = 1300.0
RAM_TOP = 1890.0


@part("brake", "front", bed=3050)
def brake(m: Measures) -> Piece:
    """Draw a down-acting hydraulic brake."""
    bed = float(m["bed"])
    marks = _behind(bed) + _cylinders(bed) + _ram(bed) + _bed(bed)
    places = {
        "ram": (bed / 2, 1600.0),
        "bed": (bed / 2, 460.0),
        "left-end": (0.0, DIE_TOP),
        "right-end": (bed, DIE_TOP),
        "back-stop": (bed / 2, 1000.0),
    }
    return Piece(marks=marks, places=places)


def _behind(bed: float) -> str:
    frames = boxes("behind", [(190, BED_TOP, 150, 470), (bed - 340, BED_TOP, 150, 470)])
    stop = box("behind", 430, 1012, bed - 860, 44)
    fingers = boxes("behind", [(bed * share - 45, 1000, 90, 30) for share in (0.3, 0.68)])
    return frames + stop + fingers


def _cylinders(bed: float) -> str:
    tank = (
        box("part", 480, 2090, bed - 960, 250)
        + line("fine", (bed * 0.36, 2090), (bed * 0.36, 2340))
        + line("fine", (bed * 0.64, 2090), (bed * 0.64, 2340))
    )
    motor = bed / 2 - 260
    pump = boxes("part", [(motor, 2340, 360, 170), (motor + 360, 2368, 80, 114), (motor + 440, 2352, 110, 146)])
    fins = path("fine", "".join(f"M{motor + 60 * i:.0f} 2340v170" for i in range(1, 6)))
    marks = tank + pump + fins
    for left in (165.0, bed - 375):
        marks += boxes(
            "part",
            [(left + 62, 2020, 86, 90), (left, 2110, 210, 400), (left - 22, 2510, 254, 56), (left - 30, 2092, 270, 36)],
        )
        marks += box("behind", left - 8, 1890, 226, 130)
    pipes = line("fine", (375, 2440), (motor, 2440)) + line("fine", (375, 2412), (motor, 2412))
    return (
        marks
        + pipes
        + line("fine", (motor + 550, 2436), (bed - 375, 2436))
        + line("fine", (motor + 550, 2408), (bed - 375, 2408))
    )


def _ram(bed: float) -> str:
    chamfer = 150.0
    outline = shape(
        "part",
        [
            (0, RAM_BOTTOM),
            (bed, RAM_BOTTOM),
            (bed, RAM_TOP - chamfer),
            (bed - chamfer, RAM_TOP),
            (chamfer, RAM_TOP),
            (0, RAM_TOP - chamfer),
        ],
    )
    count = int(bed // 205)
    pitch = bed / count
    clamps = boxes("part", [(pitch * i + pitch / 2 - 62, 1202, 124, 98) for i in range(count)])
    return outline + line("fine", (0, 1344), (bed, 1344)) + clamps


def _bed(bed: float) -> str:
    feet = boxes("part", [(140, 0, 270, 92), (bed - 410, 0, 270, 92)])
    body = box("part", 0, 92, bed, BED_TOP - 92) + box("part", 0, BED_TOP, bed, 62)
    inner = (
        line("fine", (0, 862), (bed, 862))
        + line("fine", (126, 92), (126, BED_TOP))
        + line("fine", (bed - 126, 92), (bed - 126, BED_TOP))
    )
    return feet + body + inner


@part("tooling", "front", left=60, right=2990, punch=None)
def tooling(m: Measures) -> Piece:
    """Draw a row of punch and die sections from ``left`` to ``right``; ``punch`` is where the tip stands."""
    left, right = float(m["left"]), float(m["right"])
    tip = float(m["punch"] or 1095)
    die = box("part", left - 10, 892, right - left + 20, 50) + box("part", left, 942, right - left, DIE_TOP - 942)
    punch = shape(
        "part", [(left, 1202), (right, 1202), (right, tip + 26), (right - 7, tip), (left + 7, tip), (left, tip + 26)]
    )
    sections = max(1, round((right - left) / 500))
    joints = [left + (right - left) * i / sections for i in range(1, sections)]
    seams = "".join(line("fine", (x, 942), (x, DIE_TOP)) + line("fine", (x, tip), (x, 1202)) for x in joints)
    edge = line("fine", (left, tip + 26), (right, tip + 26)) + line("hidden", (left, 986), (right, 986))
    middle = (left + right) / 2
    places = {
        "punch": (middle, 1150.0),
        "die": (middle, 970.0),
        "left-end": (left, DIE_TOP),
        "right-end": (right, DIE_TOP),
    }
    return Piece(marks=die + punch + seams + edge, places=places)


@part("curtain", "front", left=-122, right=3172, low=720, high=1520, bed=3050)
def curtain(m: Measures) -> Piece:
    """Draw the two posts of a light curtain and the dashed rim of its field."""
    left, right, low, high = (float(m[key]) for key in ("left", "right", "low", "high"))
    posts = "".join(
        box("part", x - 29, low, 58, high - low) + line("fine", (x + side * 12, low + 30), (x + side * 12, high - 30))
        for x, side in ((left, 1), (right, -1))
    )
    bed = float(m["bed"])
    brackets = boxes("part", [(left + 29, 790, -left - 29, 40), (bed, 790, right - 29 - bed, 40)])
    rim = line("hidden", (left + 29, low + 40), (right - 29, low + 40)) + line(
        "hidden", (left + 29, high - 40), (right - 29, high - 40)
    )
    places = {
        "left-top": (left, high),
        "right-top": (right, high),
        "left-outside": (left - 29, high - 220),
        "right-outside": (right + 29, high - 220),
    }
    return Piece(marks=brackets + rim + posts, places=places)


@part("sheet", "front", left=200, right=2800, y=1004, drop=0)
def sheet(m: Measures) -> Piece:
    """Draw a flat sheet on the die, seen on its front edge; ``drop`` shows how far it reaches below when bent."""
    left, right, y, drop = (float(m[key]) for key in ("left", "right", "y", "drop"))
    if drop:
        marks = box("part", left, y - drop, right - left, drop)
    else:
        marks = line("edge", (left, y), (right, y)) + line("edge", (left, y + 6), (right, y + 6))
    return Piece(marks=marks, places={"left": (left, y), "right": (right, y), "middle": ((left + right) / 2, y)})


@part("end-covers", "front", bed=3050, wide=240)
def end_covers(m: Measures) -> Piece:
    """Draw a fixed cover over each die end, bolted to the side of the bed."""
    bed, wide = float(m["bed"]), float(m["wide"])
    marks = ""
    for left in (-wide + 60, bed - 60):
        marks += box("part", left, 780, wide, 620)
        marks += "".join(
            line("fine", (left + 30 + 40 * i, 820), (left + 30 + 40 * i, 1360)) for i in range(int((wide - 30) // 40))
        )
        marks += "".join(
            f'<circle class="part" cx="{x:.0f}" cy="{y}" r="14"/>'
            for x in (left + 18, left + wide - 18)
            for y in (800, 1380)
        )
    return Piece(marks=marks, places={"left-foot": (-wide / 2 + 60, 780.0), "right-foot": (bed - 60 + wide / 2, 780.0)})


@part("pedal", "front", x=300)
def pedal(m: Measures) -> Piece:
    """Draw a foot pedal under its cover."""
    x = float(m["x"])
    cover = path("part", f"M{x - 150} 0h300v60c-10 60-40 95-90 100h-120c-50-5-80-40-90-100z")
    opening = path("fine", f"M{x - 105} 14h210v50q0 36-40 46h-130q-40-10-40-46z") + box("part", x - 84, 16, 168, 26)
    cable = path("fine", f"M{x + 150} 40q90 10 130 60")
    return Piece(marks=cable + cover + opening, places={"top": (x, 160.0), "middle": (x, 60.0)})


@part("supports", "front", left=700, right=2300)
def supports(m: Measures) -> Piece:
    """Draw two support arms that carry the sheet in front of the bed."""
    marks = ""
    for x in (float(m["left"]), float(m["right"])):
        marks += boxes("part", [(x - 26, 560, 52, 400), (x - 80, 956, 160, 40)]) + box("part", x - 60, 520, 120, 60)
        marks += line("fine", (x - 60, 976), (x + 60, 976))
    return Piece(marks=marks, places={"left-foot": (float(m["left"]), 520.0), "right-foot": (float(m["right"]), 520.0)})


@part("floor", "front", left=-640, right=3700)
def floor(m: Measures) -> Piece:
    """Draw the floor line with its short strokes at both ends."""
    left, right = float(m["left"]), float(m["right"])
    strokes = "".join(f"M{x:.0f} 0l-52-52" for x in (left + 60, left + 150, left + 240, right - 180, right - 90, right))
    return Piece(marks=path("fine", f"M{left:.0f} 0H{right:.0f}{strokes}"))


@part("line", "front", x=3900, length=900)
def safety_line(m: Measures) -> Piece:
    """Draw the line on the floor behind which nobody is within reach, seen along it as a post with a chain."""
    x, length = float(m["x"]), float(m["length"])
    marks = boxes("part", [(x - 14, 0, 28, 860), (x - 70, 0, 140, 26), (x - 26, 860, 52, 40)])
    chain = path("fine", f"M{x - 14:.0f} 800q{-length / 2:.0f} -260 {-length:.0f} 0") if length else ""
    return Piece(marks=chain + marks, places={"top": (x, 900.0), "foot": (x, 13.0)})


@part("control", "front", x=3400)
def control(m: Measures) -> Piece:
    """Draw the control on its swing arm, at the right of the brake."""
    x = float(m["x"])
    arm = boxes("part", [(x - 250, 1760, 300, 46), (x + 4, 1560, 46, 200)])
    screen = box("part", x - 130, 1150, 310, 410) + box("fine", x - 96, 1320, 242, 200)
    keys = "".join(box("fine", x - 96 + 84 * i, 1190, 56, 44) for i in range(3))
    return Piece(marks=arm + screen + keys, places={"screen": (x + 180, 1420.0), "foot": (x + 25, 1150.0)})
