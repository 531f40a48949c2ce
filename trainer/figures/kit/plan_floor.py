"""Seen from above: the floor of a work cell, what fences it, and what stands on it."""

import math
from typing import Any

from trainer.figures.ink import Point, box, boxes, dot, group, line, n, path
from trainer.figures.kit.registry import Measures, Piece, floats, part

MESH = 150.0  # mm between the strokes of a fence panel
PANEL = 1100.0  # mm: about how far the posts of a fence stand apart


@part("cell", "plan", x=-1100, y=-2100, width=5250, depth=4400)
def cell(m: Measures) -> Piece:
    """Draw the floor of the cell as a painted line round it; ``x``, ``y`` is its left front corner."""
    x, y, width, depth = floats(m, "x", "y", "width", "depth")
    marks = box("fine", x, y, width, depth) + box("fine", x + 60, y + 60, width - 120, depth - 120)
    places = {
        "middle": (x + width / 2, y + depth / 2),
        "front": (x + width / 2, y + 30),
        "rear": (x + width / 2, y + depth - 30),
        "left": (x + 30, y + depth / 2),
        "right": (x + width - 30, y + depth / 2),
    }
    return Piece(marks=marks, places=places)


FENCE: Measures = {"from": (0.0, 2000.0), "to": (3050.0, 2000.0), "gap": 0}


@part("fence", "plan", choices=None, **FENCE)
def fence_plan(m: Measures) -> Piece:
    """Draw a fence of mesh panels between two points; ``gap`` leaves it open that far in the middle."""
    (ax, ay), (bx, by) = _point(m["from"]), _point(m["to"])
    length, gap = math.dist((ax, ay), (bx, by)), float(m["gap"])
    half = max(0.0, (length - gap) / 2)
    runs = [(0.0, half), (length - half, length)] if gap else [(0.0, length)]
    marks = "".join(_panels(start, end) for start, end in runs if end > start)
    turn = math.degrees(math.atan2(by - ay, bx - ax))
    share = half / 2 / length if gap and length else 0.5
    places = {
        "middle": ((ax + bx) / 2, (ay + by) / 2),
        "panel": (ax + (bx - ax) * share, ay + (by - ay) * share),
        "from": (ax, ay),
        "to": (bx, by),
    }
    places |= {"gap": places["middle"]} if gap else {}
    return Piece(marks=group(marks, transform=f"translate({n(ax)} {n(ay)}) rotate({n(turn)})"), places=places)


def _point(value: Any) -> Point:
    return float(value[0]), float(value[1])


def _panels(start: float, end: float) -> str:
    count = max(1, round((end - start) / PANEL))
    posts = [start + (end - start) * i / count for i in range(count + 1)]
    mesh = "".join(f"M{n(start + MESH * i)}-26l52 52" for i in range(1, int((end - start) / MESH)))
    rails = path("edge", f"M{n(start)}-26H{n(end)}M{n(start)} 26H{n(end)}") + (path("fine", mesh) if mesh else "")
    return rails + boxes("solid", [(x - 40, -40, 80, 80) for x in posts])


@part("gate", "plan", x=2400, y=2000, wide=900, turn=0, open=False)
def gate_plan(m: Measures) -> Piece:
    """Draw a gate in a fence, hinged at ``x``, ``y``, with its switch; ``turn`` is the way it closes in degrees; open it swings out."""
    x, y, wide, turn = floats(m, "x", "y", "wide", "turn")
    away = 75.0 if m["open"] else 0.0
    leaf = box("part", 0, -22, wide, 44) + path(
        "fine", "".join(f"M{n(90 * i)}-22l40 44" for i in range(1, int(wide / 90)))
    )
    marks = group(leaf, transform=f"rotate({n(away)})")
    if m["open"]:
        reach = math.radians(away)
        marks += path("phantom", f"M0-22H{n(wide)}V22H0z") + path(
            "fine", f"M{n(wide)} 0A{n(wide)} {n(wide)} 0 0 1 {n(wide * math.cos(reach))} {n(wide * math.sin(reach))}"
        )
    marks += dot("part", 0, 0, 44) + box("part", wide + 10, -70, 90, 140) + dot("solid", wide + 55, 0, 22)
    angle, swung = math.radians(turn), math.radians(turn + away)
    places = {
        "middle": (x + wide / 2 * math.cos(swung), y + wide / 2 * math.sin(swung)),
        "hinge": (x, y),
        "opening": (x + wide / 2 * math.cos(angle), y + wide / 2 * math.sin(angle)),
        "switch": (x + (wide + 55) * math.cos(angle), y + (wide + 55) * math.sin(angle)),
    }
    return Piece(marks=group(marks, transform=f"translate({n(x)} {n(y)}) rotate({n(turn)})"), places=places)


