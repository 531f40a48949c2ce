"""Who may judge practice, or stand by for somebody, for which kinds of machine and roles, on which days."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from itertools import groupby

from trainer.records import ledger
from trainer.records.chain import Entry, EntryKind
from trainer.records.effects import Fact, facts
from trainer.records.work import Reading

JUDGE, SUPERVISE = "judge", "supervise"  # what a right is to; an entry that does not say so is one to judge


@dataclass(frozen=True, slots=True, kw_only=True)
class Entitlement:
    """A right that is in force: who has it, for what, until which day, by which entry."""

    person: str
    machine_kinds: tuple[str, ...]
    roles: tuple[str, ...]
    valid_to: date
    entry: int
    right: str = JUDGE


def may_judge(r: Reading, evaluator: str, machine_kind: str, role: str, on: date) -> Entry | None:
    """Return the entry that entitles somebody to judge a role at a kind of machine on a day, or None."""
    found = entitling(facts(ledger.entries(r, person=evaluator)), machine_kind, role, on)
    return None if found is None else ledger.entry(r, found.number)


def entitlements(r: Reading, on: date, *, known_on: date | None = None, right: str | None = JUDGE) -> list[Entitlement]:
    """Return every right to judge that is in force on a day, whoever has it, in the order of the entries.

    ``right`` asks for those to something else; None for every one.
    """
    kinds = {EntryKind.ENTITLED, EntryKind.CORRECTED, EntryKind.MOVED}
    rows = [row for kind in kinds for row in ledger.entries(r, kind=kind, known_on=known_on)]
    rows.sort(key=lambda row: (row.person, row.number))
    found = [
        Entitlement(
            person=person,
            machine_kinds=tuple(fact.body["machine_kinds"]),
            roles=tuple(fact.body["roles"]),
            valid_to=date.fromisoformat(fact.body["valid_to"]),
            entry=fact.number,
            right=right_of(fact),
        )
        for person, group in groupby(rows, key=lambda row: row.person)
        for fact in in_force(facts(group), on, right)
    ]
    return sorted(found, key=lambda right: right.entry)


def entitling(known: Iterable[Fact], machine_kind: str, role: str, on: date) -> Fact | None:
    """Return what entitles a person to judge, out of the facts about them: the one that lasts longest, or None."""
    good = [
        fact
        for fact in in_force(known, on)
        if machine_kind in fact.body["machine_kinds"] and role in fact.body["roles"]
    ]
    return max(good, key=lambda fact: (fact.body["valid_to"], fact.number), default=None)


def right_of(fact: Fact) -> str:
    """Return what a right is to."""
    return str(fact.body.get("right", JUDGE))


def in_force(known: Iterable[Fact], on: date, right: str | None = JUDGE) -> list[Fact]:
    """Return the rights to judge that a person has on a day: begun, not ended, not revoked, their day not in doubt.

    ``right`` asks for those to something else; None for every one.
    """
    rights = [fact for fact in known if fact.kind is EntryKind.ENTITLED and fact.on <= on]
    revoked = {fact.body["revokes"] for fact in rights if "revokes" in fact.body}
    return [
        fact
        for fact in rights
        if fact.trusted
        and "revokes" not in fact.body
        and right in {None, right_of(fact)}
        and not revoked & set(fact.numbers)
        and date.fromisoformat(fact.body.get("valid_from", fact.on.isoformat())) <= on
        and on <= date.fromisoformat(fact.body["valid_to"])
    ]
