"""What the list at a machine is made from, read from the record: who may do what there on a day, who may supervise."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from trainer.bank import Bank
from trainer.exports.about import Tally
from trainer.exports.pdf.proven import must_hold
from trainer.exports.tables import authorised_table
from trainer.records import Reading, machines
from trainer.records.conditions import gone
from trainer.records.entitlements import Entitlement
from trainer.records.history import NameBook
from trainer.records.machines import MachineRow
from trainer.records.people import PersonRow, everyone
from trainer.records.standing import Standing, StandingWord, facts_by_person, standings
from trainer.records.supervising import may_supervise

SOON = timedelta(days=30)


@dataclass(frozen=True, slots=True, kw_only=True)
class Listed:
    """Who may do what at a machine at the end of a day, as known on another.

    ``may`` and ``beside`` are in the order of roles and names, ``judges`` may supervise and sign; ``names`` are those
    that people had on the day. ``until`` is the last day on which the whole list holds, ``ends`` whose time is over
    then; ``live`` is false for a list of another day than today, or as known on one.
    """

    machine: MachineRow
    on: date
    known_on: date
    people: Mapping[str, PersonRow]
    names: Mapping[str, str]
    may: Sequence[Standing]
    beside: Sequence[Standing]
    judges: Sequence[Entitlement]
    until: date
    ends: Sequence[str]
    live: bool
    code: str

    @property
    def soon(self) -> list[Standing]:
        """Return those whose authorisation ends within thirty days, the first to end first."""
        found = [one for one in self.may if one.holds_until and one.holds_until <= self.on + SOON]
        return sorted(found, key=lambda one: (one.holds_until or self.on, self.names[one.person]))


def listed(r: Reading, bank: Bank, *, machine: str, on: date | None = None, known_on: date | None = None) -> Listed:
    """Read a list; :class:`~trainer.errors.RecordError` where the ledger is not as it was written."""
    must_hold(r)
    today = r.today()
    day, place = on or today, machines.get(r, machine)
    found = standings(r, bank, on=day, known_on=known_on, machine=place.id)
    people = {row.key: row for row in everyone(r, day)}
    asked = {"machine": place.id, "on": day.isoformat(), "known on": known_on.isoformat() if known_on else ""}
    tally = Tally({name: value for name, value in asked.items() if value})
    for _row in authorised_table(found, people, on=day, known_on=known_on).tallied(tally).rows:
        pass
    may = [one for one in found if one.may_run]
    judges = _judges(r, place, day, known_on)
    book = NameBook(r)
    ends = [(one.holds_until or day, one.person) for one in may] + [(one.valid_to, one.person) for one in judges]
    until = min((end for end, _ in ends), default=day)
    named = {key: (book.on(key, day) or book.names(key)[0]).name for key in people}
    return Listed(
        machine=place,
        on=day,
        known_on=known_on or today,
        people=people,
        names=named,
        may=may,
        beside=[one for one in found if one.word is StandingWord.SUPERVISED],
        judges=judges,
        until=until,
        ends=list(dict.fromkeys(named[key] for end, key in ends if end == until and key in named)),
        live=day == today and known_on in {None, today} and place.in_use,
        code=tally.code,
    )


def _judges(r: Reading, machine: MachineRow, on: date, known_on: date | None) -> list[Entitlement]:
    """Return who may stand by, or also judge, at a kind of machine on a day and has not left by then."""
    known = facts_by_person(r, known_on=known_on, until=on)
    return [
        right
        for right in may_supervise(r, on, known_on=known_on)
        if machine.kind in right.machine_kinds and gone(known.get(right.person, ()), on) is None
    ]
