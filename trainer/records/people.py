"""People: who works here, under which names and numbers, and through which doors.

What somebody did stands in the ledger under their opaque key; this module alone knows whose key it is.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from typing import Any

from sqlalchemy import Select, or_, select
from sqlalchemy.orm import InstrumentedAttribute

from trainer.errors import Missing, RecordError, UsageError
from trainer.records import ledger, names
from trainer.records.chain import Entry, EntryKind
from trainer.records.hashing import set_password, set_pin
from trainer.records.models import Person, PersonName, PersonRole
from trainer.records.work import Reading, Writing, new_key
from trainer.wording import say

__all__ = [
    "PersonKind",
    "PersonRow",
    "add",
    "change",
    "everybody",
    "find",
    "get",
    "leave",
    "must",
    "name_on",
    "rename",
    "set_password",
    "set_pin",
    "with_number",
]

DOORS = frozenset({"learner", "trainer", "officer"})
CHANGEABLE = frozenset({"shift", "crew", "language", "kind", "agency", "badge", "login", "started", "born", "roles"})


class PersonKind(StrEnum):
    """How somebody belongs to the site."""

    EMPLOYEE = "employee"
    AGENCY = "agency"
    CONTRACTOR = "contractor"


@dataclass(frozen=True, slots=True, kw_only=True)
class PersonRow:
    """A person as they are now. ``key`` is opaque; ``roles`` are the doors that they may use."""

    key: str
    number: str
    badge: str | None
    name: str
    sort_name: str
    shift: str
    crew: str
    language: str
    kind: str
    agency: str | None
    status: str
    started: date | None
    ended: date | None
    born: date | None
    roles: frozenset[str]
    login: str | None


def add(
    w: Writing,
    *,
    number: str,
    name: str,
    sort_name: str | None = None,
    roles: Iterable[str] = ("learner",),
    badge: str | None = None,
    login: str | None = None,
    pin: str | None = None,
    password: str | None = None,
    shift: str = "",
    crew: str = "",
    language: str = "en",
    kind: str = "employee",
    agency: str | None = None,
    started: date | None = None,
    born: date | None = None,
) -> PersonRow:
    """Add a person. Names are stored as given; numbers and badges are text, zeros and all.

    Raises :class:`UsageError` for what cannot be stored and :class:`RecordError` for a number, badge or login that
    somebody active already has.
    """
    person = Person(key=new_key(), status="active", erased=False, recorded_at=w.now(), ended=None)
    person.number, person.name = names.code(number, "number"), names.checked(name)
    person.sort_name = names.checked(sort_name or name)
    _fill(person, badge=badge, login=login, shift=shift, crew=crew, language=language, kind=kind)
    _fill(person, agency=agency, started=started, born=born, roles=roles)
    _must_be_free(w, person)
    w.session.add(person)
    w.session.flush()
    _name(w, person, started or w.today())
    if pin is not None:
        set_pin(w, person.key, pin)
    if password is not None:
        set_password(w, person.key, password)
    return _row(person)


def change(w: Writing, key: str, **fields: Any) -> PersonRow:
    """Change what may change about a person without touching name, number or what they did."""
    unknown = set(fields) - CHANGEABLE
    if unknown:
        raise UsageError(say("{fields} cannot be changed this way.", fields=", ".join(sorted(unknown))))
    person = _stored(w, key)
    _fill(person, **fields)
    _must_be_free(w, person)
    w.session.flush()
    return _row(person)


def rename(
    w: Writing,
    key: str,
    *,
    name: str,
    sort_name: str | None = None,
    number: str | None = None,
    since: date | None = None,
) -> PersonRow:
    """Give a person a new name or number from a day on; what was printed before keeps the old one."""
    person = _stored(w, key)
    person.name, person.sort_name = names.checked(name), names.checked(sort_name or name)
    if number is not None:
        person.number = names.code(number, "number")
        _must_be_free(w, person)
    _name(w, person, since or w.today())
    return _row(person)


def leave(w: Writing, key: str, *, on: date, by: str, reason: str = "") -> Entry:
    """Note that a person leaves; ``on`` is the last day. The history stays, the number becomes free."""
    person = _stored(w, key)
    if person.status == "left":
        raise RecordError("This person has left already.")
    person.ended = on
    person.status = "left"
    body = {"event": "left", "last_day": on.isoformat(), "note": reason}
    return ledger.append(w, key, EntryKind.EVENT, body, happened_on=min(on, w.today()), by=by)


def get(r: Reading, key: str) -> PersonRow | None:
    """Return the person with that key, or None."""
    found = r.session.get(Person, key)
    return None if found is None else _row(found)


def must(r: Reading, key: str) -> PersonRow:
    """Return the person with that key; :class:`Missing` where there is none."""
    return _row(_stored(r, key))


def everybody(r: Reading, *, on: date | None = None) -> list[PersonRow]:
    """Return everybody who is active now, or who belonged to the site on a day, in the order of their sort names."""
    query = select(Person)
    if on is None:
        query = query.where(Person.status == "active")
    else:
        query = query.where(or_(Person.started.is_(None), Person.started <= on))
        query = query.where(or_(Person.ended.is_(None), Person.ended >= on))
    return _sorted(r.session.scalars(query))


def find(r: Reading, text: str) -> list[PersonRow]:
    """Return everybody whose present or past name, or number, or badge fits ``text``; leavers too.

    Accents, case and the kind of apostrophe do not matter in a name; a number has to be the whole number.
    """
    wanted = names.folded(text)
    if not wanted:
        return []
    like = f"%{wanted.replace('!', '!!').replace('%', '!%').replace('_', '!_')}%"
    by_name = select(PersonName.person).where(
        or_(PersonName.folded.like(like, escape="!"), PersonName.number == text.strip())
    )
    query = select(Person).where(or_(Person.key.in_(by_name), Person.badge == text.strip()))
    return _sorted(r.session.scalars(query))


def with_number(r: Reading, number: str) -> list[PersonRow]:
    """Return who has that number now; else everybody who ever had it."""
    now = r.session.scalars(select(Person).where(Person.number == number, Person.status == "active")).first()
    if now is not None:
        return [_row(now)]
    ever = select(PersonName.person).where(PersonName.number == number)
    return _sorted(r.session.scalars(select(Person).where(Person.key.in_(ever))))


def name_on(r: Reading, key: str, on: date) -> str:
    """Return the name that a person had on a day; the first known one for a day before it."""
    query = select(PersonName.name, PersonName.since).where(PersonName.person == key).order_by(PersonName.id)
    history = list(r.session.execute(query))
    then = [name for name, since in history if since <= on]
    return str(then[-1] if then else history[0].name if history else "")


def _fill(person: Person, **fields: Any) -> None:
    for field, value in fields.items():
        if field == "roles":
            person.roles = [PersonRole(role=role) for role in sorted(_doors(value))]
        elif field in {"badge", "login"} and value is not None:
            setattr(person, field, names.code(value, field))
        elif field == "kind" and value not in set(PersonKind):
            raise UsageError(
                say("{kind} is no kind of person; there are {kinds}.", kind=value, kinds=", ".join(PersonKind))
            )
        else:
            setattr(person, field, value)


def _doors(roles: Iterable[str]) -> set[str]:
    wanted = set(roles)
    if wanted - DOORS:
        raise UsageError(
            say("{roles} are no roles; there are learner, trainer, officer.", roles=", ".join(wanted - DOORS))
        )
    return wanted


def _must_be_free(w: Writing, person: Person) -> None:
    with w.session.no_autoflush:
        for field, columns in (
            ("number", (Person.number, Person.badge)),
            ("badge", (Person.badge, Person.number)),
            ("login", (Person.login,)),
        ):
            value = getattr(person, field)
            if value is not None and w.session.scalar(_others(person.key, value, columns)) is not None:
                raise RecordError(say("Somebody else has the {field} {value} already.", field=field, value=value))


def _others(key: str, value: str, columns: tuple[InstrumentedAttribute[Any], ...]) -> Select[str]:
    same = or_(*(column == value for column in columns))
    return select(Person.key).where(same, Person.status == "active", Person.key != key).limit(1)


def _name(w: Writing, person: Person, since: date) -> None:
    w.session.add(
        PersonName(
            person=person.key,
            number=person.number,
            name=person.name,
            sort_name=person.sort_name,
            folded=names.folded(person.name),
            since=since,
            recorded_at=w.now(),
        )
    )
    w.session.flush()


def _sorted(found: Iterable[Person]) -> list[PersonRow]:
    """Order people by name in the same way whatever the database thinks of letters."""
    return sorted(map(_row, found), key=lambda row: (names.order(row.sort_name), row.number, row.key))


def _stored(r: Reading, key: str) -> Person:
    found = r.session.get(Person, key)
    if found is None:
        raise Missing("The record knows no such person.")
    return found


def _row(person: Person) -> PersonRow:
    return PersonRow(
        key=person.key,
        number=person.number,
        badge=person.badge,
        name=person.name,
        sort_name=person.sort_name,
        shift=person.shift,
        crew=person.crew,
        language=person.language,
        kind=person.kind,
        agency=person.agency,
        status=person.status,
        started=person.started,
        ended=person.ended,
        born=person.born,
        roles=frozenset(role.role for role in person.roles),
        login=person.login,
    )
