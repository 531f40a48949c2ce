"""What is kept beside the ledger and may go by itself: sign-ins, who reported a hazard, answered requests.

What leads to a person under a legal hold stays.
"""

from collections.abc import Callable, Collection, Mapping
from datetime import date, timedelta

from sqlalchemy import ColumnElement, delete, func, or_, select, update

from trainer.records import hazards
from trainer.records.models import Hazard, PrivacyRequest, SignIn
from trainer.records.privacy.rules import Rule
from trainer.records.work import Reading, Writing

Held = Collection[str]


def count(r: Reading, rules: Mapping[str, Rule], held: Held, on: date) -> dict[str, int]:
    """Return how many of each kind have had their time on a day; a kind without a rule is left out."""
    counts = {"sign-ins": _sign_ins, "hazard-names": _hazards, "requests": _requests}
    return {kind: counted(r, rules[kind].over_before(on), held) for kind, counted in counts.items() if kind in rules}


def remove(w: Writing, rules: Mapping[str, Rule], held: Held) -> dict[str, int]:
    """Remove what has had its time today; return how many of each kind."""
    acts: Mapping[str, Callable[[Writing, date, Held], None]] = {
        "sign-ins": _remove_sign_ins,
        "hazard-names": _remove_hazard_names,
        "requests": _remove_requests,
    }
    gone = count(w, rules, held, w.today())
    for kind in gone:
        acts[kind](w, rules[kind].over_before(w.today()), held)
    return gone


def _old_sign_in(r: Reading, before: date, held: Held) -> ColumnElement[bool]:
    free = or_(SignIn.person.is_(None), SignIn.person.not_in(held))
    return (SignIn.at < r.end_of(before - timedelta(days=1))) & free


def _sign_ins(r: Reading, before: date, held: Held) -> int:
    return r.session.scalar(select(func.count()).select_from(SignIn).where(_old_sign_in(r, before, held))) or 0


def _remove_sign_ins(w: Writing, before: date, held: Held) -> None:
    w.session.execute(delete(SignIn).where(_old_sign_in(w, before, held)))


def _closed(r: Reading, before: date, held: Held) -> list[int]:
    """Return the reports that somebody made under a name and that were closed before a day."""
    return [
        row.id
        for row in hazards.reports(r)
        if row.person is not None
        and row.person not in held
        and any(answer.closes for answer in row.answers)
        and r.day_of(max(answer.at for answer in row.answers)) < before
    ]


def _hazards(r: Reading, before: date, held: Held) -> int:
    return len(_closed(r, before, held))


def _remove_hazard_names(w: Writing, before: date, held: Held) -> None:
    w.session.execute(update(Hazard).where(Hazard.id.in_(_closed(w, before, held))).values(person=None))


def _old_request(before: date, held: Held) -> ColumnElement[bool]:
    return (PrivacyRequest.answered_on < before) & PrivacyRequest.person.not_in(held)


def _requests(r: Reading, before: date, held: Held) -> int:
    return r.session.scalar(select(func.count()).select_from(PrivacyRequest).where(_old_request(before, held))) or 0


def _remove_requests(w: Writing, before: date, held: Held) -> None:
    w.session.execute(delete(PrivacyRequest).where(_old_request(before, held)))
