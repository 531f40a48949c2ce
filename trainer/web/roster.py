"""What most sheets of desk and office read first: people, machines and where everybody stands on a day."""

import re
from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from typing import TypeGuard

from flask import url_for

from trainer.bank import Bank
from trainer.records import Reading, machines, people
from trainer.records.ledger import Entry
from trainer.records.machines import MachineRow
from trainer.records.names import folded
from trainer.records.people import PersonRow
from trainer.records.standing import Standing, standings
from trainer.web.sheet import Named

_KEY = re.compile(r"[0-9a-f]{32}")


@dataclass(frozen=True, slots=True, kw_only=True)
class Roster:
    """People by key, machines by id, and every standing, on one day as known on another."""

    on: date
    people: Mapping[str, PersonRow]
    machines: Mapping[str, MachineRow]
    standings: tuple[Standing, ...]

    def present(self) -> list[PersonRow]:
        """Return those who belong to the plant now, by name."""
        return [one for one in self.people.values() if one.status == "active"]

    def shifts(self) -> list[str]:
        """Return the names of the shifts that anybody works on."""
        return sorted({person.shift for person in self.present() if person.shift})

    def of_person(self) -> Mapping[str, list[Standing]]:
        """Return the standings by person."""
        found: dict[str, list[Standing]] = defaultdict(list)
        for one in self.standings:
            found[one.person].append(one)
        return found

    def name(self, key: str) -> str:
        """Return the name behind a key; who is not on the roster any more stays a key."""
        return self.people[key].name if key in self.people else key


def gather(reading: Reading, bank: Bank, *, on: date, known_on: date | None = None) -> Roster:
    """Read a roster: a fixed number of questions to the record, however many people there are.

    On a past day it holds those who belonged to the site then, whatever became of them.
    """
    then = on if on < reading.today() else None
    return Roster(
        on=on,
        people={person.key: person for person in people.everybody(reading, on=then)},
        machines={machine.id: machine for machine in machines.all_machines(reading)},
        standings=tuple(standings(reading, bank, on=on, known_on=known_on)),
    )


def named(person: PersonRow, endpoint: str = "") -> Named:
    """Show a person as lists do, with the way to the sheet about the person."""
    url = url_for(endpoint, key=person.key) if endpoint else ""
    return Named(name=person.name, number=person.number, shift=person.shift, url=url)


def matching(found: Iterable[PersonRow], text: str) -> list[PersonRow]:
    """Return the people whose name or number holds every word of ``text``, case and accents aside."""
    words = folded(text).split()
    return [one for one in found if all(word in f"{folded(one.name)} {one.number}" for word in words)]


def known(reading: Reading, entries: Iterable[Entry]) -> dict[str, PersonRow]:
    """Return the people whom entries name as theirs or as their authors, leavers too."""
    keys = {key for entry in entries for key in (entry.person, entry.by, *entry.body.values()) if _is_key(key)}
    return people.among(reading, keys)


def _is_key(value: object) -> TypeGuard[str]:
    return isinstance(value, str) and _KEY.fullmatch(value) is not None
