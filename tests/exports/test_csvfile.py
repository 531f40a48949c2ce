"""CSV opens as it was meant: zeros, accents and days whole, formulas harmless, the same bytes each time."""

import csv
import io
import tracemalloc
from dataclasses import replace
from datetime import UTC, date, datetime

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from trainer.exports.csvfile import authorised_csv, ledger_csv, safe, table
from trainer.exports.tables import AUTHORISED, LEDGER
from trainer.records.chain import START, Entry, EntryKind
from trainer.records.history import HistoryRow, Identity
from trainer.records.judging import Reason, Standing, StandingWord
from trainer.records.people import PersonRow
from trainer.wording import say

DAY = date(2026, 3, 9)
DANA = Identity(since=DAY, number="00241", name="Zoë O’Brien")


def entry(**changed):
    body = {
        "programme": "press-brake-operator-induction",
        "role": "operator",
        "passed": True,
        "score": {"right": 9, "out_of": 10},
        "needed": 9,
        "critical_missed": [],
        "edition": 3,
        "languages": ["en", "es"],
        "due_on": "2027-03-09",
    }
    made = Entry(
        number=12,
        person="p",
        seq=2,
        kind=EntryKind.SITTING_MARKED,
        happened_on=DAY,
        recorded_at=datetime(2026, 3, 18, 13, 12, tzinfo=UTC),
        zone="America/Chicago",
        by="p",
        body=body,
        previous=START,
        digest="ab" * 32,
    )
    return replace(made, **changed)


def row(**changed):
    return HistoryRow(entry=entry(**changed), person=DANA, by=DANA, late_days=9)


def read(pieces):
    text = b"".join(pieces).decode("utf-8-sig")
    return list(csv.DictReader(io.StringIO(text, newline="")))


def test_an_entry_is_a_line_with_all_that_an_auditor_asks():
    (line,) = read(ledger_csv([row()]))

    assert line == {
        "entry": "L-12",
        "person number": "00241",
        "person name then": "Zoë O’Brien",
        "kind": "sitting-marked",
        "happened on": "2026-03-09",
        "recorded at": "2026-03-18T13:12:00.000000Z",
        "entered late days": "9",
        "programme": "press-brake-operator-induction",
        "machine": "",
        "role": "operator",
        "result": "passed",
        "right": "9",
        "out of": "10",
        "needed": "9",
        "critical missed": "",
        "edition": "3",
        "language": "en es",
        "due on": "2027-03-09",
        "refers to": "",
        "note": "",
        "by number": "00241",
        "by name then": "Zoë O’Brien",
        "zone": "America/Chicago",
        "chain position": "2",
        "previous digest": START,
        "digest": "ab" * 32,
    }


@pytest.mark.parametrize(
    ("kind", "body", "column", "value"),
    [
        ("practical-signed", {"result": "failed", "machine": "PB-1", "entitlement": 3}, "refers to", "L-3"),
        ("practical-signed", {"result": "failed", "comment": "Reached in."}, "note", "Reached in."),
        ("corrected", {"corrects": 4, "effect": "withdrawn", "reason": "x"}, "refers to", "L-4"),
        ("corrected", {"corrects": 4, "effect": "withdrawn", "reason": "x"}, "result", "withdrawn"),
        ("moved", {"entry": 4, "direction": "here", "reason": "x"}, "refers to", "L-4"),
        ("reinstated", {"suspension": 4, "reason": "x"}, "refers to", "L-4"),
        (
            "entitled",
            {"roles": ["operator", "helper"], "basis": "x", "valid_to": "2027-01-01"},
            "role",
            "operator helper",
        ),
        ("entitled", {"roles": ["operator"], "basis": "x", "valid_to": "2027-01-01"}, "due on", "2027-01-01"),
        ("event", {"event": "left", "note": "x"}, "result", "left"),
        ("attended", {"topic": "=1+1"}, "note", "'=1+1"),
    ],
)
def test_each_kind_fills_its_columns(kind, body, column, value):
    (line,) = read(ledger_csv([row(kind=EntryKind(kind), body=body)]))

    assert line[column] == value


def test_it_is_rfc_4180_with_a_mark_for_spreadsheets():
    raw = b"".join(table(("a", "b"), [("1,2", 'say "x"'), ("two\nlines", "ü")]))

    assert raw == b'\xef\xbb\xbfa,b\r\n"1,2","say ""x"""\r\n"two\nlines",\xc3\xbc\r\n'


@pytest.mark.parametrize("start", ["=", "+", "-", "@", "\t", "\r", "\n", "\0", "＝", "＋", "－", "＠"])
def test_what_a_spreadsheet_would_run_is_made_harmless(start):
    assert safe(f"{start}HYPERLINK(1)") == f"'{start}HYPERLINK(1)"


@pytest.mark.parametrize(
    ("cell", "text"), [(None, ""), (0, "0"), (DAY, "2026-03-09"), ("00241", "00241"), ("a=b", "a=b"), ("'x", "'x")]
)
def test_everything_else_stays_as_it_is(cell, text):
    assert safe(cell) == text


@settings(deadline=None)
@given(st.lists(st.lists(st.text(st.characters(exclude_categories=["Cs"])), min_size=2, max_size=2)))
def test_what_is_read_back_is_what_was_written_but_for_the_apostrophe(rows):
    raw = b"".join(table(("a", "b"), rows)).decode("utf-8-sig")
    read_back = list(csv.reader(io.StringIO(raw, newline="")))[1:]

    assert read_back == [[safe(cell) for cell in cells] for cells in rows]


def test_the_same_rows_give_the_same_bytes():
    rows = [row(), row(number=13)]

    assert b"".join(ledger_csv(rows)) == b"".join(ledger_csv(rows))


def test_memory_does_not_grow_with_the_rows():
    def peak(count):
        tracemalloc.start()
        size = sum(len(piece) for piece in ledger_csv(row(number=n) for n in range(count)))
        _, most = tracemalloc.get_traced_memory()
        tracemalloc.stop()
        return size, most

    few, many = peak(500), peak(5_000)
    assert many[0] > 9 * few[0]
    assert many[1] < 2 * few[1]


def person():
    return PersonRow(
        key="p",
        number="00241",
        badge=None,
        name="-Singh",
        sort_name="-Singh",
        shift="Early",
        crew="",
        language="en",
        kind="employee",
        agency=None,
        status="active",
        started=None,
        ended=None,
        born=None,
        roles=frozenset({"learner"}),
        login=None,
    )


def test_standings_say_why_and_for_which_days_they_were_asked():
    standing = Standing(
        person="p",
        machine="PB-1",
        role="operator",
        word=StandingWord.AUTHORISED,
        may_run=True,
        reasons=(Reason(sentence=say("Passed on {day}.", day="2026-03-09"), entries=(12, 3)),),
        lacks=(),
        holds_until=date(2027, 3, 9),
        due_on=date(2027, 3, 9),
    )
    (line,) = read(authorised_csv([standing], {"p": person()}, on=DAY, known_on=DAY))

    assert tuple(line) == AUTHORISED
    assert list(line.values()) == [
        "PB-1",
        "operator",
        "00241",
        "'-Singh",
        "authorised",
        "yes",
        "2027-03-09",
        "2027-03-09",
        "Passed on 2026-03-09.",
        "",
        "L-3 L-12",
        "2026-03-09",
        "2026-03-09",
    ]


def test_an_empty_list_is_a_header():
    assert read(authorised_csv([], {}, on=DAY)) == []
    assert b"".join(ledger_csv([])).decode("utf-8-sig").strip().split(",") == list(LEDGER)
