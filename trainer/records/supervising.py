"""Who may stand by, at a machine, for somebody who works there supervised only: named, with the entry that says so.

Whoever may judge a role there may stand by for it; a right to supervise gives that alone. A right counts while its holder
belongs to the site and is not suspended from the machine. Where nobody has one, nobody may work there supervised.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from datetime import date

from trainer.records import ledger, machines, people
from trainer.records.conditions import Reason, StandingWord, gone, suspended
from trainer.records.effects import Fact, facts
from trainer.records.entitlements import Entitlement, entitlements
from trainer.records.judging import Standing
from trainer.records.renewals import Rules
from trainer.records.work import Reading
from trainer.wording import say


def may_supervise(r: Reading, on: date, *, known_on: date | None = None) -> list[Entitlement]:
    """Return every right by which somebody may stand by on a day: to judge, or to supervise alone."""
    return entitlements(r, on, known_on=known_on, right=None)


def with_supervisors(
    r: Reading, found: Sequence[Standing], on: date, *, known_on: date | None = None
) -> list[Standing]:
    """Return standings in which whoever works supervised only is told by whom. Reads nothing where nobody does."""
    if not any(one.word is StandingWord.SUPERVISED for one in found):
        return list(found)
    rights = may_supervise(r, on, known_on=known_on)
    known = {key: _facts(r, key, on, known_on) for key in {right.person for right in rights}}
    called = {key: f"{people.name_on(r, key, on)} ({people.must(r, key).number})" for key in known}
    kinds = {one.id: one.kind for one in machines.all_machines(r)}
    return [
        _told(one, _fit(rights, known, one, kinds[one.machine], on), called)
        if one.word is StandingWord.SUPERVISED
        else one
        for one in found
    ]


def _facts(r: Reading, person: str, on: date, known_on: date | None) -> list[Fact]:
    return [fact for fact in facts(ledger.entries(r, person=person, known_on=known_on)) if fact.on <= on]


def _fit(
    rights: Iterable[Entitlement], known: Mapping[str, Sequence[Fact]], one: Standing, kind: str, on: date
) -> list[Entitlement]:
    """Return the rights that fit a standing, one of each holder."""
    rules = Rules(machine=one.machine, machine_kind=kind, role=one.role, programmes={})
    found: dict[str, Entitlement] = {}
    for right in rights:
        holder = known[right.person]
        here = gone(holder, on) is None and suspended(holder, rules).met
        if right.person != one.person and kind in right.machine_kinds and one.role in right.roles and here:
            found.setdefault(right.person, right)
    return list(found.values())


def _told(one: Standing, rights: Sequence[Entitlement], called: Mapping[str, str]) -> Standing:
    if not rights:
        nobody = say("Nobody may stand by there on that day, so the person may not work there at all.")
        return replace(one, lacks=(*one.lacks, nobody))
    names = ", ".join(called[right.person] for right in rights)
    reason = Reason(
        sentence=say("May stand by there: {people}.", people=names), entries=tuple(right.entry for right in rights)
    )
    return replace(one, reasons=(*one.reasons, reason), supervisors=tuple(right.person for right in rights))
