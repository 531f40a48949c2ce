"""A desk at which rosters are checked and taken."""

from dataclasses import dataclass
from typing import Any

from trainer.records import Record, people, roster
from trainer.records.people import PersonRow
from trainer.records.roster import Fate, Plan


@dataclass
class Desk:
    record: Record

    def add(self, number: str, name: str, **given: Any) -> PersonRow:
        with self.record.writing() as w:
            return people.add(w, number=number, name=name, **given)

    def leave(self, person: PersonRow, on: Any) -> None:
        with self.record.writing() as w:
            people.leave(w, person.key, on=on, by="office")

    def check(self, file: str | bytes, **answers: str) -> Plan:
        with self.record.reading() as r:
            return roster.check(r, _bytes(file), file="people.csv", answers=_ids(answers))

    def take(self, file: str | bytes, **answers: str) -> Plan:
        with self.record.writing() as w:
            return roster.take(w, _bytes(file), by="office", file="people.csv", answers=_ids(answers))

    def everyone(self) -> list[PersonRow]:
        with self.record.reading() as r:
            return people.all_people(r)

    def names(self) -> dict[str, str]:
        return {one.number: one.name for one in self.everyone() if one.status == "active"}


def _bytes(file: str | bytes) -> bytes:
    return file if isinstance(file, bytes) else file.encode()


def _ids(answers: dict[str, str]) -> dict[str, str]:
    """Write ids as keywords: ``person__3108`` is ``person:3108``, ``name_order`` is ``name-order``."""
    return {key.replace("__", ":").replace("name_order", "name-order"): value for key, value in answers.items()}


def fates(plan: Plan) -> list[tuple[int, str]]:
    """Return the line and the fate of every row."""
    return [(row.line, row.fate.value) for row in plan.rows]


def codes(plan: Plan) -> set[str]:
    """Return the codes of all that stands against a plan."""
    return {finding.code for finding in plan.report.errors}


def only(plan: Plan, fate: Fate | None = None) -> Any:
    """Return the one row of a plan that has a fate."""
    (row,) = [row for row in plan.rows if fate is None or row.fate is fate]
    return row
