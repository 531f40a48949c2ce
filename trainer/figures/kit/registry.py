"""How a part is registered: by its name and the view it is seen in, with the measures it takes.

Each part is a function of its measures that returns a :class:`Piece`: its marks, and named places on it that labels,
dimensions and "point at the place" questions refer to.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping
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
    choices: Mapping[str, Iterable[str]] = field(default_factory=lambda: MappingProxyType({}))


PARTS: dict[tuple[str, str], Part] = {}


def part(
    name: str, *views: str, choices: Mapping[str, Iterable[str]] | None = None, **usual: Any
) -> Callable[[Callable[[Measures], Piece]], Callable[[Measures], Piece]]:
    """Register a part under its name, for each view it can be drawn in; ``choices`` are the words that a measure may be."""
    words = MappingProxyType({key: tuple(value) for key, value in (choices or {}).items()})

    def register(draw: Callable[[Measures], Piece]) -> Callable[[Measures], Piece]:
        for view in views:
            PARTS[view, name] = Part(name=name, view=view, usual=MappingProxyType(usual), draw=draw, choices=words)
        return draw

    return register


def composed(view: str, entries: Iterable[Mapping[str, Any]]) -> Iterator[tuple[str, Piece]]:
    """Draw the parts that ``entries`` name, in their order; yields the name of each (``as``, else the part's) and its piece."""
    for entry in entries:
        known = PARTS[view, str(entry["part"])]
        measures = {key: value for key, value in entry.items() if key not in {"part", "as"}}
        yield str(entry.get("as", known.name)), known.draw({**known.usual, **measures})


def floats(measures: Measures, *keys: str) -> tuple[float, ...]:
    """Return measures as numbers, in the order of ``keys``."""
    return tuple(float(measures[key]) for key in keys)
