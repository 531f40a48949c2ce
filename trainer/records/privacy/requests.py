"""Requests of people about their own data. Each has a due day: one month after it came in.

One month is what the general rule of data protection gives (Regulation (EU) 2016/679, article 12(3), read in the
regulator's summary of 2025); a day that the next month does not have becomes its last day.
"""

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from sqlalchemy import select

from trainer.errors import Missing, RecordError, UsageError
from trainer.records.duedates import Policy
from trainer.records.models import PrivacyRequest
from trainer.records.people import must
from trainer.records.privacy.officers import LONGEST, checked_reason, must_be_officer, not_erased
from trainer.records.work import Reading, Writing
from trainer.wording import say

MONTH = Policy(period="P1M")


class Wish(StrEnum):
    """What somebody asks for."""

    COPY = "copy"
    ERASURE = "erasure"
    CORRECTION = "correction"
    OBJECTION = "objection"


@dataclass(frozen=True, slots=True, kw_only=True)
class RequestRow:
    """One request. ``answered_on`` is None while it is open."""

    id: int
    person: str
    kind: Wish
    received_on: date
    due_on: date
    note: str
    by: str | None
    answered_on: date | None
    answered_by: str | None
    answer: str

    @property
    def reference(self) -> str:
        """Return how people call it: ``R-3``."""
        return f"R-{self.id}"


def receive(
    w: Writing, *, person: str, kind: Wish | str, received_on: date, by: str | None = None, note: str = ""
) -> RequestRow:
    """Keep a request; it is due one month after the day on which it came in, in whatever form it came."""
    not_erased(must(w, person))
    if received_on > w.today():
        raise UsageError(say("{day} has not come yet.", day=received_on.isoformat()))
    made = PrivacyRequest(
        person=person,
        kind=_wish(kind),
        received_on=received_on,
        due_on=MONTH.due(received_on),
        note=" ".join(note.split())[:LONGEST],
        by=by,
        at=w.now(),
        answered_on=None,
        answered_by=None,
        answer="",
    )
    w.session.add(made)
    w.session.flush()
    return _row(made)


def answer(w: Writing, request: int, *, by: str, words: str) -> RequestRow:
    """Note that a request was answered, also by a refusal; ``words`` say how. Only an officer does that, and once."""
    must_be_officer(w, by)
    found = w.session.get(PrivacyRequest, request)
    if found is None:
        raise Missing(say("There is no request R-{number}.", number=request))
    if found.answered_on is not None:
        raise RecordError(say("R-{number} was answered on {day}.", number=request, day=found.answered_on.isoformat()))
    return _answered(w, found, by=by, words=checked_reason(words))


def answer_open(w: Writing, *, person: str, kind: Wish, by: str, words: str) -> list[RequestRow]:
    """Note that every open request of one kind was answered by the act itself; return them."""
    return [
        _answered(w, found, by=by, words=words)
        for found in w.session.scalars(
            select(PrivacyRequest).where(
                PrivacyRequest.person == person,
                PrivacyRequest.kind == kind.value,
                PrivacyRequest.answered_on.is_(None),
            )
        )
    ]


def listed(r: Reading, *, person: str | None = None, only_open: bool = False) -> list[RequestRow]:
    """Return requests, the one that is due first at the top, answered ones below."""
    query = select(PrivacyRequest)
    if person is not None:
        query = query.where(PrivacyRequest.person == person)
    if only_open:
        query = query.where(PrivacyRequest.answered_on.is_(None))
    rows = [_row(found) for found in r.session.scalars(query)]
    return sorted(rows, key=lambda row: (row.answered_on is not None, row.due_on, row.id))


def _answered(w: Writing, found: PrivacyRequest, *, by: str, words: str) -> RequestRow:
    found.answered_on, found.answered_by, found.answer = w.today(), by, words
    w.session.flush()
    return _row(found)


def _wish(kind: Wish | str) -> str:
    try:
        return Wish(kind).value
    except ValueError as error:
        told = say("{kind} is no kind of request; there are {kinds}.", kind=str(kind), kinds=", ".join(Wish))
        raise UsageError(told) from error


def _row(found: PrivacyRequest) -> RequestRow:
    return RequestRow(
        id=found.id,
        person=found.person,
        kind=Wish(found.kind),
        received_on=found.received_on,
        due_on=found.due_on,
        note=found.note,
        by=found.by,
        answered_on=found.answered_on,
        answered_by=found.answered_by,
        answer=found.answer,
    )
