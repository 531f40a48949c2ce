"""The press brake cut through at mid-length, seen from the side: the operator is always at the left."""

from trainer.figures.ink import box, boxes, dot, line, path, shape
from trainer.figures.kit import Measures, Piece, part

DIE_TOP = 1000.0


@part("brake", "side", punch=1110, top=1600, low=700, back=520)
def brake(m: Measures) -> Piece:
    """Draw frame, ram, clamp, punch, die, holder and bed; ``punch`` is the height of its tip."""
    tip, top, low, back = (float(m[key]) for key in ("punch", "top", "low", "back"))
    marks = _frame(top, low, back) + _bed(low) + _ram(tip, top)
    places = {
        "ram": (40.0, min(top - 60, tip + 330)),
        "ram-left": (-42.0, min(top - 60, tip + 330)),
        "punch": (-14.0, tip + 40),
        "punch-left": (-16.0, tip + 60),
        "punch-right": (18.0, tip + 60),
        "die-front": (-30.0, 962.0),
        "die": (30.0, 962.0),
        "pinch": (-30.0, DIE_TOP),
        "bed": (58.0, 780.0),
        "frame": (back - 40, 1200.0),
        "opening": (0.0, (DIE_TOP + tip) / 2),
    }
    return Piece(marks=marks, places=places)


def _frame(top: float, low: float, back: float) -> str:
    """Draw the far C-frame: it lies behind the cut and is broken off above, below and behind."""
    inner = f"M-160 {low}V796H300C366 796 404 838 404 904V1356C404 1424 366 1466 300 1466H-190V{top}"
    wash = path("wash", f"{inner}H{back}V{low}z")
    above = f"M-230 {top}H-100l9 15 15-30 9 15H{back + 16}"
    below = f"M-190 {low}H190l9 15 15-30 9 15H{back + 16}"
    behind = f"M{back} {top + 16}V1250l15-9-30-15 15-9V{low - 16}"
    return wash + path("edge", inner) + path("fine", above + below + behind)


def _bed(low: float) -> str:
    die = path("cut hatched-back", f"M-30 930V{DIE_TOP}h16l14-17 14 17h16v-70z")
    return (
        path("cut hatched-back", f"M-58 {low}V848H58V{low}")
        + box("cut hatched", -44, 848, 88, 82)
        + die
        + path("fine", "M-44 905h-9v-22h9")
    )


def _ram(tip: float, top: float) -> str:
    foot = tip + 208
    ram = path("cut hatched", f"M-42 {top}V{foot}h84V{top}")
    clamp = path("cut hatched-back", f"M-18 {foot}v-94h54v94z")
    plate = box("part", -44, foot - 88, 26, 80) + box("part", -66, foot - 62, 22, 28)
    punch = shape(
        "cut hatched",
        [
            (-3, tip),
            (3, tip),
            (10, tip + 12),
            (18, tip + 62),
            (18, tip + 106),
            (9, tip + 114),
            (-9, tip + 114),
            (-18, tip + 106),
            (-18, tip + 62),
            (-10, tip + 12),
        ],
    )
    return ram + clamp + plate + punch


@part("back-stop", "side", x=236, finger=58, travels=False)
def back_stop(m: Measures) -> Piece:
    """Draw the back-stop on its rail, its finger at ``x``; ``travels`` adds an arrow of its powered movement."""
    x = float(m["x"])
    rail = box("part", 140, 812, 300, 22) + line("centre", (122, 823), (458, 823))
    column = box("part", x + 100, 834, 58, 128)
    head = box("part", x + 82, 962, 96, 62)
    finger = path("part", f"M{x:.0f} 990h82v28h-58l-10 14h-14z")
    screw = line("fine", (x + 112, 834), (x + 112, 962)) + dot("fine", x + 130, 992, 12)
    arrow = line("act-arrow", (x + 60, 1100), (x - 70, 1100)) if m["travels"] else ""
    return Piece(
        marks=rail + column + head + finger + screw + arrow,
        places={
            "finger": (x, 1010.0),
            "head": (x + 130, 1024.0),
            "travel": (x - 5, 1100.0),
            "top": (x + 130, 1024.0),
            "column": (x + 158, 900.0),
        },
    )


@part("curtain", "side", x=-420, low=808, high=1510, pitch=10, blanked=0, blanked_at=1004, thick=44, arm=True)
def curtain(m: Measures) -> Piece:
    """Draw one post with a dot for each beam at true pitch; ``blanked`` beams about ``blanked_at`` are crossed circles."""
    x, low, high, pitch, thick = (float(m[key]) for key in ("x", "low", "high", "pitch", "thick"))
    left = x - thick / 2
    holder = (
        box("part", left, 760, -154 - left, 34)
        + path("fine", f"M{x + 40:.0f} 783H-200q7-6 0-12H{x + 40:.0f}q-7 6 0 12z")
        if m["arm"]
        else ""
    )
    post = box("part", left, 760, thick, high - 760 + 22)
    blanked = blanked_heights(int(m["blanked"]), float(m["blanked_at"]), pitch, low)
    beams, crossed, y = "", "", low
    while y <= high:
        if any(abs(y - one) < pitch / 4 for one in blanked):
            r = min(pitch * 0.42, 8)
            crossed += dot("fine", x, y, r) + path(
                "fine",
                f"M{x - r * 0.7:.1f} {y - r * 0.7:.1f}l{1.4 * r:.1f} {1.4 * r:.1f}m0 {-1.4 * r:.1f}l{-1.4 * r:.1f} {1.4 * r:.1f}",
            )
        else:
            beams += dot("solid", x, y, min(pitch * 0.26, 4))
        y += pitch
    places = {
        "top": (x + thick / 2, high - 60),
        "top-left": (left, high - 60),
        "beams": (x, 1060.0),
        "blanked": (x, float(m["blanked_at"])),
        "left": (left, high - 60),
    }
    return Piece(marks=holder + post + beams + crossed, places=places)


