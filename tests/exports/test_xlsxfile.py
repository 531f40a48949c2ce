"""A spreadsheet opens as it was meant, says what it is, and has the same bytes each time."""

import io
import tracemalloc
import zipfile
from dataclasses import replace

import pytest
from exports.made import ABOUT, row
from openpyxl import load_workbook
from openpyxl.utils.escape import unescape

from trainer.exports import xlsxfile
from trainer.exports.about import Tally, tallied
from trainer.exports.csvfile import csv_pieces
from trainer.exports.tables import LEDGER, Table, ledger_table
from trainer.exports.voice import Voice
from trainer.exports.xlsxfile import LONGEST, xlsx_pieces
from trainer.wording import say


def written(header, rows, voice=None, about=ABOUT):
    tally = Tally(about.asked)
    made = Table(header=tuple(header), rows=rows).tallied(tally)
    return b"".join(xlsx_pieces(made, about, tally, *([voice] if voice else [])))


def opened(raw):
    return load_workbook(io.BytesIO(raw))


def cells(sheet):
    return [[cell.value for cell in line] for line in sheet.iter_rows()]


NASTY = [
    "00241",
    "=HYPERLINK(1)",
    "-Singh",
    "+44",
    "@home",
    "3E5",
    "MAR1",
    "2026-03-09",
    "Nguyễn Thị Ánh",
    "Zoe\u0308",
    "O’Brien",
    "two\nlines",
    "tab\there",
    "_x0041_",
    "  kept  ",
    "https://training.example",
    "{=1}",
    "'x",
    "TRUE",
    "1e400",
]


@pytest.mark.parametrize("name", NASTY)
def test_every_text_comes_back_as_it_was_and_stays_text(name):
    sheet = opened(written(["a"], [[name]])).worksheets[0]

    assert unescape(sheet["A2"].value) == name  # the format writes _x0041_ as _x005F_x0041_ (ECMA-376, ST_Xstring)
    assert (sheet["A2"].data_type, sheet["A2"].number_format) == ("s", "@")


def test_only_counts_are_numbers():
    sheet = opened(written(["a", "b", "c"], [[9, "9", None]])).worksheets[0]

    assert [(cell.value, cell.data_type) for cell in sheet[2]] == [(9, "n"), ("9", "s"), (None, "n")]


def test_it_holds_what_csv_holds_but_for_the_apostrophes():
    rows = [row(), row(number=13)]
    sheet = opened(written(LEDGER, ledger_table(rows).rows)).worksheets[0]
    lines = b"".join(csv_pieces(ledger_table(rows))).decode("utf-8-sig").splitlines()

    assert [["" if cell is None else str(cell) for cell in line] for line in cells(sheet)] == [
        line.split(",") for line in lines
    ]


def test_a_second_sheet_says_what_the_file_is():
    about = replace(ABOUT, asked={"person": "00241", "up to": "2026-03-09"})
    tally = Tally(about.asked)
    made = ledger_table(tallied([row(), row(number=13)], tally))
    book = opened(b"".join(xlsx_pieces(made, about, tally)))
    told = dict(cells(book.worksheets[1])[:8])

    assert book.sheetnames == ["Rows", "About this file"]
    assert told == {
        "What": "Entries of the ledger",
        "Plant": "Ostrand Mill",
        "Made at": "9 Mar 2026, 08:12 (America/Chicago)",
        "person": "00241",
        "up to": "9 Mar 2026",
        "Rows": "2",
        "Check code": tally.code,
        "Bank edition": "3",
    }


def test_a_file_of_everything_says_so():
    assert ["Asked for", "everything"] in cells(opened(written(["a"], [])).worksheets[1])


def test_it_speaks_the_language_of_its_reader():
    spanish = Voice(
        "es", lambda text: {"entry": "asiento", "Rows": "Filas", "Left on {day}.": "Se fue el {day}."}.get(text, text)
    )
    book = opened(written(["entry"], [[say("Left on {day}.", day="2026-03-09")]], spanish))

    assert cells(book["Filas"]) == [["asiento"], ["Se fue el 9 mar 2026."]]


def test_what_is_longer_than_a_cell_says_that_it_was_cut():
    (_, (shown,)) = cells(opened(written(["a"], [["x" * 40_000]])).worksheets[0])

    assert len(shown) == LONGEST
    assert shown.endswith("x […]")


def test_rows_beyond_what_a_sheet_holds_go_on_another(monkeypatch):
    monkeypatch.setattr(xlsxfile, "MOST_ROWS", 2)
    book = opened(written(["a"], [[str(number)] for number in range(5)]))

    assert book.sheetnames == ["Rows", "Rows 2", "Rows 3", "About this file"]
    assert [cells(book[name])[1:] for name in book.sheetnames[:3]] == [[["0"], ["1"]], [["2"], ["3"]], [["4"]]]


def test_the_same_rows_give_the_same_bytes():
    assert written(LEDGER, ledger_table([row()]).rows) == written(LEDGER, ledger_table([row()]).rows)


def test_no_file_in_it_carries_the_time_of_making():
    with zipfile.ZipFile(io.BytesIO(written(["a"], []))) as packed:
        assert {info.date_time for info in packed.infolist()} == {(1980, 1, 31, 0, 0, 0)}


def test_memory_does_not_grow_with_the_rows():
    def peak(count):
        rows = ([f"{number:05}", "x" * 200] for number in range(count))
        tally = Tally({})
        tracemalloc.start()
        size = sum(len(piece) for piece in xlsx_pieces(Table(header=("a", "b"), rows=rows), ABOUT, tally))
        _, most = tracemalloc.get_traced_memory()
        tracemalloc.stop()
        return size, most

    few, many = peak(1_000), peak(10_000)
    assert many[0] > 5 * few[0]
    assert many[1] < 1.5 * few[1]
