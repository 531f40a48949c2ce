"""Spreadsheets for people: text cells, so that zeros, accents, days and names that begin with ``=`` stay as they are.

Rows go to a file on disk as they come and the whole is handed over from there; memory does not grow with them. A
second sheet says what was asked, when the file was made, how many rows it has and its check code.
"""

import tempfile
from collections.abc import Iterator, Sequence
from datetime import UTC
from typing import Any, BinaryIO

import xlsxwriter

from trainer.exports.about import ASKED, About, Tally
from trainer.exports.tables import Cell, Table, text
from trainer.exports.voice import PLAIN, Voice
from trainer.wording import mark, say

CHUNK = 64 * 1024  # bytes handed over at a time
MOST_ROWS = 1_048_575  # that one sheet holds below its head
LONGEST = 32_767  # characters that one cell holds
NARROW, WIDE = 14, 60  # widths of columns, in digits
WORDY = frozenset({"reasons", "lacks", "because", "note"})
NAMES = frozenset({"person name", "person name then", "by name then", "programme", "recorded at"})
CUT = " […]"
A4 = 9  # the format’s number for that paper
NOTES = (
    mark("Every cell is text as it stands on the record; only counts are numbers."),
    mark("Whoever asks the record again for the same gets the same check code, as long as nothing was changed."),
    mark("A training record. The machine’s manual, local rules and a competent person decide how a machine is used."),
)


def xlsx_pieces(made: Table, about: About, tally: Tally, voice: Voice = PLAIN) -> Iterator[bytes]:
    """Give a table as a spreadsheet, in pieces. ``tally`` has to count the rows of this very table."""
    with tempfile.TemporaryFile() as file:
        book = _Book(file, about, voice)
        book.fill(made)
        book.tell(told(about, tally, voice))
        book.book.close()
        file.seek(0)
        while piece := file.read(CHUNK):
            yield piece


class _Book:
    """A workbook that is being written, in one voice."""

    def __init__(self, file: BinaryIO, about: About, voice: Voice) -> None:
        self.voice = voice
        self.book = xlsxwriter.Workbook(file, {"constant_memory": True})
        made_at = about.made_at.astimezone(UTC).replace(tzinfo=None)
        self.book.set_properties({"title": voice.tell(about.what), "company": about.site, "created": made_at})
        self.bold = self.book.add_format({"bold": True, "bottom": 2, "valign": "top"})
        self.plain = self.book.add_format({"valign": "top", "text_wrap": True, "num_format": "@"})
        self.count = self.book.add_format({"valign": "top", "num_format": "0"})

    def fill(self, made: Table) -> None:
        """Write every row, on as many sheets as they need."""
        sheet, used = self._sheet(made.header, 1), 0
        for row in made.rows:
            if used == MOST_ROWS:
                sheet, used = self._sheet(made.header, len(self.book.worksheets()) + 1), 0
            used += 1
            for column, cell in enumerate(row):
                self._put(sheet, used, column, cell)

    def tell(self, rows: Sequence[tuple[str, str]]) -> None:
        """Write the sheet on which the file speaks of itself."""
        sheet = self.book.add_worksheet(self.voice.tell(mark("About this file")))
        sheet.set_column(0, 0, 2 * NARROW)
        sheet.set_column(1, 1, WIDE)
        for number, (label, value) in enumerate(rows):
            sheet.write_string(number, 0, label, self.bold)
            sheet.write_string(number, 1, value, self.plain)

    def _sheet(self, header: Sequence[str], number: int) -> Any:
        name = self.voice.tell(mark("Rows"))
        sheet = self.book.add_worksheet(name if number == 1 else f"{name} {number}")
        sheet.freeze_panes(1, 0)
        sheet.repeat_rows(0)
        sheet.set_landscape()
        sheet.set_paper(A4)
        sheet.fit_to_pages(1, 0)
        sheet.set_footer("&L&F&R&P / &N")
        sheet.ignore_errors({"number_stored_as_text": "A1:XFD1048576"})
        for column, head in enumerate(header):
            sheet.set_column(column, column, _width(head))
            sheet.write_string(0, column, self.voice.tell(head), self.bold)
        return sheet

    def _put(self, sheet: Any, row: int, column: int, cell: Cell) -> None:
        """Write one cell; what is longer than a cell can be says that it was cut."""
        if isinstance(cell, int):
            sheet.write_number(row, column, cell, self.count)
        elif words := text(cell, self.voice):
            cut = words if len(words) <= LONGEST else words[: LONGEST - len(CUT)] + CUT
            sheet.write_string(row, column, cut, self.plain)


def _width(head: str) -> int:
    return WIDE if head in WORDY else NARROW * 2 if head in NAMES else max(NARROW, len(head) + 2)


def told(about: About, tally: Tally, voice: Voice) -> Sequence[tuple[str, str]]:
    """Return what a file says about itself, as labels and values; the rows have to have gone by."""
    rows = [
        (mark("What"), voice.tell(about.what)),
        (mark("Plant"), about.site),
        (mark("Made at"), f"{voice.moment(about.made_at, about.zone)} ({about.zone})"),
        *((ASKED[name], voice.shown(value)) for name, value in about.asked.items()),
        *(() if about.asked else ((mark("Asked for"), voice.tell(say("everything"))),)),
        (mark("Rows"), str(tally.rows)),
        (mark("Check code"), tally.code),
        *(() if about.edition is None else ((mark("Bank edition"), str(about.edition)),)),
        *((mark("Note"), voice.tell(note)) for note in NOTES),
    ]
    return [(voice.tell(label), value) for label, value in rows]
