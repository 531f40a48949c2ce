"""The ledger as rows for people: each entry with the numbers and names of those in it, as they were then."""

from bisect import bisect_right
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from sqlalchemy import select

from trainer.records import ledger
from trainer.records.chain import Entry, EntryKind
from trainer.records.models import PersonName
from trainer.records.work import Reading


@dataclass(frozen=True, slots=True, kw_only=True)
class Identity:
    """Number and name that a person had from a day on."""

    since: date
    number: str
    name: str


@dataclass(frozen=True, slots=True, kw_only=True)
class HistoryRow:
    """An entry with who it is about and who recorded it, as they were called on the day it happened.

    ``by`` is None where no person recorded it; ``late_days`` is how many days after the event it was recorded.
    """

    entry: Entry
    person: Identity
    by: Identity | None
    late_days: int


class NameBook:
    """Who was called what on which day; read once, asked often."""

    def __init__(self, r: Reading) -> None:
        query = select(PersonName.person, PersonName.since, PersonName.number, PersonName.name).order_by(PersonName.id)
        self._known: dict[str, list[Identity]] = {}
        for key, since, number, name in r.session.execute(query):
            self._known.setdefault(key, []).append(Identity(since=since, number=number, name=name))
        for names in self._known.values():
            names.sort(key=lambda identity: identity.since)

    def on(self, key: str, day: date) -> Identity | None:
        """Return what a person was called on a day, or at first for a day before that; None for an unknown key."""
        names = self._known.get(key)
        if not names:
            return None
        place = bisect_right(names, day, key=lambda identity: identity.since)
        return names[max(place - 1, 0)]

    def everybody(self) -> Iterator[tuple[str, Identity]]:
        """Give every name that anybody had, with its key."""
        for key, names in self._known.items():
            for identity in names:
                yield key, identity

    def names(self, key: str) -> tuple[Identity, ...]:
        """Return everything that a person was called, oldest first; nothing for an unknown key."""
        return tuple(self._known.get(key, ()))


def history(
    r: Reading,
    *,
    person: str | None = None,
    kind: EntryKind | None = None,
    since: date | None = None,
    until: date | None = None,
    known_on: date | None = None,
    upto: int | None = None,
) -> Iterator[HistoryRow]:
    """Give entries with names, in the order of their numbers, holding few in memory; filters as in :mod:`ledger`."""
    book = NameBook(r)
    found = ledger.entries(r, person=person, kind=kind, since=since, until=until, known_on=known_on, upto=upto)
    for entry in found:
        nobody = Identity(since=entry.happened_on, number="", name="")
        yield HistoryRow(
            entry=entry,
            person=book.on(entry.person, entry.happened_on) or nobody,
            by=book.on(entry.by, entry.happened_on),
            late_days=entry.late_days,
        )
