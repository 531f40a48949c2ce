"""What the ledger says once corrections and moves are taken into account. Pure.

A correction never touches the entry that it corrects: it names it. Reading on from the newest, a correction that was
itself withdrawn has no effect; what is left withdraws an entry, replaces its content or confirms its day.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime
from typing import Any

from trainer.records.chain import Entry, EntryKind

WITHDRAWN, REPLACED, CONFIRMED = "withdrawn", "replaced", "time-confirmed"
AWAY, HERE = "away", "here"


@dataclass(frozen=True, slots=True, kw_only=True)
class Fact:
    """Something that counts: an entry as it reads now. ``numbers`` are the entries that it rests on, oldest first.

    ``trusted`` is false while its day is in doubt: the clock was wrong, or it was recorded before it happened.
    """

    number: int
    person: str
    kind: EntryKind
    on: date
    recorded_at: datetime
    by: str
    body: Mapping[str, Any]
    numbers: tuple[int, ...]
    trusted: bool


def facts(entries: Iterable[Entry]) -> list[Fact]:
    """Return what counts of a person's entries (in the order of their numbers), in the order in which it happened.

    Corrections and moves are worked in and do not appear themselves.
    """
    rows = list(entries)
    live = in_force(rows)
    found = {row.number: _fact(row) for row in rows if row.kind not in {EntryKind.CORRECTED, EntryKind.MOVED}}
    for row in rows:
        if row.number in live:
            _apply(found, row)
    return sorted(found.values(), key=lambda fact: (fact.on, fact.number))


def in_force(entries: Iterable[Entry]) -> frozenset[int]:
    """Return the numbers of the corrections and moves that were not themselves withdrawn."""
    live: set[int] = set()
    dead: set[int] = set()
    acts = [row for row in entries if row.kind in {EntryKind.CORRECTED, EntryKind.MOVED}]
    for row in sorted(acts, key=lambda act: -act.number):
        if row.number in dead:
            continue
        live.add(row.number)
        if row.kind is EntryKind.CORRECTED and row.body["effect"] == WITHDRAWN:
            dead.add(row.body["corrects"])
    return frozenset(live)


def withdrawn(entries: Iterable[Entry]) -> frozenset[int]:
    """Return the numbers of the entries that corrections have withdrawn."""
    rows = list(entries)
    live = in_force(rows)
    return frozenset(
        row.body["corrects"]
        for row in rows
        if row.number in live and row.kind is EntryKind.CORRECTED and row.body["effect"] == WITHDRAWN
    )


def _apply(found: dict[int, Fact], row: Entry) -> None:
    if row.kind is EntryKind.MOVED and row.body["direction"] == HERE:
        found[row.number] = _arrived(row)
        return
    target = row.body["entry"] if row.kind is EntryKind.MOVED else row.body["corrects"]
    old = found.pop(target, None)
    if old is None or row.kind is EntryKind.MOVED or row.body["effect"] == WITHDRAWN:
        return
    day = date.fromisoformat(row.body["happened_on"]) if row.body.get("happened_on") else old.on
    changed = replace(old, on=day, body=row.body.get("instead", old.body), numbers=(*old.numbers, row.number))
    confirmed = row.body["effect"] == CONFIRMED or "happened_on" in row.body
    trusted = (old.trusted or confirmed) and not row.unverified and not _early(day, row)
    found[target] = replace(changed, trusted=trusted)


def _fact(row: Entry) -> Fact:
    return Fact(
        number=row.number,
        person=row.person,
        kind=row.kind,
        on=row.happened_on,
        recorded_at=row.recorded_at,
        by=row.by,
        body=row.body,
        numbers=(row.number,),
        trusted=not row.unverified and not _early(row.happened_on, row),
    )


def _arrived(row: Entry) -> Fact:
    moved = row.body["was"]
    day = date.fromisoformat(moved["happened_on"])
    return Fact(
        number=row.number,
        person=row.person,
        kind=EntryKind(moved["kind"]),
        on=day,
        recorded_at=row.recorded_at,
        by=moved["by"],
        body=moved["body"],
        numbers=(row.body["entry"], row.number),
        trusted=not row.unverified and moved["body"].get("time") != "unverified" and not _early(day, row),
    )


def _early(day: date, row: Entry) -> bool:
    """Say whether an entry speaks of a day that had not come when it was recorded."""
    return day > row.recorded_on
