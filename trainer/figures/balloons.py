"""Balloons: lettered circles beside the places of a drawing that can be pressed, each with a leader to its place."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from html import escape
from math import cos, hypot, pi, sin
from typing import Any

from trainer.figures.ink import Point, dot, line, n
from trainer.figures.layout import Label

RADIUS = 19.0  # px of a balloon
REACH = (46.0, 62.0, 80.0)  # px from a place to the middle of its balloon, the nearest first
WAYS = tuple(pi * k / 8 for k in (4, 5, 3, 6, 2, 7, 1, 8, 0, 9, 15, 10, 14, 11, 13, 12))  # upwards first
SPOT = 3.5  # px of the dot at the place itself
STATES = {"pressed": "balloon-on", "right": "balloon-right", "wrong": "balloon-wrong"}


@dataclass(frozen=True, slots=True)
class Balloon:
    """One balloon: its letter, the middle of its circle, and the place that it stands for, in px."""

    letter: str
    at: Point
    tip: Point
    state: str = ""
    value: str = ""

    def drawn(self) -> str:
        """Return its marks. ``data-place`` carries what pressing it answers."""
        x, y = self.at
        far = hypot(self.tip[0] - x, self.tip[1] - y)
        start = (x + (self.tip[0] - x) * RADIUS / far, y + (self.tip[1] - y) * RADIUS / far)
        classes = f"balloon {STATES.get(self.state, '')}".strip()
        return (
            f'<g class="{classes}" data-place="{escape(self.value, quote=True)}">'
            f"{line('lead', start, self.tip)}{dot('spot', *self.tip, SPOT)}{dot('round', x, y, RADIUS)}"
            f'<text class="mid strong" x="{n(x)}" y="{n(y + 7)}">{escape(self.letter)}</text></g>'
        )


def balloons(
    entries: Sequence[Mapping[str, Any]], tips: Sequence[Point], labels: Iterable[Label], size: tuple[float, float]
) -> tuple[Balloon, ...]:
    """Put a balloon beside each tip so that it covers no other tip, no word and no other balloon, and stays on the sheet."""
    boxes = [label.box for label in labels]
    placed: list[Balloon] = []
    for entry, tip in zip(entries, tips, strict=True):
        at = _spot(tip, [*(one.at for one in placed)], [other for other in tips if other != tip], boxes, size)
        placed.append(
            Balloon(
                str(entry["letter"]), at, tip, str(entry.get("state", "")), str(entry.get("value", entry["letter"]))
            )
        )
    return tuple(placed)


def _spot(
    tip: Point,
    taken: Sequence[Point],
    tips: Sequence[Point],
    boxes: Sequence[tuple[float, float, float, float]],
    size: tuple[float, float],
) -> Point:
    ways = [(tip[0] + reach * cos(way), tip[1] - reach * sin(way)) for reach in REACH for way in WAYS]
    return min(ways, key=lambda at: _trouble(at, taken, tips, boxes, size))


def _trouble(
    at: Point,
    taken: Sequence[Point],
    tips: Sequence[Point],
    boxes: Sequence[tuple[float, float, float, float]],
    size: tuple[float, float],
) -> int:
    """Count what a balloon at a place would cover; off the sheet is worst."""
    x, y = at
    inside = RADIUS <= x <= size[0] - RADIUS and RADIUS <= y <= size[1] - RADIUS
    near = sum(hypot(x - ox, y - oy) < 2 * RADIUS + 4 for ox, oy in taken)
    over = sum(hypot(x - ox, y - oy) < RADIUS + 6 for ox, oy in tips)
    words = sum(
        left - RADIUS < x < right + RADIUS and top - RADIUS < y < bottom + RADIUS for left, top, right, bottom in boxes
    )
    return 0 if inside and not near + over + words else 100 * (not inside) + 10 * near + 5 * over + 3 * words
