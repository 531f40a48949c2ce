"""What a pack is asked for, and who that is."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from trainer.bank import Bank
from trainer.errors import UsageError
from trainer.records.people import PersonRow, must
from trainer.records.standing import Standing, concerned, standings
from trainer.records.work import Reading


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """Either ``people`` (keys) or whoever has to do with a ``machine`` on the day ``on``.

    With ``known_on`` the standings are told twice: as the record knows them now, and as it knew them at the end of
    that day.
    """

    on: date
    people: tuple[str, ...] = ()
    machine: str | None = None
    known_on: date | None = None

    def __post_init__(self) -> None:
        if bool(self.people) == (self.machine is not None):
            raise UsageError("A pack is about people or about one machine. Name one of the two.")

    @property
    def views(self) -> Sequence[date | None]:
        """Return as known on which days it is told; None stands for now."""
        return (None,) if self.known_on is None else (None, self.known_on)


def chosen(r: Reading, bank: Bank, asked: Asked) -> list[PersonRow]:
    """Return whom a pack is about, each once; :class:`~trainer.errors.Missing` for somebody who is not there."""
    if asked.machine is None:
        return [must(r, key) for key in dict.fromkeys(asked.people)]
    found = {
        person.key: person
        for known_on in asked.views
        for person in concerned(r, bank, machine=asked.machine, on=asked.on, known_on=known_on)
    }
    return list(found.values())


def standing_lines(r: Reading, bank: Bank, asked: Asked, people: Sequence[PersonRow]) -> Iterator[dict[str, Any]]:
    """Give where each person stands, with reasons and the entries that they rest on, as lines of JSON."""
    for known_on in asked.views:
        for person in people:
            for each in standings(r, bank, on=asked.on, known_on=known_on, person=person.key, machine=asked.machine):
                yield _line(person, each, asked.on, known_on)


def _line(person: PersonRow, standing: Standing, on: date, known_on: date | None) -> dict[str, Any]:
    return {
        "person": person.key,
        "number": person.number,
        "name": person.name,
        "machine": standing.machine,
        "role": standing.role,
        "standing": standing.word.value,
        "may_run": standing.may_run,
        "holds_until": standing.holds_until.isoformat() if standing.holds_until else None,
        "due_on": standing.due_on.isoformat() if standing.due_on else None,
        "reasons": [
            {"text": str(reason.sentence), "entries": [f"L-{number}" for number in reason.entries]}
            for reason in standing.reasons
        ],
        "lacks": [str(sentence) for sentence in standing.lacks],
        "on": on.isoformat(),
        "known_on": known_on.isoformat() if known_on else None,
    }
