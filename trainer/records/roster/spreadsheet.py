"""Spreadsheets: what each cell is, so that a number whose zeros are lost is never taken for the text it was."""

import io
import re
import warnings
import zipfile
from collections.abc import Callable, Sequence
from datetime import date, datetime, time
from typing import Any

from openpyxl import load_workbook
from openpyxl.utils.escape import unescape

from trainer.records.roster.cells import Cell, Kind, Line, Sheet
from trainer.records.roster.findings import UnreadableRoster, found
from trainer.records.roster.questions import Asked, Choice, Question, Stop
from trainer.wording import say

LARGEST = 200 * 1024 * 1024  # bytes that a spreadsheet may unpack to
SIGN = b"PK\x03\x04"
OLD_SIGN = b"\xd0\xcf\x11\xe0"  # the binary form from before 2007
PADDING = re.compile(r"0{2,}")
GENERAL = frozenset({"General", "0", "@", "#"})


def is_spreadsheet(data: bytes) -> bool:
    """Say whether a file is a spreadsheet; :class:`Stop` for the old binary form, which cannot be read."""
    if data.startswith(OLD_SIGN):
        raise Stop(found(UnreadableRoster, say("The file is a spreadsheet of the old binary form (.xls).")))
    return data.startswith(SIGN)


def read_spreadsheet(data: bytes, known: Callable[[Sequence[str]], int], asked: Asked) -> Sheet:
    """Read the sheet that has a roster's head; which one is asked when there are several.

    ``known`` says how many columns of a head are known.
    """
    tables = _tables(data)
    if not tables:
        raise Stop(found(UnreadableRoster, say("The file is empty.")))
    fitting = {name: lines for name, lines in tables.items() if known(lines[0].texts) > 1} or tables
    name = next(iter(fitting)) if len(fitting) == 1 else _which(fitting, asked)
    head, *lines = fitting[name]
    return Sheet(header=head, lines=tuple(lines), last=lines[-1].number if lines else head.number, name=name)


def _which(tables: dict[str, list[Line]], asked: Asked) -> str:
    choices = tuple(
        Choice(name, say("Sheet {name}, {count} rows", name=name, count=len(lines) - 1))
        for name, lines in tables.items()
    )
    told = say("The file has several sheets that could be the roster. Which one is it?")
    answer = asked.ask(Question(id="sheet", sentence=told, choices=choices))
    if answer is None:
        raise Stop
    return answer


def _tables(data: bytes) -> dict[str, list[Line]]:
    """Return the rows of every sheet that has any."""
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as packed:
            large = sum(part.file_size for part in packed.infolist()) > LARGEST
        tables = {} if large else _opened(data)
    except Exception as error:  # whatever a broken file makes the reader do, it is one answer
        raise Stop(found(UnreadableRoster, say("The spreadsheet is damaged and cannot be read."))) from error
    if large:
        raise Stop(found(UnreadableRoster, say("The spreadsheet is too large to be a roster.")))
    return {name: lines for name, lines in tables.items() if lines}


def _opened(data: bytes) -> dict[str, list[Line]]:
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # about styles and extensions, which have no part in this
        book = load_workbook(io.BytesIO(data), read_only=True, data_only=False)
        tables = {sheet.title: _lines(sheet) for sheet in book.worksheets}
        book.close()
    return tables


def _lines(sheet: Any) -> list[Line]:
    rows = (Line(number, tuple(map(_cell, row))) for number, row in enumerate(sheet.iter_rows(), start=1))
    return [_trimmed(line) for line in rows if any(line.texts)]


def _trimmed(line: Line) -> Line:
    """Leave out the empty cells behind the last one; a spreadsheet has as many as it likes."""
    cells = list(line.cells)
    while cells and not cells[-1].text:
        cells.pop()
    return Line(line.number, tuple(cells))


def _cell(cell: Any) -> Cell:
    value = cell.value
    if value is None:
        return Cell("")
    if cell.data_type == "f":
        return Cell(str(value), Kind.FORMULA)
    if cell.data_type == "e":
        return Cell(str(value), Kind.FAULT)
    if isinstance(value, bool):
        return Cell(str(value).upper(), Kind.TRUTH)
    if isinstance(value, datetime):
        whole = value.time() == time.min
        return Cell(
            value.date().isoformat() if whole else value.isoformat(" "), Kind.DAY, value.date() if whole else None
        )
    if isinstance(value, date):
        return Cell(value.isoformat(), Kind.DAY, value)
    if isinstance(value, int | float):
        return _number(value, str(cell.number_format))
    return Cell(unescape(str(value)).strip())


def _number(value: float, shown: str) -> Cell:
    """Return a number as its format shows it when that is plain; ``00000`` shows the zeros."""
    whole = isinstance(value, int) or value.is_integer()
    if whole and PADDING.fullmatch(shown):
        return Cell(f"{int(value):0{len(shown)}d}", Kind.PADDED)
    if whole and shown in GENERAL and abs(value) < 10**11:  # from twelve digits on a spreadsheet shows an exponent
        return Cell(str(int(value)), Kind.NUMBER)
    return Cell(f"{value:.5E}" if whole else repr(value), Kind.NUMBER)
