"""Text tables as in RFC 4180 (2005), with comma, semicolon or tab. Line numbers are those of the file."""

import csv
import io
from collections.abc import Callable, Iterator, Sequence

from trainer.records.roster.cells import Cell, Line, Sheet
from trainer.records.roster.findings import CutRoster, UnreadableRoster, found
from trainer.records.roster.questions import Stop
from trainer.wording import say

DELIMITERS = {",": "comma", ";": "semicolon", "\t": "tab"}
SEPARATOR_LINE = "sep="  # some spreadsheets write their delimiter on a line of its own before the head


def read_delimited(text: str, encoding: str, known: Callable[[Sequence[str]], int]) -> Sheet:
    """Read a text table; ``known`` says how many columns of a head are known, which settles the delimiter."""
    skipped = text.partition("\n")[0].strip().lower().startswith(SEPARATOR_LINE)
    delimiter = max(DELIMITERS, key=lambda sign: known(_head(text, sign, skipped=skipped)))
    rows = list(_rows(text, delimiter))[1 if skipped else 0 :]
    if not rows:
        raise Stop(found(UnreadableRoster, say("The file is empty.")))
    return Sheet(
        header=rows[0],
        lines=tuple(rows[1:]),
        last=len(io.StringIO(text, newline="").readlines()),
        encoding=encoding,
        delimiter=DELIMITERS[delimiter],
        line_end_missing=not text.endswith(("\n", "\r")),
    )


def _head(text: str, delimiter: str, *, skipped: bool) -> Sequence[str]:
    try:
        rows = _rows(text, delimiter)
        first = next(rows, None)
        found_head = next(rows, None) if skipped else first
    except Stop:
        return ()
    return () if found_head is None else found_head.texts


def _rows(text: str, delimiter: str) -> Iterator[Line]:
    """Give the rows that hold anything, with the line on which each begins."""
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, strict=True)
    begins = 1
    try:
        for row in reader:
            if any(cell.strip() for cell in row):
                yield Line(begins, tuple(Cell(cell.strip()) for cell in row))
            begins = reader.line_num + 1
    except csv.Error as error:
        raise Stop(_broken(str(error), begins)) from error


def _broken(error: str, line: int) -> CutRoster | UnreadableRoster:
    if "unexpected end" in error:
        told = say("The file ends inside a quotation that begins on line {line}.", line=line)
        return found(CutRoster, told, line=line)
    told = say("On line {line} a quotation mark is out of place, or a cell never ends.", line=line)
    return found(UnreadableRoster, told, line=line)