def blanked_heights(count: int, about: float, pitch: float, low: float) -> list[float]:
    """Return the heights of ``count`` neighbouring beams nearest to ``about``."""
    first = round((about - low) / pitch - (count - 1) / 2)
    return [low + pitch * (first + i) for i in range(count)]


@part("sheet", "side", left=-640, right=232, y=1000, thick=6, angle=0)
def sheet(m: Measures) -> Piece:
    """Draw a sheet on the die, seen on its edge."""
    left, right, y, thick = (float(m[key]) for key in ("left", "right", "y", "thick"))
    return Piece(
        marks=box("solid", left, y, right - left, thick),
        places={"left": (left, y), "right": (right, y), "front": (left + 120, y + thick)},
    )


@part("support", "side", left=-620, right=-70, y=998, shows=False)
def support(m: Measures) -> Piece:
    """Draw a support arm in front of the bed that carries the sheet through the field."""
    left, right, y = float(m["left"]), float(m["right"]), float(m["y"])
    beam = (
        line("fine", (left, y - 34), (right, y - 34)) + line("fine", (left, y), (right, y))
        if m["shows"]
        else box("part", left, y - 34, right - left, 34)
    )
    foot = path("part", f"M{right - 10:.0f} {y - 34:.0f}v-120h-34l-150 120z")
    marks = beam + line("fine", (left + 16, y - 12), (right - 10, y - 12)) + foot
    return Piece(marks=marks, places={"front": (left + 60, y - 17), "middle": ((left + right) / 2, y - 17)})


@part("rod", "side", x=-420, y=1180, size=14, length=230)
def rod(m: Measures) -> Piece:
    """Draw a test rod in the field, on its handle."""
    x, y, size, length = (float(m[key]) for key in ("x", "y", "size", "length"))
    marks = boxes("part", [(x - length, y - size / 2, length + 60, size), (x - length - 110, y - 17, 112, 34)])
    return Piece(marks=marks, places={"handle": (x - length - 60, y + 17), "tip": (x + 60, y)})


@part("rear-gate", "side", x=560, low=0, high=1500, open=False)
def rear_gate(m: Measures) -> Piece:
    """Draw the interlocked gate behind the brake, with its switch; an open one is only its outline."""
    x, low, high = float(m["x"]), float(m["low"]), float(m["high"])
    if m["open"]:
        marks = path("phantom", f"M{x:.0f} {low:.0f}h30V{high:.0f}h-30z")
    else:
        marks = box("part", x, low, 30, high - low)
        marks += "".join(
            line("fine", (x + 4, low + step), (x + 26, low + step + 22)) for step in range(20, int(high - low) - 30, 44)
        )
    switch = boxes("part", [(x - 46, high - 40, 46, 84), (x - 34, high + 44, 22, 26)])
    return Piece(
        marks=marks + switch, places={"top": (x + 15, high), "switch": (x - 23, high + 2), "edge": (x + 30, 480.0)}
    )


@part("floor", "side", left=-900, right=1000)
def floor(m: Measures) -> Piece:
    """Draw the floor line with its short strokes at both ends."""
    left, right = float(m["left"]), float(m["right"])
    strokes = "".join(f"M{x:.0f} 0l-40-40" for x in (left + 60, left + 130, left + 200, right - 140, right - 70, right))
    return Piece(marks=path("fine", f"M{left:.0f} 0H{right:.0f}{strokes}"))


@part("isolator", "side", x=470, y=1290)
def isolator(m: Measures) -> Piece:
    """Draw the main switch, turned off, with a padlock through its handle."""
    x, y = float(m["x"]), float(m["y"])
    switch = (
        box("part", x - 60, y - 80, 120, 170)
        + dot("part", x, y + 20, 40)
        + line("cut", (x - 34, y + 20), (x + 34, y + 20))
    )
    shackle = path("edge", f"M{x - 18:.0f} {y - 92:.0f}v44q18 26 36 0v-44")
    body = box("solid", x - 30, y - 148, 60, 58)
    return Piece(marks=switch + shackle + body, places={"switch": (x + 60, y + 20), "lock": (x + 30, y - 120)})


@part("pedal", "side", x=-420)
def pedal(m: Measures) -> Piece:
    """Draw a foot pedal under its cover, open to the left."""
    x = float(m["x"])
    cover = path("part", f"M{x - 140:.0f} 0h300v70c-10 66-60 96-130 96h-100l-70-34z")
    tread = path("part", f"M{x - 120:.0f} 14h190v14l-190 22z") + path("fine", f"M{x + 160:.0f} 30q80 6 120 50")
    return Piece(marks=cover + tread, places={"top": (x, 166.0), "middle": (x, 60.0)})
