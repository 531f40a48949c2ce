"""Who may come through desk and office: roles given and withdrawn, secrets handed out, sessions ended.

Each act is an entry in the chain of the person whom it concerns, with its author and reason. Nobody does it to
themselves, and the last officer who can sign in stays one, so that the record is never left without a keeper.
"""

import secrets
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from sqlalchemy import func, or_, select

from trainer.errors import NotEntitled, RecordError, UsageError
from trainer.records import heads, ledger, people, sessions
from trainer.records.chain import Entry, EntryKind
from trainer.records.hashing import PASSWORD, PIN, easily_guessed, lend, matches, set_password, set_pin
from trainer.records.models import Person, PersonRole, Secret, SignIn, WebSession
from trainer.records.people import PersonRow
from trainer.records.privacy.officers import checked_reason, must_be_officer, not_erased
from trainer.records.work import Reading, Writing
from trainer.wording import say

OFFICER = "officer"
GIVEN = ("trainer", OFFICER)
ROLE_GIVEN, ROLE_WITHDRAWN = "role-given", "role-withdrawn"
PASSWORD_LENT, PIN_RESET, SESSIONS_ENDED = "password-lent", "pin-reset", "sessions-ended"
LENT_FOR = timedelta(hours=72)  # own choice: long enough for a weekend, too short to lie about
LETTERS = "abcdefghjkmnpqrstuvwxyz23456789"  # none that is misread when written down
GROUPS, GROUP = 5, 4  # 20 letters of 31: 99 bits


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """A role that somebody has: since when, by whom and by which entry; all None where no entry says so."""

    role: str
    since: date | None
    by: str | None
    entry: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class User:
    """A person, their doors and what opens them.

    ``password_at`` and ``pin_at`` are when the secret was set, None without one; ``lent_until`` is filled while a
    one-time password waits for its first use. ``last`` is the last time they came in, as far as the log goes back;
    ``open`` how many sessions have not ended.
    """

    person: PersonRow
    held: tuple[Held, ...]
    password_at: datetime | None
    lent_until: datetime | None
    pin_at: datetime | None
    last: datetime | None
    open: int


def users(r: Reading) -> list[User]:
    """Return everybody here who has a login or a role beyond the kiosk's, by name."""
    keys = set(r.session.scalars(select(Person.key).where(Person.login.is_not(None), people.here(r))))
    keys |= set(r.session.scalars(select(PersonRole.person).where(PersonRole.role.in_(GIVEN))))
    found = [row for row in people.everybody(r) if row.key in keys]
    return [user(r, row.key) for row in found]


def user(r: Reading, key: str) -> User:
    """Return one person as a user; :class:`~trainer.errors.Missing` for an unknown one."""
    person = people.must(r, key)
    kept = {row.kind: row for row in r.session.scalars(select(Secret).where(Secret.person == key))}
    password, pin = kept.get(PASSWORD), kept.get(PIN)
    accepted = select(func.max(SignIn.at)).where(SignIn.person == key, SignIn.outcome == "accepted")
    still = select(func.count()).where(WebSession.person == key, WebSession.ended_at.is_(None))
    return User(
        person=person,
        held=_held(ledger.entries(r, person=key, kind=EntryKind.EVENT), person),
        password_at=password.changed_at if password else None,
        lent_until=password.lent_until if password else None,
        pin_at=pin.changed_at if pin else None,
        last=r.session.scalar(accepted),
        open=r.session.scalar(still) or 0,
    )


def give_role(w: Writing, person: str, role: str, *, by: str, reason: str) -> Entry:
    """Give somebody a role. They need a login and a password before it opens a door."""
    found = _other(w, person, by)
    if role not in GIVEN:
        raise UsageError(say("{role} is no role that can be given; there are {roles}.", role=role, roles=_told(GIVEN)))
    if role in found.roles:
        raise RecordError(say("{number} has this role already.", number=found.number))
    why = checked_reason(reason)
    people.change(w, person, roles=found.roles | {role})
    return _enter(w, person, ROLE_GIVEN, by, why, role=role)


def withdraw_role(w: Writing, person: str, role: str, *, by: str, reason: str) -> Entry:
    """Take a role from somebody and end their sessions. The last officer who can sign in keeps the role."""
    found = _other(w, person, by)
    if role not in found.roles or role not in GIVEN:
        raise RecordError(say("{number} does not have this role.", number=found.number))
    if role == OFFICER and not _officers(w) - {person}:
        raise RecordError("This is the last records officer who can sign in. Make somebody else one first.")
    why = checked_reason(reason)
    people.change(w, person, roles=found.roles - {role})
    sessions.end_all(w, person)
    return _enter(w, person, ROLE_WITHDRAWN, by, why, role=role)