def _sides(x: float, y: float, wide: float, deep: float) -> dict[str, Point]:
    """Name middle and sides of what stands on the floor; ``x``, ``y`` is its left front corner."""
    return {
        "middle": (x + wide / 2, y + deep / 2),
        "left": (x, y + deep / 2),
        "right": (x + wide, y + deep / 2),
        "front": (x + wide / 2, y),
        "rear": (x + wide / 2, y + deep),
    }


@part("bin", "plan", x=3400, y=-900, wide=700, deep=550)
def bin_plan(m: Measures) -> Piece:
    """Draw a scrap bin from above: a rim and its slanting walls, some offcuts in it."""
    x, y, wide, deep = floats(m, "x", "y", "wide", "deep")
    inner = box("fine", x + 80, y + 80, wide - 160, deep - 160)
    edges = "".join(
        f"M{n(x + a * wide)} {n(y + b * deep)}l{n(80 - 160 * a)} {n(80 - 160 * b)}" for a in (0, 1) for b in (0, 1)
    )
    scrap = path(
        "fine",
        f"M{n(x + wide * 0.3)} {n(y + deep * 0.35)}l{n(wide * 0.3)} {n(deep * 0.12)}l-20 60l{n(-wide * 0.3)} {n(-deep * 0.12)}z",
    )
    return Piece(
        marks=box("part", x, y, wide, deep) + inner + path("fine", edges) + scrap, places=_sides(x, y, wide, deep)
    )


@part("table", "plan", x=-1000, y=-1500, wide=700, deep=1300, sheets=True)
def table_plan(m: Measures) -> Piece:
    """Draw a table from above; ``sheets`` puts a stack of blanks on it, not quite straight."""
    x, y, wide, deep = floats(m, "x", "y", "wide", "deep")
    top = box("part", x, y, wide, deep)
    inner = (wide - 210, deep - 230)
    blanks = box("part", x + 80, y + 90, *inner) + box("fine-part", x + 122, y + 128, *inner) if m["sheets"] else ""
    return Piece(marks=top + blanks, places=_sides(x, y, wide, deep))


@part("mat", "plan", x=300, y=-1300, wide=2450, deep=900)
def mat_plan(m: Measures) -> Piece:
    """Draw a mat on the floor from above: a sloped rim and rows of studs."""
    x, y, wide, deep = floats(m, "x", "y", "wide", "deep")
    columns, rows = max(2, int(wide / 170)), max(2, int(deep / 170))
    studs = "".join(
        f"M{n(x + wide * (i + 0.5) / columns - 16)} {n(y + deep * (j + 0.5) / rows)}h32"
        for i in range(columns)
        for j in range(rows)
    )
    marks = box("part", x, y, wide, deep) + box("fine", x + 50, y + 50, wide - 100, deep - 100) + path("fine", studs)
    return Piece(marks=marks, places=_sides(x, y, wide, deep))


@part("aisle", "plan", left=-1100, right=4150, y=-3300, wide=1000)
def aisle(m: Measures) -> Piece:
    """Draw an aisle along the front of the cell: two painted lines, and arrows for both ways."""
    left, right, y, wide = floats(m, "left", "right", "y", "wide")
    lines = boxes("solid", [(left, y, right - left, 36), (left, y + wide - 36, right - left, 36)])
    span = min(600.0, (right - left) / 4)
    low, high = y + wide * 0.34, y + wide * 0.66
    marks = lines + _way(right - span * 0.6, low, -span) + _way(left + span * 0.6, high, span)
    return Piece(marks=marks, places=_sides(left, y, right - left, wide))


def _way(x: float, y: float, length: float) -> str:
    """Draw a flat arrow, as it is painted on a floor, that ends ``length`` further on."""
    way = math.copysign(1, length)
    tip, neck = x + length, x + length - way * 150
    return line("fine", (x, y), (neck, y)) + path("fine", f"M{n(tip)} {n(y)}L{n(neck)} {n(y + 60)}V{n(y - 60)}z")
