"""Who is due for what: read from the ledger, for any day. One row for each programme that a person has to take."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Literal

from trainer.bank import Bank
from trainer.bank.model import ProgrammeKind
from trainer.records.chain import EntryKind
from trainer.records.conditions import returned
from trainer.records.effects import Fact
from trainer.records.people import everybody
from trainer.records.renewals import Held, Rules, anchor, best_pass
from trainer.records.standing import Asked, asked_at, facts_by_person, touched
from trainer.records.work import Reading
from trainer.wording import Sentence, mark, say

State = Literal["overdue", "due", "assigned"]
TOLD: Mapping[State, str] = {
    "overdue": mark("Passed on {day}; it lapsed after {until}."),
    "due": mark("Passed on {day}; good until {until}."),
    "assigned": mark("Assigned on {day}: {reason}"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class DueRow:
    """A programme that a person has to take. ``due_on`` is its last good day, or when an assignment has to be done.

    ``machines`` are those that it is needed for, ``entry`` the number of the ledger's entry that says so.
    """

    person: str
    programme: str
    machines: tuple[str, ...]
    due_on: date
    state: State
    reason: Sentence
    entry: int


def due_list(r: Reading, bank: Bank, *, on: date, days: int = 90) -> list[DueRow]:
    """Return what is overdue on a day, falls due within so many days, or is assigned and not yet passed.

    Ordered by due day, then by people's names. Leaves out what a person is excused from on that day.
    """
    asked = asked_at(r, bank)
    known = facts_by_person(r)
    found = [
        row
        for person in everybody(r, on=on)
        for row in due_of(person.key, known.get(person.key, ()), asked, on=on, days=days)
    ]
    return sorted(found, key=lambda row: row.due_on)


def due_of(person: str, facts: Iterable[Fact], asked: Sequence[Asked], *, on: date, days: int) -> list[DueRow]:
    """Return what one person has to take. Pure."""
    known = [fact for fact in facts if fact.on <= on and fact.trusted]
    excused = {
        fact.body["programme"]
        for fact in known
        if fact.kind is EntryKind.EXCUSED and on <= date.fromisoformat(fact.body["until"])
    }
    rows = list(_renewals(person, known, asked, on=on, limit=on + timedelta(days=days)))
    listed = {row.programme for row in rows}
    rows += [row for row in _assigned(person, known, asked) if row.programme not in listed]
    return [row for row in rows if row.programme not in excused]


def _renewals(person: str, known: Sequence[Fact], asked: Sequence[Asked], *, on: date, limit: date) -> Iterator[DueRow]:
    needed: dict[tuple[str, int], list[tuple[Rules, Held]]] = {}
    for each in asked:
        newest = best_pass(known, each.rules)
        if newest is not None and _good(newest, known, each.rules) <= limit and touched(known, each):
            needed.setdefault((_next(each.rules), newest.fact.number), []).append((each.rules, newest))
    for (programme, number), found in needed.items():
        rules, held = found[0]
        until = _good(held, known, rules)
        state: State = "overdue" if on > until else "due"
        yield DueRow(
            person=person,
            programme=programme,
            machines=tuple(each.machine for each, _held in found),
            due_on=until,
            state=state,
            reason=say(TOLD[state], day=anchor(held.fact).isoformat(), until=until.isoformat()),
            entry=number,
        )


def _good(newest: Held, known: Sequence[Fact], rules: Rules) -> date:
    """Return the last day on which theory is good; for somebody who came back, the day before, until renewed."""
    since = returned(known)
    fresh = best_pass(known, rules, since)
    if fresh is not None:
        return fresh.good.due
    return min(newest.good.due, since[0] - timedelta(days=1))


def _next(rules: Rules) -> str:
    """Return the programme that renews: the refresher where there is one, else the first one again."""
    refreshers = [name for name, kind in rules.programmes.items() if kind is ProgrammeKind.REFRESHER]
    return next(iter(refreshers or rules.programmes))


def _assigned(person: str, known: Sequence[Fact], asked: Sequence[Asked]) -> Iterator[DueRow]:
    open_ones: dict[str, list[Fact]] = {}
    for fact in known:
        if fact.kind is EntryKind.ASSIGNED:
            open_ones.setdefault(fact.body["programme"], []).append(fact)
        elif _fulfils(fact):
            open_ones.pop(fact.body["programme"], None)
    for programme, facts in open_ones.items():
        last = facts[-1]
        due_on = min(date.fromisoformat(fact.body.get("due_on", fact.on.isoformat())) for fact in facts)
        yield DueRow(
            person=person,
            programme=programme,
            machines=_machines(facts, known, programme, asked),
            due_on=due_on,
            state="assigned",
            reason=say(TOLD["assigned"], day=last.on.isoformat(), reason=last.body["reason"]),
            entry=last.number,
        )


def _fulfils(fact: Fact) -> bool:
    passed = fact.kind is EntryKind.SITTING_MARKED and fact.body["passed"] is True
    return passed or fact.kind is EntryKind.PRIOR_ACCEPTED


def _machines(facts: Sequence[Fact], known: Sequence[Fact], programme: str, asked: Sequence[Asked]) -> tuple[str, ...]:
    named = dict.fromkeys(fact.body["machine"] for fact in facts if fact.body.get("machine"))
    if named:
        return tuple(sorted(named))
    return tuple(each.rules.machine for each in asked if programme in each.rules.programmes and touched(known, each))
