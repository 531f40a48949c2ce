"""Proving who one is: a badge or number with a PIN at a kiosk, a login with a password at a desk.

A refused try says the same for an unknown person as for a wrong secret and takes as long. Failed tries make the next
one wait, for the person and for the place, longer each time and never for good, so that nobody can be locked out by
somebody else. The log keeps who, where and when, never what was typed.
"""

import hashlib
import hmac
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import timedelta
from typing import ClassVar

from sqlalchemy import ColumnElement, delete, or_, select, text

from trainer.errors import RecordError
from trainer.records.hashing import PASSWORD, PIN, matches
from trainer.records.models import Person, SignIn, Throttle
from trainer.records.people import PersonRow, here, must
from trainer.records.work import Reading, Writing
from trainer.wording import Sentence, say

READER_MARKS = "*;?%+\r\n\t "  # what badge readers put around a number
LONGEST_PLACE = 80


class SignInRefused(RecordError):
    """Somebody could not prove who they are. ``wait`` is how many seconds the next try has to wait; 0 = not at all."""

    status: ClassVar[int] = 403
    keeps_work: ClassVar[bool] = True  # the failed try must be counted although the request fails

    def __init__(self, sentence: Sentence | str, wait: int = 0) -> None:
        super().__init__(sentence)
        self.wait = wait


@dataclass(frozen=True, slots=True, kw_only=True)
class Patience:
    """How many failures are free, how long the first wait is, where waits stop growing, when all is forgotten."""

    free: int
    first: timedelta
    longest: timedelta
    forgotten: timedelta

    def wait(self, failures: int) -> timedelta:
        """Return how long to wait after so many failures in a row: doubled with each."""
        over = failures - self.free
        return timedelta() if over < 0 else min(self.longest, self.first * 2 ** min(over, 20))


PATIENCE = {
    "person": Patience(
        free=3, first=timedelta(seconds=5), longest=timedelta(minutes=15), forgotten=timedelta(hours=24)
    ),
    "place": Patience(free=10, first=timedelta(seconds=5), longest=timedelta(minutes=5), forgotten=timedelta(hours=1)),
    "lookup": Patience(free=20, first=timedelta(seconds=5), longest=timedelta(minutes=5), forgotten=timedelta(hours=1)),
}


REFUSED = {
    PIN: say("That number and PIN do not go together. Try again."),
    PASSWORD: say("That login and password do not go together. Try again."),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Claim:
    """Somebody says who they are. ``person`` is the key of the one active person whom that fits, or None."""

    kind: str
    given: str
    person: str | None
    place: str


def sign_in_pin(w: Writing, badge_or_number: str, pin: str, *, place: str) -> PersonRow:
    """Return the person whose badge or number and PIN these are.

    Raises :class:`SignInRefused`; the transaction is kept nevertheless, so that the failed try counts.
    """
    given = badge_or_number.strip(READER_MARKS)
    same = or_(Person.badge == given, Person.number == given)
    claim = Claim(kind=PIN, given=given, person=_only(w, same), place=place)
    return _prove(w, claim, pin)


def sign_in_password(w: Writing, login: str, password: str, *, place: str) -> PersonRow:
    """Return the person whose login and password these are. Raises :class:`SignInRefused` as above."""
    given = login.strip()
    claim = Claim(kind=PASSWORD, given=given, person=_only(w, Person.login == given), place=place)
    return _prove(w, claim, password)


def forget(w: Writing, person: str) -> None:
    """Take out when and where a person signed in, or tried to; waits of theirs too."""
    subjects = [_subject(w, f"{kind}:{person}") for kind in (PIN, PASSWORD)]
    w.session.execute(delete(Throttle).where(Throttle.scope == "person", Throttle.subject.in_(subjects)))
    w.session.execute(delete(SignIn).where(SignIn.person == person))


def look_up_wait(r: Reading, place: str) -> int:
    """Return how many seconds a place has to wait before it may ask for another code; 0 = it may ask now."""
    return _waiting(r, "lookup", _subject(r, place))


def look_up_missed(w: Writing, place: str) -> None:
    """Count a code that was none: after some of them a place has to wait, longer each time and never for good."""
    subject = _subject(w, place)
    _alone(w, [subject])
    _count(w, "lookup", subject)


def _only(w: Writing, same: ColumnElement[bool]) -> str | None:
    query = select(Person.key).where(same, Person.status == "active", here(w)).limit(2)
    found = w.session.scalars(query).all()
    return found[0] if len(found) == 1 else None


def _prove(w: Writing, claim: Claim, secret: str) -> PersonRow:
    subjects = {"person": _subject(w, f"{claim.kind}:{claim.person or claim.given}"), "place": _subject(w, claim.place)}
    _alone(w, subjects.values())
    seconds = max(_waiting(w, scope, subject) for scope, subject in subjects.items())
    if seconds:
        _log(w, claim, "waiting")
        raise SignInRefused(say("Wait {seconds} seconds, then try again.", seconds=seconds), seconds)
    if not matches(w, claim.person, claim.kind, secret) or claim.person is None:
        _log(w, claim, "refused")
        seconds = max(_count(w, scope, subject) for scope, subject in subjects.items())
        raise SignInRefused(REFUSED[claim.kind], seconds)
    w.session.execute(delete(Throttle).where(Throttle.scope == "person", Throttle.subject == subjects["person"]))
    _log(w, claim, "accepted")
    return must(w, claim.person)


def _alone(w: Writing, subjects: Iterable[str]) -> None:
    """Let tries for one person or at one place be counted one after another, also by several processes."""
    if w.session.get_bind().dialect.name == "postgresql":
        for subject in sorted(subjects):
            lock = int(subject[:15], 16)
            w.session.execute(text("SELECT pg_advisory_xact_lock(:lock)"), {"lock": lock})


def _waiting(r: Reading, scope: str, subject: str) -> int:
    found = r.session.get(Throttle, (scope, subject))
    if found is None or found.until is None or found.until <= r.now():
        return 0
    return -int((r.now() - found.until) // timedelta(seconds=1))


def _count(w: Writing, scope: str, subject: str) -> int:
    patience, now = PATIENCE[scope], w.now()
    w.session.execute(delete(Throttle).where(Throttle.scope == scope, Throttle.failed_at < now - patience.forgotten))
    found = w.session.get(Throttle, (scope, subject)) or Throttle(scope=scope, subject=subject, failures=0)
    found.failures += 1
    found.failed_at = now
    wait = patience.wait(found.failures)
    found.until = now + wait if wait else None
    w.session.add(found)
    w.session.flush()
    return int(wait.total_seconds())


def _subject(r: Reading, text: str) -> str:
    return hmac.new(r.pepper, text.encode(), hashlib.sha256).hexdigest()


def _log(w: Writing, claim: Claim, outcome: str) -> None:
    place = claim.place[:LONGEST_PLACE]
    w.session.add(SignIn(at=w.now(), kind=claim.kind, place=place, person=claim.person, outcome=outcome))
