"""Hazards and suggestions reported at a kiosk: kept at once, answered at the desk, never changed."""

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import select, update
from sqlalchemy.orm import subqueryload

from trainer.errors import Missing, UsageError
from trainer.records import machines
from trainer.records.models import Hazard, HazardAnswer
from trainer.records.work import Reading, Writing
from trainer.wording import say

HAZARD, SUGGESTION = "hazard", "suggestion"
LONGEST = 2_000  # characters of one report or answer


@dataclass(frozen=True, slots=True, kw_only=True)
class AnswerRow:
    """What somebody did about a report."""

    by: str
    words: str
    closes: bool
    at: datetime


@dataclass(frozen=True, slots=True, kw_only=True)
class HazardRow:
    """One report with its answers, oldest first. ``person`` is None where the person did not want to be named.

    ``kind`` is ``hazard`` or ``suggestion``, ``place`` the zone of the drawing, empty for none.
    """

    id: int
    kind: str
    place: str
    person: str | None
    machine: str | None
    kiosk: str
    words: str
    at: datetime
    answers: tuple[AnswerRow, ...]

    @property
    def reference(self) -> str:
        """Return the report's number as people say it."""
        return f"H-{self.id:03d}"

    @property
    def is_open(self) -> bool:
        """Say whether somebody still has to act."""
        return not any(answer.closes for answer in self.answers)


def report(
    w: Writing,
    *,
    words: str,
    kiosk: str,
    person: str | None = None,
    machine: str | None = None,
    kind: str = HAZARD,
    place: str = "",
) -> HazardRow:
    """Keep a report. :class:`UsageError` when it says nothing, :class:`Missing` for an unknown machine.

    Whatever is not known to be a suggestion only is a hazard.
    """
    if machine is not None:
        machines.get(w, machine)
    made = Hazard(
        person=person,
        machine=machine,
        kind=SUGGESTION if kind == SUGGESTION else HAZARD,
        place=place[:80],
        kiosk=kiosk,
        words=_checked(words),
        at=w.now(),
    )
    w.session.add(made)
    w.session.flush()
    return _row(made)


def answer(w: Writing, hazard: int, *, by: str, words: str, closes: bool) -> HazardRow:
    """Add what was done about a report; with ``closes`` nobody has to act on it any more."""
    found = _get(w, hazard)
    found.answers.append(HazardAnswer(by=by, words=_checked(words), closes=closes, at=w.now()))
    w.session.flush()
    return _row(found)


def get(r: Reading, hazard: int) -> HazardRow:
    """Return one report; :class:`Missing` where there is none of that number."""
    return _row(_get(r, hazard))


def reports(r: Reading, *, only_open: bool = False) -> list[HazardRow]:
    """Return the reports, oldest first."""
    rows = [
        _row(found)
        for found in r.session.scalars(select(Hazard).options(subqueryload(Hazard.answers)).order_by(Hazard.id))
    ]
    return [row for row in rows if row.is_open or not only_open]


def forget(w: Writing, person: str) -> None:
    """Take a person's name off the reports that they made; the reports stay."""
    w.session.execute(update(Hazard).where(Hazard.person == person).values(person=None))


def _get(r: Reading, hazard: int) -> Hazard:
    found = r.session.get(Hazard, hazard)
    if found is None:
        raise Missing(say("There is no report H-{number}.", number=hazard))
    return found


def _checked(words: str) -> str:
    text = words.strip()
    if not text:
        raise UsageError(say("Say what is wrong, in a few words."))
    if len(text) > LONGEST:
        raise UsageError(say("That is {count} characters long. Use at most {most}.", count=len(text), most=LONGEST))
    return text


def _row(hazard: Hazard) -> HazardRow:
    return HazardRow(
        id=hazard.id,
        kind=hazard.kind,
        place=hazard.place,
        person=hazard.person,
        machine=hazard.machine,
        kiosk=hazard.kiosk,
        words=hazard.words,
        at=hazard.at,
        answers=tuple(AnswerRow(by=one.by, words=one.words, closes=one.closes, at=one.at) for one in hazard.answers),
    )
