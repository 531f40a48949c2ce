"""What is bent: a box, a small part, a sheet whose flange swings up."""

import math

from trainer.figures.ink import Point, box, group, line, n, path
from trainer.figures.kit.motion import turns
from trainer.figures.kit.registry import Measures, Piece, floats, part


@part("box", "side", x=-320, wide=320, high=90, y=1000, thick=5, closed=False)
def box_side(m: Measures) -> Piece:
    """Draw a box on the die, cut through: floor from ``x`` over ``wide``, one wall up, its far end beyond.

    The last wall still lies flat behind the bend; ``closed`` has it up.
    """
    x, wide, high, y, thick = floats(m, "x", "wide", "high", "y", "thick")
    end = x + wide
    tail = box("solid", end - thick, y, thick, high) if m["closed"] else box("solid", end, y, high, thick)
    wall = box("solid", x, y, thick, high) + box("solid", x, y + high - thick, min(26.0, wide / 5), thick)
    far = box("part", x + thick, y + thick, wide - 2 * thick, high - thick)
    seam = line("fine", (x + thick, y + high - 14), (end - thick, y + high - 14))
    places = {
        "middle": (x + wide / 2, y + high / 2),
        "wall": (x, y + high / 2),
        "floor": (x + wide / 2, y),
        "end": (x + wide / 2, y + high),
        "flange": (end + (0 if m["closed"] else high), y),
    }
    return Piece(marks=far + seam + box("solid", x, y, wide, thick) + wall + tail, places=places)


@part("box", "front", x=1200, wide=500, high=120, y=1000, bottom=0)
def box_front(m: Measures) -> Piece:
    """Draw a box on the die: its front wall, and above it the rims of the two ends; ``bottom`` drops it below the die's top."""
    x, wide, high, y, drop = floats(m, "x", "wide", "high", "y", "bottom")
    low, lip = y - drop, min(24.0, wide / 8)
    ends = path("part", f"M{n(x)} {n(low)}V{n(low + high + 26)}h{n(lip)}L{n(x + lip)} {n(low)}z")
    ends += path("part", f"M{n(x + wide)} {n(low)}V{n(low + high + 26)}h{n(-lip)}V{n(low)}z")
    front = box("part", x, low, wide, high)
    folds = path(
        "fine",
        f"M{n(x)} {n(low + 12)}h{n(wide)}M{n(x + 10)} {n(low + 12)}V{n(low + high)}M{n(x + wide - 10)} {n(low + 12)}V{n(low + high)}",
    )
    places = {
        "middle": (x + wide / 2, low + high / 2),
        "left": (x, low + high / 2),
        "right": (x + wide, low + high / 2),
        "top": (x + wide / 2, low + high),
        "left-top": (x + lip / 2, low + high + 26),
        "right-top": (x + wide - lip / 2, low + high + 26),
    }
    return Piece(marks=ends + front + folds, places=places)


@part("small-part", "front", x=700, y=1000, wide=120, high=60)
def small_part_front(m: Measures) -> Piece:
    """Draw a small part on the die, with two holes in it; ``x``, ``y`` is its left lower corner."""
    x, y, wide, high = floats(m, "x", "y", "wide", "high")
    radius = min(wide, high) * 0.12
    holes = "".join(
        f"M{n(x + wide * s - radius)} {n(y + high * 0.62)}a{n(radius)} {n(radius)} 0 1 0 {n(2 * radius)} 0a{n(radius)} {n(radius)} 0 1 0 {n(-2 * radius)} 0z"
        for s in (0.25, 0.75)
    )
    return Piece(marks=box("part", x, y, wide, high) + path("fine", holes), places=_corners(x, y, wide, high))


@part("small-part", "side", x=-60, y=1000, wide=90, high=6)
def small_part_side(m: Measures) -> Piece:
    """Draw a small part on the die, seen on its edge; ``x``, ``y`` is its front lower corner."""
    x, y, wide, high = floats(m, "x", "y", "wide", "high")
    return Piece(marks=box("solid", x, y, wide, high), places=_corners(x, y, wide, high))


def _corners(x: float, y: float, wide: float, high: float) -> dict[str, Point]:
    return {
        "middle": (x + wide / 2, y + high / 2),
        "left": (x, y + high / 2),
        "right": (x + wide, y + high / 2),
        "front": (x, y + high / 2),
        "top": (x + wide / 2, y + high),
    }


@part("flange", "side", angle=45, left=-640, right=140, y=1000, thick=6, clamped=False, travels=True)
def flange(m: Measures) -> Piece:
    """Draw a sheet whose front part swings up by ``angle`` degrees as the punch comes down, dashed where it lay before.

    At a brake both sides rise; ``clamped`` keeps the rear flat, as a folder does. ``travels`` adds an arrow of its way.
    """
    angle, left, right, y, thick = floats(m, "angle", "left", "right", "y", "thick")
    before = line("phantom", (left, y + thick / 2), (0.0, y + thick / 2)) if angle else ""
    front = box("solid", left, 0, -left, thick)
    rear = box("solid", 0, 0, right, thick)
    marks = before + _turned(front, y, -angle) + _turned(rear, y, 0 if m["clamped"] else angle)
    if m["travels"] and angle > 12:
        marks += turns((0.0, y), -left * 0.86, 177, 6 - angle)
    reach = math.radians(180 - angle)
    places = {
        "edge": (-left * math.cos(reach), y - left * math.sin(reach)),
        "bend": (0.0, y),
        "before": (left * 0.75, y + thick / 2),
        "rear": (
            right * (1.0 if m["clamped"] else math.cos(math.radians(angle))),
            y + (0.0 if m["clamped"] else right * math.sin(math.radians(angle))),
        ),
    }
    places["middle"] = (places["edge"][0] / 2, (places["edge"][1] + y) / 2)
    return Piece(marks=marks, places=places)


def _turned(marks: str, y: float, angle: float) -> str:
    return group(marks, transform=f"translate(0 {n(y)}) rotate({n(angle)})")
