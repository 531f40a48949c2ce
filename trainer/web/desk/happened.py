"""What happened at a machine in the last year, and how many have had the re-brief by now."""

import re
from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import date, timedelta

from trainer.records import Reading, ledger
from trainer.records.concerned import ABSENCE
from trainer.records.ledger import Entry, EntryKind
from trainer.web.desk.eventpages import Happened
from trainer.web.desk.events import REASONS
from trainer.web.desk.telling import WHATS
from trainer.web.filters import day
from trainer.web.words import _, ngettext

BACK = timedelta(days=365)
_REASON = re.compile(r"(?P<code>.+) at (?P<machine>\S+) on (?P<day>\d{4}-\d\d-\d\d)(?:: (?P<note>.*))?", re.DOTALL)
_MOVED = "Moved. "


@dataclass
class _Gathered:
    """One event as it is put together from the entries that it made."""

    note: str = ""
    told: set[str] = field(default_factory=set)
    given: set[tuple[str, str, int]] = field(default_factory=set)  # person, programme, entry of the assignment


def happened_at(reading: Reading, machine: str) -> tuple[Happened, ...]:
    """Return the events at a machine, newest first."""
    since = reading.today() - BACK
    found: dict[tuple[date, str], _Gathered] = defaultdict(_Gathered)
    for entry in ledger.entries(reading, kind=EntryKind.EVENT, since=since):
        what = _what(entry)
        if entry.body.get("machine") == machine and what in dict(WHATS):
            one = found[entry.happened_on, what]
            one.note = str(entry.body["note"]).removeprefix(_MOVED)
            one.told.add(entry.person)
    for entry in ledger.entries(reading, kind=EntryKind.ASSIGNED, since=since):
        _add(found, entry, machine)
    passed = _passed(ledger.entries(reading, kind=EntryKind.SITTING_MARKED, since=since))
    return tuple(_row(key, one, passed) for key, one in sorted(found.items(), reverse=True))


def _what(entry: Entry) -> str:
    moved = str(entry.body["note"]).startswith(_MOVED) and entry.body["event"] == "machine-changed"
    return "machine-moved" if moved else str(entry.body["event"])


def _add(found: dict[tuple[date, str], _Gathered], entry: Entry, machine: str) -> None:
    match = _REASON.fullmatch(str(entry.body["reason"]))
    codes = {words: what for what, words in REASONS.items()}
    if match is None or match["machine"] != machine or codes.get(match["code"], ABSENCE) == ABSENCE:
        return
    one = found[date.fromisoformat(match["day"]), codes[match["code"]]]
    one.note = one.note or match["note"] or ""
    one.given.add((entry.person, str(entry.body["programme"]), entry.number))


def _passed(entries: Iterable[Entry]) -> Mapping[tuple[str, str], int]:
    """Return the newest entry with which each person passed each programme."""
    return {(one.person, str(one.body["programme"])): one.number for one in entries if one.body["passed"]}


def _row(key: tuple[date, str], one: _Gathered, passed: Mapping[tuple[str, str], int]) -> Happened:
    on, what = key
    done = {who for who, programme, number in one.given if passed.get((who, programme), 0) > number}
    people = one.told | {who for who, _programme, _number in one.given}
    given = {who for who, _programme, _number in one.given}
    return Happened(
        day=day(on),
        what=str(dict(WHATS)[what]),
        note=one.note,
        people=ngettext("%(num)s person", "%(num)s people", len(people)),
        done=_("%(done)s of %(count)s briefed", done=len(done), count=len(given)) if given else "",
    )
