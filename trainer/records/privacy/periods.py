"""Until when one person's identity has to stay: the longest of all periods that the rules give for their records."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date

from trainer.records import ledger
from trainer.records.chain import Entry
from trainer.records.effects import facts
from trainer.records.people import PersonRow
from trainer.records.privacy.holds import Hold, hold_in
from trainer.records.privacy.rules import ENTRIES, IDENTITY, Rule, anchor_of, rules
from trainer.records.work import Reading


@dataclass(frozen=True, slots=True, kw_only=True)
class Period:
    """How long an identity stays.

    ``until`` is the last day on which it is kept, None while the person is here or a kind of record has no rule
    (``unset`` names those); ``kind`` and ``entry`` are what decides the day, ``entry`` None for the identity itself.
    """

    person: str
    until: date | None
    kind: str
    entry: int | None
    unset: tuple[str, ...]
    hold: Hold | None

    def over(self, on: date) -> bool:
        """Say whether the identity may go on a day: its time is over, and no hold is on."""
        return self.hold is None and self.until is not None and on > self.until


def period(r: Reading, person: PersonRow, known: Mapping[str, Rule] | None = None) -> Period:
    """Return how long a person's identity stays."""
    rows = list(ledger.entries(r, person=person.key))
    return period_of(person, rows, rules(r) if known is None else known)


def period_of(person: PersonRow, entries: Iterable[Entry], known: Mapping[str, Rule]) -> Period:
    """Return how long a person's identity stays, from their entries and the rules. Pure."""
    rows = list(entries)
    hold = hold_in(facts(rows))
    unset = {row.kind.value for row in rows if _rule(row, known) is None}
    unset |= set() if IDENTITY in known else {IDENTITY}
    if person.ended is None or unset:
        return Period(person=person.key, until=None, kind="", entry=None, unset=tuple(sorted(unset)), hold=hold)
    ends: list[tuple[date, str, int | None]] = [(known[IDENTITY].last_day(person.ended), IDENTITY, None)]
    for row in rows:
        rule = _rule(row, known)
        if rule is not None:
            ends.append((rule.last_day(anchor_of(row, rule, person.ended)), row.kind.value, row.number))
    until, kind, entry = max(ends, key=lambda end: end[0])
    return Period(person=person.key, until=until, kind=kind, entry=entry, unset=(), hold=hold)


def _rule(row: Entry, known: Mapping[str, Rule]) -> Rule | None:
    return known.get(row.kind.value) or known.get(ENTRIES)
