"""The published tables as somebody reads them on a sheet: a caption, heads, rows. Nothing here is worked out.

Cells that are known from memory only are left blank, as the sums leave them out.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import floor

from trainer import units
from trainer.safeguarding.tables import grid, table
from trainer.wording import Sentence, mark, say

INCH = Fraction(254, 10)  # mm, exactly
BLANK = "–"
HEADS = {
    "distance": mark("Distance, mm"),
    "to-opening": mark("Opening up to, mm"),
    "opening": mark("Opening, mm"),
    "slot": mark("Slot"),
    "square": mark("Square"),
    "round": mark("Round"),
    "part": mark("Part of the body"),
    "gap": mark("Gap, mm"),
    "beams": mark("Beams"),
    "reach": mark("C, mm"),
    "heights": mark("Heights, mm"),
    "danger": mark("Danger at, mm"),
    "persons": mark("Persons up to"),
    "number": mark("Number"),
}
PARTS = {
    "finger": mark("finger"),
    "toes": mark("toes"),
    "hand": mark("hand"),
    "arm": mark("arm"),
    "foot": mark("foot"),
    "leg": mark("leg"),
    "head": mark("head"),
    "body": mark("body"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Published:
    """A table to read: the name of its file, where it was published, heads and rows of words or numbers."""

    name: str
    source: str
    heads: tuple[Sentence | str, ...]
    rows: tuple[tuple[Sentence | str, ...], ...]


def published(problem: str) -> Published | None:
    """Return the table that a problem is read from; None for one that is worked out."""
    made = MAKERS.get(problem)
    return made() if made else None


def _of(name: str, heads: tuple[str, ...], rows: tuple[tuple[Sentence | str, ...], ...]) -> Published:
    about = table(name).about
    source = " ".join(part for part in (about["document"], about["clause"], about["year"]) if part)
    return Published(name=name, source=source, heads=tuple(say(HEADS[head]) for head in heads), rows=rows)


def _openings_us() -> Published:
    rows = tuple((f"{_mm(row['from'])}–{_mm(row['to'])}", _down(row["opening"])) for row in table("osha-o10").records())
    return _of("osha-o10", ("distance", "opening"), rows)


def _openings_international() -> Published:
    rows = tuple((row["to"], row["slot"], row["square"], row["round"]) for row in table("iso-13857-openings").records())
    return _of("iso-13857-openings", ("to-opening", "slot", "square", "round"), rows)


def _gaps() -> Published:
    parts = ((PARTS[row["part"]], row["gap"]) for row in table("iso-13854-gaps").records())
    rows = tuple((say(part), gap) for part, gap in parts)
    return _of("iso-13854-gaps", ("part", "gap"), rows)


def _beams() -> Published:
    rows = tuple((row["beams"], row["c"], row["heights"] or BLANK) for row in table("iso-13855-beams").records())
    return _of("iso-13855-beams", ("beams", "reach", "heights"), rows)


def _reach_over() -> Published:
    """Return only rows and columns in which something was read in a source."""
    known = grid("iso-13857-high-risk")
    read = {place: cell for place, cell in known.cells.items() if cell.read and cell.value}
    heights = [height for height in reversed(known.heights) if any(row == height for row, _ in read)]
    edges = [edge for edge in known.edges if any(column == edge for _, column in read)]
    rows = tuple(
        (str(height), *(str(read[height, edge].value) if (height, edge) in read else BLANK for edge in edges))
        for height in heights
    )
    made = _of("iso-13857-high-risk", ("danger",), rows)
    return Published(
        name=made.name, source=made.source, heads=(*made.heads, *(f"{edge} mm" for edge in edges)), rows=rows
    )


def _persons() -> Published:
    rows = tuple(
        (row["word"] or BLANK, row["number"]) for row in table("hazard-rating").records() if row["factor"] == "persons"
    )
    return _of("hazard-rating", ("persons", "number"), rows)


def _mm(inches: str) -> str:
    return units.digits(Fraction(inches) * INCH, 1)


def _down(inches: str) -> str:
    return units.digits(Fraction(floor(Fraction(inches) * INCH * 10), 10), 1)


MAKERS: Mapping[str, Callable[[], Published]] = {
    "us-guard-opening": _openings_us,
    "iso-guard-opening": _openings_international,
    "crush-gap": _gaps,
    "iso-multi-beam": _beams,
    "barrier-reach-over": _reach_over,
    "hazard-rating": _persons,
}
