"""Retention: what has had its time by the rules, what stays all the same and why, and removing it, all at once.

Whatever has no rule, belongs to somebody who is here, or stands under a legal hold, stays. Counts survive; names do not.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from sqlalchemy import select

from trainer.records import heads
from trainer.records.models import Person, RetentionRun
from trainer.records.people import PersonRow, must
from trainer.records.privacy import logs
from trainer.records.privacy.erasing import take_out
from trainer.records.privacy.holds import hold_in
from trainer.records.privacy.officers import must_be_officer
from trainer.records.privacy.periods import Period, period
from trainer.records.privacy.rules import Rule, rules
from trainer.records.standing import facts_by_person
from trainer.records.work import Reading, Writing

NOTE = "By the rules of retention."

Leaver = tuple[PersonRow, Period]


@dataclass(frozen=True, slots=True, kw_only=True)
class Preview:
    """What removing would do on a day.

    ``over`` are those whose identity would go; ``held`` those whose time is over and whom a legal hold keeps; ``kept``
    those who have left and whose time is not over; ``unset`` those for whom a rule is missing. ``logs`` counts what
    would go beside the ledger, by kind.
    """

    on: date
    rules: Mapping[str, Rule]
    over: tuple[Leaver, ...]
    held: tuple[Leaver, ...]
    kept: tuple[Leaver, ...]
    unset: tuple[Leaver, ...]
    logs: Mapping[str, int]


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """A removal that was done: how many of each kind."""

    by: str
    at: datetime
    removed: Mapping[str, Any]


def preview(r: Reading, *, on: date | None = None) -> Preview:
    """Return what removing would do on a day, today unless given; changes nothing."""
    day, known = on or r.today(), rules(r)
    leavers = [(person, period(r, person, known)) for person in _leavers(r, day)]
    return Preview(
        on=day,
        rules=known,
        over=tuple(each for each in leavers if each[1].over(day)),
        held=tuple(each for each in leavers if each[1].hold is not None and _time_over(each[1], day)),
        kept=tuple(each for each in leavers if each[1].until is not None and not _time_over(each[1], day)),
        unset=tuple(each for each in leavers if each[1].unset),
        logs=logs.count(r, known, _held(r), day),
    )


def apply(w: Writing, *, by: str) -> Run:
    """Remove what has had its time today, all of it or nothing, and keep how much that was."""
    must_be_officer(w, by)
    heads.alone(w)  # what is checked here must still be so when it is done
    found = preview(w)
    for person, _period in found.over:
        take_out(w, person.key, by=by, note=NOTE, forced=False)
    removed = {"identity": len(found.over), **logs.remove(w, found.rules, _held(w))}
    made = RetentionRun(by=by, at=w.now(), removed=removed)
    w.session.add(made)
    w.session.flush()
    return Run(by=by, at=made.at, removed=removed)


def runs(r: Reading) -> list[Run]:
    """Return every removal that was done, oldest first."""
    query = select(RetentionRun).order_by(RetentionRun.id)
    return [Run(by=found.by, at=found.at, removed=found.removed) for found in r.session.scalars(query)]


def _time_over(found: Period, on: date) -> bool:
    return found.until is not None and on > found.until


def _leavers(r: Reading, on: date) -> list[PersonRow]:
    query = select(Person.key).where(Person.ended < on, Person.erased.is_(False)).order_by(Person.ended, Person.key)
    return [must(r, key) for key in r.session.scalars(query)]


def _held(r: Reading) -> frozenset[str]:
    return frozenset(key for key, known in facts_by_person(r).items() if hold_in(known) is not None)
