"""CSV as in RFC 4180 (2005): CRLF, quoted where needed; UTF-8 with a mark, so that spreadsheets read accents right.

A cell that a spreadsheet would take for a formula gets an apostrophe in front: it starts with ``= + - @``, a tab, a
carriage return, a line feed or NUL, or one of the wide forms of those signs (OWASP, CSV injection). Numbers of people,
badges and entries are text, zeros and all; days are ISO. Heads and sentences are English, whoever reads: CSV is for
programs. It has no place for what a file says about itself, so that stands in the file's name.
"""

import csv
import io
from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date

from trainer.exports.tables import Cell, Table, authorised_table, ledger_table, text
from trainer.records.history import HistoryRow
from trainer.records.people import PersonRow
from trainer.records.standing import Standing

MARK = "\ufeff"
RISKY = frozenset("=+-@\t\r\n\0\uff1d\uff0b\uff0d\uff20")
CHUNK = 64 * 1024  # characters written at a time


def safe(cell: Cell) -> str:
    """Return a cell's text, made harmless for spreadsheets."""
    plain = text(cell)
    return f"'{plain}" if plain and plain[0] in RISKY else plain


def table(header: Sequence[str], rows: Iterable[Sequence[Cell]]) -> Iterator[bytes]:
    """Give a table as CSV, in pieces; never more than one piece is held."""
    buffer = io.StringIO(newline="")
    buffer.write(MARK)
    writer = csv.writer(buffer, lineterminator="\r\n")
    writer.writerow(header)
    for row in rows:
        writer.writerow(map(safe, row))
        if buffer.tell() >= CHUNK:
            yield buffer.getvalue().encode()
            buffer.seek(0)
            buffer.truncate()
    yield buffer.getvalue().encode()


def csv_pieces(made: Table) -> Iterator[bytes]:
    """Give a table as CSV, in pieces."""
    return table(made.header, made.rows)


def ledger_csv(rows: Iterable[HistoryRow]) -> Iterator[bytes]:
    """Give entries of the ledger as CSV, one a line, in the order in which they come."""
    return csv_pieces(ledger_table(rows))


def authorised_csv(
    standings: Iterable[Standing], people: Mapping[str, PersonRow], *, on: date, known_on: date | None = None
) -> Iterator[bytes]:
    """Give standings as CSV; ``people`` maps keys to people, ``on`` and ``known_on`` say for which days it was asked."""
    return csv_pieces(authorised_table(standings, people, on=on, known_on=known_on))
