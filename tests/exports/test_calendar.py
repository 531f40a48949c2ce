"""A calendar of due dates, read back by the library and held against RFC 5545."""

import re
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import pytest
from exports.made import ABOUT, NOW, person
from icalendar import Calendar

from trainer.exports.calendar import Feed, calendar_pieces
from trainer.exports.voice import PLAIN, Voice
from trainer.records.dues import DueRow
from trainer.wording import say

BASE = "https://training.example"


def due(**changed):
    made = DueRow(
        person="p",
        programme="press-brake-operator-refresher",
        machines=("PB-1", "PB-2"),
        due_on=date(2026, 3, 31),
        state="due",
        reason=say("Passed on {day}; good until {until}.", day="2025-03-31", until="2026-03-31"),
        entry=12,
    )
    return replace(made, **changed)


def feed(bank, **changed):
    made = Feed(about=ABOUT, bank=bank, people={"p": person()}, newest={"p": (7, NOW)}, base=BASE)
    return replace(made, **changed)


def written(rows, made, voice=PLAIN):
    return b"".join(calendar_pieces(rows, made, voice))


def events(raw):
    return list(Calendar.from_ical(raw).walk("VEVENT"))


def test_a_due_date_is_a_whole_day_that_ends_the_day_after(bank):
    raw = written([due(due_on=date(2026, 2, 28))], feed(bank))

    assert b"DTSTART;VALUE=DATE:20260228\r\nDTEND;VALUE=DATE:20260301\r\n" in raw
    assert b"RRULE" not in raw


def test_the_file_is_as_rfc_5545_asks(bank):
    long = person(name="Nguyễn Thị Ánh, “=1;2\\3” " * 9)
    raw = written([due(), due(person="q", state="assigned")], feed(bank, people={"p": long, "q": person()}))
    lines = raw.split(b"\r\n")

    assert raw.endswith(b"END:VCALENDAR\r\n")
    assert b"\n" not in raw.replace(b"\r\n", b"")
    assert max(map(len, lines)) <= 75
    for line in lines:
        line.decode()  # no character is cut by folding
    assert raw.count(b"BEGIN:VEVENT") == raw.count(b"END:VEVENT") == 2
    for name in (b"VERSION:2.0", b"PRODID:", b"UID:", b"DTSTAMP:"):
        assert name in raw
    summary = str(events(raw)[0]["summary"])
    assert long.name in summary


def test_a_day_that_moves_keeps_its_uid_and_rises(bank):
    before = events(written([due()], feed(bank)))[0]
    after = events(written([due(due_on=date(2027, 3, 20), entry=19)], feed(bank, newest={"p": (9, NOW)})))[0]
    other = events(written([due(programme="press-brake-operator-induction")], feed(bank)))[0]

    assert before["uid"] == after["uid"] != other["uid"]
    assert (before["sequence"], after["sequence"]) == (7, 9)
    assert re.fullmatch(r"[0-9a-f-]{36}", before["uid"])


def test_an_event_is_stamped_with_what_it_rests_on(bank):
    early = events(written([due()], feed(bank)))[0]
    lapsed = events(written([due(state="overdue", due_on=date(2026, 3, 20))], feed(bank)))[0]

    assert early["dtstamp"].dt == NOW
    assert lapsed["dtstamp"].dt == datetime(2026, 3, 21, 5, tzinfo=UTC)  # the midnight after, at the site


@pytest.mark.parametrize(
    ("state", "title"),
    [
        ("due", "Refresher due: Press brake operator, yearly refresher (PB-1, PB-2): Zoë O’Brien, 00241"),
        ("overdue", "Lapsed: Press brake operator, yearly refresher (PB-1, PB-2): Zoë O’Brien, 00241"),
        ("assigned", "To be passed: Press brake operator, yearly refresher (PB-1, PB-2): Zoë O’Brien, 00241"),
    ],
)
def test_an_event_says_what_is_due_for_whom(bank, state, title):
    assert str(events(written([due(state=state)], feed(bank)))[0]["summary"]) == title


def test_a_persons_own_calendar_names_nobody(bank):
    raw = written([due()], feed(bank, alone=True))

    assert b"Zo" not in raw
    assert b"00241" not in raw


def test_the_reason_its_entry_and_the_caution_stand_in_the_description(bank):
    told = str(events(written([due()], feed(bank)))[0]["description"])

    assert told == (
        "Passed on 31 Mar 2025; good until 31 Mar 2026. Entry L-12. "
        "The record decides who may run a machine, not this calendar."
    )


def test_it_speaks_the_language_of_its_reader(bank):
    spanish = Voice("es", lambda text: {"Refresher due: {programme}": "Repaso: {programme}"}.get(text, text))
    found = events(written([due()], feed(bank), spanish))[0]

    assert str(found["summary"]).startswith("Repaso: Operador de plegadora")


def test_the_same_rows_give_the_same_bytes_whenever_it_is_asked(bank):
    later = replace(ABOUT, made_at=NOW + timedelta(days=3))

    assert written([due()], feed(bank)) == written([due()], feed(bank, about=later))


def test_nothing_due_is_an_empty_calendar(bank):
    assert events(written([], feed(bank))) == []
