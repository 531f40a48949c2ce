"""A kit of parts, drawn in millimetres: y up, floor at 0, bend line (side view) or left end of the bed (front view) at 0.

Each part is a function of its measures that returns a :class:`Piece`: its marks, and named places on it that labels,
dimensions and "point at the place" questions can refer to. Parts are registered by name and view.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Any

from trainer.figures.ink import Point

Measures = Mapping[str, Any]


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """A drawn part: its marks and its named places."""

    marks: str
    places: Mapping[str, Point] = field(default_factory=lambda: MappingProxyType({}))


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """A part of the kit: the view it is seen in, the measures it takes with their usual values, how it is drawn."""

    name: str
    view: str
    usual: Measures
    draw: Callable[[Measures], Piece]


PARTS: dict[tuple[str, str], Part] = {}
BOTH = ("front", "side")


def part(name: str, *views: str, **usual: Any) -> Callable[[Callable[[Measures], Piece]], Callable[[Measures], Piece]]:
    """Register a part under its name, for each view it can be drawn in."""

    def register(draw: Callable[[Measures], Piece]) -> Callable[[Measures], Piece]:
        for view in views:
            PARTS[view, name] = Part(name=name, view=view, usual=MappingProxyType(usual), draw=draw)
        return draw

    return register
