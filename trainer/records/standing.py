"""Where people stand for machines and roles, as of a day and as known on a day. Computed from the ledger alone."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from itertools import groupby

from trainer.bank import Bank
from trainer.records import ledger, machines
from trainer.records.chain import EntryKind
from trainer.records.conditions import entitled_by, gone
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
from trainer.records.supervising import with_supervisors
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
    found = judge(person, known, rules, on=on, voided=voided(r, known_on, of=known))
    return with_supervisors(r, [found], on, known_on=known_on)[0]


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
    void = voided(r, known_on, of=None if person is None else known.get(person, ()))
    found: list[Standing] = []
    for key in people:
        facts_of, concern = known.get(key, ()), Concern(known.get(key, ()))
        shown = (each for each in asked if everything or concern.at(each))
        found.extend(_judged(key, facts_of, concern, shown, on=on, voided=void))
    return with_supervisors(r, found, on, known_on=known_on)


def concerned(r: Reading, bank: Bank, *, machine: str, on: date, known_on: date | None = None) -> Iterator[PersonRow]:
    """Give whoever belonged to the site on a day and has to do with a machine; one person's entries are held at a time."""
    asked = asked_at(r, bank, machine=machine)
    for row in everyone(r, on):
        known = facts_by_person(r, person=row.key, known_on=known_on, until=on).get(row.key, ())
        if gone(known, on) is None and any(map(Concern(known).at, asked)):
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


def voided(r: Reading, known_on: date | None, *, of: Iterable[Fact] | None = None) -> frozenset[int]:
    """Return the entries of anybody that a correction has withdrawn.

    With ``of``, facts about people, only among the chains of those by whose right these facts were signed: a
    correction stands on the chain of what it corrects, and nothing else bears on them.
    """
    if of is None:
        return withdrawn(ledger.entries(r, kind=EntryKind.CORRECTED, known_on=known_on))
    holders = ledger.holders(r, {number for fact in of for number in entitled_by(fact)})
    return frozenset(
        number
        for holder in holders
        for number in withdrawn(ledger.entries(r, person=holder, kind=EntryKind.CORRECTED, known_on=known_on))
    )


class Concern:
    """What of a person's facts says which machines and roles they have to do with; read once, asked often."""

    def __init__(self, known: Iterable[Fact]) -> None:
        rows = list(known)
        self.machines = frozenset(fact.body["machine"] for fact in rows if fact.body.get("machine"))
        self._named = frozenset(
            fact.body["machine"] for fact in rows if fact.kind in NAMING and fact.body.get("machine")
        )
        self._programmes = frozenset(fact.body.get("programme") for fact in rows)
        self._roles = frozenset(fact.body.get("role") for fact in rows)
        self._of_none = not any("programme" in fact.body or "role" in fact.body for fact in rows)

    def at(self, asked: Asked) -> bool:
        """Say whether a role at a machine concerns the person.

        What names a machine but no role is shown for one role only: the first at that machine.
        """
        rules = asked.rules
        if self._named and rules.machine not in self._named:
            return False
        if rules.role in self._roles or not self._programmes.isdisjoint(rules.programmes):
            return True
        return asked.first and bool(self._named) and self._of_none


def touched(known: Iterable[Fact], asked: Asked) -> bool:
    """Say whether a role at a machine concerns a person about whom this is known."""
    return Concern(known).at(asked)


def _judged(
    person: str,
    known: Sequence[Fact],
    concern: Concern,
    asked: Iterable[Asked],
    *,
    on: date,
    voided: frozenset[int],
) -> Iterator[Standing]:
    """Judge a person for each role at a machine.

    Machines of one kind that none of the person's facts names differ in nothing but their names, so they are judged
    once for each role.
    """
    alike: dict[tuple[str, str], Standing] = {}
    for each in asked:
        rules = each.rules
        found = None if rules.machine in concern.machines else alike.get((rules.machine_kind, rules.role))
        if found is None:
            found = judge(person, known, rules, on=on, voided=voided)
        if rules.machine not in concern.machines:
            alike[rules.machine_kind, rules.role] = found
        yield found if found.machine == rules.machine else replace(found, machine=rules.machine)
