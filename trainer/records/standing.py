"""Where people stand for machines and roles, as of a day and as known on a day. Computed from the ledger alone."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import groupby

from trainer.bank import Bank
from trainer.records import ledger, machines
from trainer.records.chain import EntryKind
from trainer.records.conditions import gone
from trainer.records.effects import Fact, facts, withdrawn
from trainer.records.judging import (
    MAY_RUN,
    Reason,
    Rules,
    Standing,
    StandingWord,
    judge,
    rules_for,
)
from trainer.records.people import PersonRow, everyone, must
from trainer.records.work import Reading

__all__ = ["MAY_RUN", "Reason", "Standing", "StandingWord", "standing", "standings"]

NAMING = frozenset(
    {EntryKind.ASSIGNED, EntryKind.ATTENDED, EntryKind.PRACTICAL_SIGNED, EntryKind.SUSPENDED, EntryKind.EVENT}
)


def standing(
    r: Reading, bank: Bank, *, person: str, machine: str, role: str, on: date, known_on: date | None = None
) -> Standing:
    """Return where a person stands for a machine and role at the end of day ``on``.

    ``known_on`` leaves out what was recorded later. Raises :class:`~trainer.errors.Missing` for an unknown person or
    machine.
    """
    must(r, person)
    place = machines.get(r, machine)
    rules = rules_for(bank, place.id, place.kind, role)
    known = facts(ledger.entries(r, person=person, known_on=known_on))
    return judge(person, known, rules, on=on, voided=voided(r, known_on))


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """A role at a machine, with what is asked for it; ``first`` for the first role that the bank has there."""

    rules: Rules
    first: bool


def standings(
    r: Reading,
    bank: Bank,
    *,
    on: date,
    known_on: date | None = None,
    person: str | None = None,
    machine: str | None = None,
    everything: bool = False,
) -> list[Standing]:
    """Return the standings of everybody who belonged to the site on a day, in the order of names, machines, roles.

    Without ``everything`` only where something concerns the person: a machine that an entry names for them, or, when
    none ever did, every machine of a kind whose programme they have to do with.
    """
    asked = asked_at(r, bank, machine=machine)
    known = facts_by_person(r, person=person, known_on=known_on, until=on)
    if person is None:
        people = [row.key for row in everyone(r, on) if gone(known.get(row.key, ()), on) is None]
    else:
        people = [must(r, person).key]
    void = voided(r, known_on)
    return [
        judge(key, known.get(key, ()), each.rules, on=on, voided=void)
        for key in people
        for each in asked
        if everything or touched(known.get(key, ()), each)
    ]


def concerned(r: Reading, bank: Bank, *, machine: str, on: date, known_on: date | None = None) -> Iterator[PersonRow]:
    """Give whoever belonged to the site on a day and has to do with a machine; one person's entries are held at a time."""
    asked = asked_at(r, bank, machine=machine)
    for row in everyone(r, on):
        known = facts_by_person(r, person=row.key, known_on=known_on, until=on).get(row.key, ())
        if gone(known, on) is None and any(touched(known, each) for each in asked):
            yield row


def asked_at(r: Reading, bank: Bank, *, machine: str | None = None) -> list[Asked]:
    """Return every role at every machine in use, or at one machine, with what the bank asks for it."""
    places = machines.all_machines(r, in_use=True) if machine is None else [machines.get(r, machine)]
    return [
        Asked(rules=rules_for(bank, place.id, place.kind, role), first=rank == 0)
        for place in places
        for rank, role in enumerate(roles_at(bank, place.kind))
    ]


def roles_at(bank: Bank, machine_kind: str) -> list[str]:
    """Return the roles that the bank has a programme for at a kind of machine, in the order of the bank."""
    found = (
        programme.role.value
        for programme in bank.programmes.values()
        if machine_kind in {kind.value for kind in programme.machine_kinds}
    )
    return list(dict.fromkeys(found))


def facts_by_person(
    r: Reading, *, person: str | None = None, known_on: date | None = None, until: date = date.max
) -> Mapping[str, Sequence[Fact]]:
    """Return what counts about each person, of what happened up to a day."""
    rows = sorted(ledger.entries(r, person=person, known_on=known_on), key=lambda row: (row.person, row.number))
    return {
        key: [fact for fact in facts(group) if fact.on <= until]
        for key, group in groupby(rows, key=lambda row: row.person)
    }


def voided(r: Reading, known_on: date | None) -> frozenset[int]:
    """Return the entries of anybody that a correction has withdrawn."""
    return withdrawn(ledger.entries(r, kind=EntryKind.CORRECTED, known_on=known_on))


def touched(known: Iterable[Fact], asked: Asked) -> bool:
    """Say whether a role at a machine concerns a person about whom this is known.

    What names a machine but no role is shown for one role only: the first at that machine.
    """
    rows, rules = list(known), asked.rules
    named = {fact.body["machine"] for fact in rows if fact.kind in NAMING and fact.body.get("machine")}
    if named and rules.machine not in named:
        return False
    if any(_of_role(fact, rules) for fact in rows):
        return True
    return asked.first and bool(named) and not any("programme" in fact.body or "role" in fact.body for fact in rows)


def _of_role(fact: Fact, rules: Rules) -> bool:
    return fact.body.get("programme") in rules.programmes or fact.body.get("role") == rules.role
