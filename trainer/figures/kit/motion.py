"""Arrows: this moves, and this way."""

import math

from trainer.figures.ink import Point, group, line, n, path, shape

HEAD, HALF, SHAFT = 46.0, 34.0, 16.0  # mm: the head's length and half its breadth, half the shaft's breadth


def moves(x: float, y: float, length: float, turn: float) -> str:
    """Draw an arrow whose tip is at ``x``, ``y``; it points to the left, turned by ``turn`` degrees."""
    shaft = length - HEAD
    outline = f"M0 0L{n(HEAD)} {n(HALF)}V{n(SHAFT)}h{n(shaft)}v{n(-2 * SHAFT)}h{n(-shaft)}V{n(-HALF)}z"
    return group(path("part", outline), transform=f"translate({n(x)} {n(y)}) rotate({n(turn)})")


def turns(centre: Point, radius: float, start: float, sweep: float, head: float = 46) -> str:
    """Draw a slim arrow on an arc about ``centre``: from ``start`` degrees on by ``sweep`` (against the clock where positive)."""
    way = 1 if sweep > 0 else -1
    end = start + sweep
    neck = end - way * math.degrees(head / radius)
    arc = f"M{_at(centre, radius, start)}A{n(radius)} {n(radius)} 0 {int(abs(sweep) > 180)} {int(way > 0)} {_at(centre, radius, neck)}"
    tip = f"M{_at(centre, radius, end)}L{_at(centre, radius + head * 0.34, neck)}L{_at(centre, radius - head * 0.34, neck)}z"
    return path("edge", arc) + path("solid", tip)


def walks(points: list[Point], head: float = 150) -> str:
    """Draw a dashed way through ``points`` with an arrowhead at its end."""
    (ax, ay), (bx, by) = points[-2:]
    length = math.dist((ax, ay), (bx, by)) or 1.0
    ux, uy = (bx - ax) / length, (by - ay) / length
    neck = (bx - ux * head, by - uy * head)
    wing = head * 0.34
    tip = [(bx, by), (neck[0] - uy * wing, neck[1] + ux * wing), (neck[0] + uy * wing, neck[1] - ux * wing)]
    return line("hidden", *points[:-1], neck) + shape("solid", tip)


def _at(centre: Point, radius: float, degrees: float) -> str:
    angle = math.radians(degrees)
    return f"{n(centre[0] + radius * math.cos(angle))} {n(centre[1] + radius * math.sin(angle))}"
