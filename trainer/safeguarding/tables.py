"""The published tables: CSV files with a sourced header, read once into frozen rows."""

import csv
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from pathlib import Path
from types import MappingProxyType

FOLDER = Path(__file__).parent / "tables"
HEADER = ("document", "clause", "year", "read", "units", "how read")
STAR = "*"  # marks a cell that was not read in a source


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """One file: what its header says, the names of its columns, its rows as written."""

    about: Mapping[str, str]
    columns: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]

    def records(self) -> tuple[Mapping[str, str], ...]:
        """Return each row by the names of the columns."""
        return tuple(MappingProxyType(dict(zip(self.columns, row, strict=True))) for row in self.rows)


@cache
def table(name: str) -> Table:
    """Return a table by the name of its file."""
    about: dict[str, str] = {}
    lines = []
    for line in (FOLDER / f"{name}.csv").read_text(encoding="utf-8").splitlines():
        if line.startswith("# "):
            key, _, value = line[2:].partition(":")
            about[key] = value.strip()
        else:
            lines.append(line)
    columns, *rows = csv.reader(lines)
    return Table(about=MappingProxyType(about), columns=tuple(columns), rows=tuple(tuple(row) for row in rows))


@dataclass(frozen=True, slots=True)
class Band:
    """One row of a table of ranges: above ``above`` up to and with ``to``, in mm."""

    above: Fraction
    to: Fraction
    cells: Mapping[str, str]


@cache
def bands(name: str) -> tuple[Band, ...]:
    """Return the rows of a table of ranges."""
    return tuple(Band(Fraction(row["above"]), Fraction(row["to"]), row) for row in table(name).records())


def band_of(name: str, value: Fraction) -> Band | None:
    """Return the row that holds a value; the edge belongs to the row that ends there."""
    return next((band for band in bands(name) if band.above < value <= band.to), None)


@dataclass(frozen=True, slots=True)
class Cell:
    """One cell of a grid: its value in mm, and whether it was read in a source."""

    value: int
    read: bool


@dataclass(frozen=True, slots=True)
class Grid:
    """A table of hazard height against height of an edge, in mm, both ascending."""

    heights: tuple[int, ...]
    edges: tuple[int, ...]
    cells: Mapping[tuple[int, int], Cell]

    def column(self, edge: Fraction) -> int | None:
        """Return the largest tabulated edge that is not above the real one; None below the first."""
        return max((known for known in self.edges if known <= edge), default=None)

    def column_above(self, edge: Fraction) -> int:
        """Return the smallest tabulated edge that is not below the real one: the unsafe way to read it."""
        return min((known for known in self.edges if known >= edge), default=self.edges[-1])

    def rows(self, height: Fraction) -> tuple[int, ...]:
        """Return the tabulated heights around the real one: one where it is tabulated or above them all, else two."""
        below = max((known for known in self.heights if known <= height), default=self.heights[0])
        above = min((known for known in self.heights if known >= height), default=self.heights[-1])
        return (below,) if below == above or height > self.heights[-1] else (below, above)

    def around(self, height: Fraction, column: int) -> tuple[Cell, ...]:
        """Return the cells to choose from in one column."""
        return tuple(self.cells[row, column] for row in self.rows(height))

    def between(self, height: Fraction, edge: Fraction) -> Fraction:
        """Return the value interpolated in both directions: a way to read it that is not allowed."""
        low, high = self.column(edge) or self.edges[0], self.column_above(edge)
        left, right = self._along(height, low), self._along(height, high)
        return left if low == high else left + (right - left) * (edge - low) / (high - low)

    def _along(self, height: Fraction, column: int) -> Fraction:
        rows = self.rows(height)
        first, last = (Fraction(self.cells[row, column].value) for row in (rows[0], rows[-1]))
        return first if len(rows) == 1 else first + (last - first) * (height - rows[0]) / (rows[1] - rows[0])


@cache
def grid(name: str) -> Grid:
    """Return a table of heights as a grid."""
    raw = table(name)
    edges = tuple(int(edge) for edge in raw.columns[1:])
    cells = {
        (int(row[0]), edge): Cell(int(text.rstrip(STAR)), not text.endswith(STAR))
        for row in raw.rows
        for edge, text in zip(edges, row[1:], strict=True)
    }
    return Grid(tuple(sorted(int(row[0]) for row in raw.rows)), edges, MappingProxyType(cells))
