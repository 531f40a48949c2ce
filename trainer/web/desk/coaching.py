"""Coaching after a paper that was not passed: what was missed, and the note that opens the next try."""

from collections.abc import Mapping
from dataclasses import dataclass

from flask import g, redirect, request, url_for
from werkzeug.wrappers import Response

from trainer.bank import Bank
from trainer.records import coaching
from trainer.records.effects import Fact
from trainer.web.access import TRAINER, doors
from trainer.web.desk.blueprint import bp
from trainer.web.filters import day
from trainer.web.language import current
from trainer.web.rooms import rooms

LONGEST = 1000  # characters of a note


@dataclass(frozen=True, slots=True, kw_only=True)
class Missed:
    """One competency of which something was not right: how much, and whether it was critical."""

    name: str
    wrong: int
    asked: int
    critical: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class ToCoach:
    """A paper that waits for a coach."""

    entry: int
    programme: str
    day: str
    missed: tuple[Missed, ...]


def to_coach(bank: Bank, waiting: Mapping[str, Fact]) -> tuple[ToCoach, ...]:
    """Show the papers that wait, with what was missed in each, critical first."""
    return tuple(
        ToCoach(
            entry=fact.number,
            programme=bank.programmes[name].name.in_(current()) if name in bank.programmes else name,
            day=day(fact.on),
            missed=_missed(bank, fact),
        )
        for name, fact in waiting.items()
    )


def _missed(bank: Bank, fact: Fact) -> tuple[Missed, ...]:
    found: dict[str, list[Mapping[str, object]]] = {}
    for item in fact.body["items"]:
        found.setdefault(str(item["competency"]), []).append(item)
    rows = [
        Missed(
            name=bank.competencies[key].name.in_(current()) if key in bank.competencies else key,
            wrong=sum(not item["right"] for item in items),
            asked=len(items),
            critical=any(item["critical"] and not item["right"] for item in items),
        )
        for key, items in found.items()
    ]
    return tuple(sorted((row for row in rows if row.wrong), key=lambda row: (not row.critical, -row.wrong)))


@bp.post("/people/<key>/coached")
@doors.needs(TRAINER)
def coached(key: str) -> Response:
    """Note what was talked over; a refusal is a sheet of its own and enters nothing."""
    after = request.form.get("after", 0, type=int)
    with rooms().record.writing() as writing:
        made = coaching.note(
            writing, person=key, after=after, words=request.form.get("words", "")[:LONGEST], by=g.person.key
        )
    return redirect(url_for("desk.person", key=key, signed=made.number), 303)
