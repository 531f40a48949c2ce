"""Entries of the ledger as people read them: one line in a history, or a sheet of its own."""

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any
from zoneinfo import ZoneInfo

from trainer.exports import words
from trainer.records.ledger import Entry, EntryKind
from trainer.records.lines import line
from trainer.records.people import PersonRow
from trainer.web.filters import clock_time, day
from trainer.web.language import translate, voice
from trainer.web.rooms import rooms
from trainer.web.sheet import Frame, Link
from trainer.web.words import _, ngettext
from trainer.wording import Sentence

LONGEST = 4000  # characters of one value; a paper with its answers is longer and is shown by its own sheet


@dataclass(frozen=True, slots=True, kw_only=True)
class HistoryRow:
    """One entry in a history. ``late`` is filled where it was written on a later day than it happened."""

    number: int
    happened: date
    recorded: str
    what: Sentence
    late: str
    by: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Written:
    """One column of an entry, as it stands in the ledger."""

    label: str
    value: str
    typed: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class EntryPage:
    """One entry, as it was written."""

    frame: Frame
    number: int
    kind: str
    what: Sentence
    rows: tuple[Written, ...]
    paper: str
    previous: str
    digest: str
    ways: tuple[Link, ...] = ()


def history(entries: Iterable[Entry], people: Mapping[str, PersonRow]) -> tuple[HistoryRow, ...]:
    """Show entries in the order given."""
    return tuple(history_row(entry, people) for entry in entries)


def history_row(entry: Entry, people: Mapping[str, PersonRow]) -> HistoryRow:
    """Show one entry as a line."""
    days = days_late(entry)
    return HistoryRow(
        number=entry.number,
        happened=entry.happened_on,
        recorded=_("same day") if days == 0 else day(recorded_on(entry)),
        what=line(entry, named=names(people)),
        late=late_words(days),
        by=author(entry, people),
    )


def names(people: Mapping[str, PersonRow]) -> Mapping[str, str]:
    """Return what stands in a line for the ids of people, programmes, checklists, roles, kinds and events."""
    return words.named(rooms().bank, voice(), people.values())


def recorded_on(entry: Entry) -> date:
    """Return the civil day of writing, at the site as it was then."""
    return entry.recorded_at.astimezone(ZoneInfo(entry.zone)).date()


def days_late(entry: Entry) -> int:
    """Return how many days after it happened it was written."""
    return (recorded_on(entry) - entry.happened_on).days


def late_words(days: int) -> str:
    """Say that an entry came late; nothing where it came on its day."""
    return ngettext("Entered %(num)s day late.", "Entered %(num)s days late.", days) if days > 0 else ""


def author(entry: Entry, people: Mapping[str, PersonRow]) -> str:
    """Name who recorded an entry: a person, the kiosk at which a paper was taken, or the service that did."""
    if entry.kind is EntryKind.SITTING_MARKED:
        return _("kiosk %(name)s", name=str(entry.body.get("kiosk", "")).removeprefix("kiosk ")).rstrip()
    return people[entry.by].name if entry.by in people else entry.by


def entry_page(entry: Entry, frame: Frame, people: Mapping[str, PersonRow], *, paper: str = "") -> EntryPage:
    """Show one entry with every column; ``paper`` leads to what exactly was asked, where the door has that sheet."""
    return EntryPage(
        frame=frame,
        number=entry.number,
        kind=translate(words.ENTRIES[entry.kind]),
        what=line(entry, named=names(people)),
        rows=(*_columns(entry, people), *_body(entry.body, people)),
        paper=paper if entry.kind is EntryKind.SITTING_MARKED else "",
        previous=entry.previous if entry.seq > 1 else "",
        digest=entry.digest,
    )


def _columns(entry: Entry, people: Mapping[str, PersonRow]) -> tuple[Written, ...]:
    local = entry.recorded_at.astimezone(ZoneInfo(entry.zone))
    written = f"{day(local)}, {clock_time(local)} ({entry.zone})"
    rows = (
        (_("Person"), _who(entry.person, people)),
        (_("Happened on"), day(entry.happened_on)),
        (_("Recorded at"), f"{written}. {late_words(days_late(entry))}".rstrip(". ")),
        (_("Recorded by"), _who(entry.by, people)),
        (_("Number in the chain of the person"), str(entry.seq)),
    )
    return tuple(Written(label=label, value=value, typed=False) for label, value in rows)


def _body(body: Mapping[str, Any], people: Mapping[str, PersonRow]) -> tuple[Written, ...]:
    return tuple(
        Written(label=label, value=_text(value, people), typed=not isinstance(value, str) or value in people)
        for label, value in _flat(body)
    )


def _flat(body: Mapping[str, Any], before: str = "") -> Iterable[tuple[str, Any]]:
    for key, value in body.items():
        if isinstance(value, Mapping) and value:
            yield from _flat(value, f"{before}{key} · ")
        else:
            yield f"{before}{key}", value


def _text(value: Any, people: Mapping[str, PersonRow]) -> str:
    if isinstance(value, str):
        return _who(value, people) if value in people else value
    shown = json.dumps(value, ensure_ascii=False, sort_keys=True)
    return shown if len(shown) <= LONGEST else shown[:LONGEST] + "…"


def _who(key: str, people: Mapping[str, PersonRow]) -> str:
    return f"{people[key].name}, {people[key].number}" if key in people else key
