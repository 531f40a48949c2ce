"""What a file holds before anybody asks what it means: cells with their kind, lines with their numbers."""

from dataclasses import dataclass
from datetime import date
from enum import StrEnum


class Kind(StrEnum):
    """What a cell is. A text file has texts only."""

    TEXT = "text"
    NUMBER = "number"  # a spreadsheet's number: zeros in front and digits behind the fifteenth are lost
    PADDED = "padded number"  # a number whose format shows the zeros in front
    DAY = "day"
    TRUTH = "true or false"
    FORMULA = "formula"
    FAULT = "error"


@dataclass(frozen=True, slots=True)
class Cell:
    """One cell. ``text`` is what a reader sees; ``day`` is there for a cell that is a date."""

    text: str
    kind: Kind = Kind.TEXT
    day: date | None = None


@dataclass(frozen=True, slots=True)
class Line:
    """One row. ``number`` is the line of the text file on which it begins, or the row of the spreadsheet."""

    number: int
    cells: tuple[Cell, ...]

    @property
    def texts(self) -> tuple[str, ...]:
        """Return the texts of the cells."""
        return tuple(cell.text for cell in self.cells)


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """A table as read. ``last`` is the number of the last line; ``told`` says how it was read, for the preview."""

    header: Line
    lines: tuple[Line, ...]
    last: int
    encoding: str = ""
    delimiter: str = ""
    name: str = ""
    line_end_missing: bool = False
