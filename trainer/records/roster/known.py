"""Who is known: people with every number they ever had, leavers too, and between which days they are on record."""

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from functools import cached_property
from typing import Any

from sqlalchemy import func, select

from trainer.records import ledger, people
from trainer.records.chain import EntryKind
from trainer.records.models import Entry, Person, PersonName
from trainer.records.names import folded
from trainer.records.people import PersonRow
from trainer.records.work import Reading


@dataclass(frozen=True, kw_only=True)
class Known:
    """People by key. ``numbers`` leads from every number, past or present, to the keys of who had it.

    ``spans`` are the days of a person's first and last entry, ``returns`` those on which somebody came back.
    """

    today: date
    people: Mapping[str, PersonRow]
    numbers: Mapping[str, frozenset[str]]
    spans: Mapping[str, tuple[date, date]]
    returns: Mapping[str, frozenset[date]]

    @cached_property
    def by_number(self) -> Mapping[str, PersonRow]:
        """Return who is here, by their number now."""
        return {person.number: person for person in self.people.values() if person.status == people.ACTIVE}

    @cached_property
    def by_name(self) -> Mapping[str, tuple[PersonRow, ...]]:
        """Return people by their name, case and accents aside, in the order of number and key."""
        found: dict[str, list[PersonRow]] = defaultdict(list)
        for person in self.people.values():
            found[folded(person.name)].append(person)
        return {name: tuple(sorted(those, key=_order)) for name, those in found.items()}

    def taken(self, person: PersonRow, fields: Mapping[str, Any]) -> tuple[str, ...]:
        """Return which of a leaver's badge and login are somebody else's by now and not given anew in ``fields``."""
        here = self.by_number.values()
        codes = {code for one in here for code in (one.number, one.badge)}
        badge = person.badge is not None and person.badge in codes and "badge" not in fields
        login = person.login is not None and person.login in {one.login for one in here}
        return (*(("badge",) if badge else ()), *(("login",) if login else ()))

    def had(self, number: str) -> tuple[PersonRow, ...]:
        """Return everybody who ever had a number, in the order of number and key."""
        return tuple(sorted((self.people[key] for key in self.numbers.get(number, ())), key=_order))


def read_known(r: Reading) -> Known:
    """Read who is known, in a fixed number of questions to the record."""
    erased = set(r.session.scalars(select(Person.key).where(Person.erased)))
    found = {person.key: person for person in people.all_people(r) if person.key not in erased}
    numbers: dict[str, set[str]] = defaultdict(set)
    for key, number in r.session.execute(select(PersonName.person, PersonName.number)):
        if key in found:
            numbers[number].add(key)
    days = select(Entry.person, func.min(Entry.happened_on), func.max(Entry.happened_on)).group_by(Entry.person)
    returns: dict[str, set[date]] = defaultdict(set)
    for entry in ledger.entries(r, kind=EntryKind.EVENT):
        if entry.body["event"] == "returned":
            returns[entry.person].add(entry.happened_on)
    return Known(
        today=r.today(),
        people=found,
        numbers={number: frozenset(keys) for number, keys in numbers.items()},
        spans={person: (first, last) for person, first, last in r.session.execute(days)},
        returns={person: frozenset(those) for person, those in returns.items()},
    )


def _order(person: PersonRow) -> tuple[str, str]:
    return person.number, person.key
