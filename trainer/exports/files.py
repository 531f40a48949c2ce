"""The forms in which an answer leaves the house, and what each is called on its way."""

from collections.abc import Iterable, Iterator, Mapping
from enum import StrEnum

from trainer.exports.about import About, Tally, tallied
from trainer.exports.csvfile import csv_pieces
from trainer.exports.jsonfile import ledger_json, table_json
from trainer.exports.tables import Table, ledger_table
from trainer.exports.voice import PLAIN, Voice
from trainer.exports.xlsxfile import xlsx_pieces
from trainer.records.history import HistoryRow

EXAMPLE = "https://training.example"  # stands for the address of a site that has not set its own


class Form(StrEnum):
    """A form of file, by the ending of its name."""

    CSV = "csv"
    XLSX = "xlsx"
    JSON = "jsonl"
    XAPI = "xapi.jsonl"
    CALENDAR = "ics"
    PDF = "pdf"


TYPES: Mapping[Form, str] = {
    Form.CSV: "text/csv; charset=utf-8",
    Form.XLSX: "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
    Form.JSON: "application/x-ndjson",
    Form.XAPI: "application/x-ndjson",
    Form.CALENDAR: "text/calendar; charset=utf-8",
    Form.PDF: "application/pdf",
}
Pieces = Iterator[bytes]


def table_file(form: Form, made: Table, about: About, tally: Tally, voice: Voice = PLAIN) -> Pieces:
    """Give a table in one of the forms that tables have, in pieces; its rows are counted as they go by."""
    counted = made.tallied(tally)
    if form is Form.XLSX:
        return xlsx_pieces(counted, about, tally, voice)
    return table_json(counted, about, tally) if form is Form.JSON else csv_pieces(counted)


def ledger_file(form: Form, rows: Iterable[HistoryRow], about: About, tally: Tally, voice: Voice = PLAIN) -> Pieces:
    """Give entries of the ledger in one of the forms that tables have, in pieces; counted as they go by."""
    counted = tallied(rows, tally)
    if form is Form.XLSX:
        return xlsx_pieces(ledger_table(counted), about, tally, voice)
    return ledger_json(counted, about, tally) if form is Form.JSON else csv_pieces(ledger_table(counted))