def lend_password(w: Writing, person: str, *, login: str, by: str, reason: str) -> str:
    """Return a new password that works once: at the first sign-in the person chooses their own.

    It is good for :data:`LENT_FOR`; sessions end. ``login`` may be empty where there is one already.
    """
    found = _other(w, person, by)
    if not found.roles & set(GIVEN):
        raise RecordError("Give a role first; without one a password opens nothing.")
    if not (login.strip() or found.login):
        raise UsageError("Write the login that this person will use.")
    why = checked_reason(reason)
    if login.strip() and login.strip() != found.login:
        people.change(w, person, login=login.strip())
    password = "-".join("".join(secrets.choice(LETTERS) for _ in range(GROUP)) for _ in range(GROUPS))
    lend(w, person, password, until=w.now() + LENT_FOR)
    sessions.end_all(w, person)
    _enter(w, person, PASSWORD_LENT, by, why)
    return password


def change_password(w: Writing, person: str, password: str) -> None:
    """Let a person choose a password in place of the one that was handed out, and end the session that this took.

    Raises :class:`UsageError` for one that is easily guessed or is the one that was handed out.
    """
    if matches(w, person, PASSWORD, password):
        raise UsageError("That is the password that was handed out; choose one of your own.")
    set_password(w, person, password)
    sessions.end_all(w, person)


def reset_pin(w: Writing, person: str, *, by: str, reason: str) -> str:
    """Return a new PIN of six digits for the kiosk; the old one is worth nothing from now on."""
    found = _other(w, person, by)
    why = checked_reason(reason)
    pin = _drawn(found)
    set_pin(w, person, pin)
    sessions.end_all(w, person)
    _enter(w, person, PIN_RESET, by, why)
    return pin


def end_sessions(w: Writing, person: str, *, by: str, reason: str) -> Entry:
    """End every session of somebody, at kiosk, desk and office."""
    _other(w, person, by)
    why = checked_reason(reason)
    sessions.end_all(w, person)
    return _enter(w, person, SESSIONS_ENDED, by, why)


def _other(w: Writing, person: str, by: str) -> PersonRow:
    """Return the person concerned, who is here and is not the officer who acts."""
    heads.alone(w)  # two officers who act on each other do so one after the other
    must_be_officer(w, by)
    found = not_erased(people.must(w, person))
    if person == by:
        raise NotEntitled("Nobody changes their own roles, secrets or sessions here; ask another records officer.")
    if found.status != people.ACTIVE:
        raise RecordError("This person has left; nothing opens for them any more.")
    return found


def _officers(r: Reading) -> set[str]:
    """Return the officers who are here and have a login and a password that opens: none whose one use ran out."""
    query = (
        select(Person.key)
        .join(PersonRole, PersonRole.person == Person.key)
        .join(Secret, (Secret.person == Person.key) & (Secret.kind == PASSWORD))
        .where(PersonRole.role == OFFICER, Person.login.is_not(None), people.here(r))
        .where(or_(Secret.lent_until.is_(None), Secret.lent_until >= r.now()))
    )
    return set(r.session.scalars(query))


def _drawn(person: PersonRow) -> str:
    while True:
        pin = "".join(secrets.choice("0123456789") for _ in range(6))
        if not easily_guessed(pin) and pin not in {person.number, person.badge} and not person.number.endswith(pin):
            return pin


def _held(events: Iterable[Entry], person: PersonRow) -> tuple[Held, ...]:
    newest = {each.body["role"]: each for each in events if each.body["event"] in {ROLE_GIVEN, ROLE_WITHDRAWN}}
    return tuple(_one(role, newest.get(role)) for role in GIVEN if role in person.roles)


def _one(role: str, entry: Entry | None) -> Held:
    if entry is None or entry.body["event"] != ROLE_GIVEN:
        return Held(role=role, since=None, by=None, entry=None)
    return Held(role=role, since=entry.happened_on, by=entry.by, entry=entry.number)


def _enter(w: Writing, person: str, event: str, by: str, why: str, **more: str) -> Entry:
    body = {"event": event, "note": why, **more}
    return ledger.append(w, person, EntryKind.EVENT, body, happened_on=w.today(), by=by)


def _told(words: Iterable[str]) -> str:
    return ", ".join(words)
