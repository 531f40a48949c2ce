"""People: who works here, under which names and numbers, and through which doors.

What somebody did stands in the ledger under their opaque key; this module alone knows whose key it is.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from typing import Any

from sqlalchemy import ColumnElement, Select, or_, select, update
from sqlalchemy.orm import InstrumentedAttribute, subqueryload

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
    "all_people",
    "change",
    "come_back",
    "everybody",
    "everyone",
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

ACTIVE, LEFT = "active", "left"
TOGETHER = 500  # keys in one question to the database
DOORS = frozenset({"learner", "trainer", "officer"})
CHANGEABLE = frozenset({"shift", "crew", "language", "kind", "agency", "badge", "login", "started", "born", "roles"})


class PersonKind(StrEnum):
    """How somebody belongs to the site."""

    EMPLOYEE = "employee"
    AGENCY = "agency"
    CONTRACTOR = "contractor"


@dataclass(frozen=True, slots=True, kw_only=True)
class PersonRow:
    """A person as they are now. ``key`` is opaque; ``roles`` are the doors that they may use.

    ``erased`` says that name and number were taken out and what stands in their place says nothing about anybody.
    """

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
    erased: bool = False


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
    person = Person(key=new_key(), status=ACTIVE, erased=False, recorded_at=w.now(), ended=None)
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
    return _row(w, person)


def change(w: Writing, key: str, **fields: Any) -> PersonRow:
    """Change what may change about a person without touching name, number or what they did."""
    unknown = set(fields) - CHANGEABLE
    if unknown:
        raise UsageError(say("{fields} cannot be changed this way.", fields=", ".join(sorted(unknown))))
    person = _changeable(w, key)
    _fill(person, **fields)
    _must_be_free(w, person)
    w.session.flush()
    return _row(w, person)


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
    person = _changeable(w, key)
    person.name, person.sort_name = names.checked(name), names.checked(sort_name or name)
    if number is not None:
        person.number = names.code(number, "number")
        _must_be_free(w, person)
    _name(w, person, since or w.today())
    return _row(w, person)


def leave(w: Writing, key: str, *, on: date, by: str, reason: str = "") -> Entry:
    """Note that a person leaves; ``on`` is the last day, and they are here until it is over.

    The history stays; the number becomes free.
    """
    person = _changeable(w, key)
    if person.ended is not None:
        raise RecordError(say("This person leaves, or left, on {day}.", day=person.ended.isoformat()))
    person.ended = on
    w.session.flush()
    _let_go(w)
    body = {"event": "left", "last_day": on.isoformat(), "note": reason}
    return ledger.append(w, key, EntryKind.EVENT, body, happened_on=min(on, w.today()), by=by)


def come_back(w: Writing, key: str, *, on: date, by: str, reason: str = "") -> Entry:
    """Note that a person who had left is back from a day on; what was shown before has to be renewed.

    Raises :class:`RecordError` when the old number, badge or login is somebody else's by now.
    """
    person = _changeable(w, key)
    if person.ended is None:
        raise RecordError("This person has not left.")
    person.ended, person.status = None, ACTIVE
    _must_be_free(w, person)
    return ledger.append(w, key, EntryKind.EVENT, {"event": "returned", "note": reason}, happened_on=on, by=by)


def get(r: Reading, key: str) -> PersonRow | None:
    """Return the person with that key, or None."""
    found = r.session.get(Person, key)
    return None if found is None else _row(r, found)


def among(r: Reading, keys: Iterable[str]) -> dict[str, PersonRow]:
    """Return those of ``keys`` that are people's, leavers too: one question to the database for every 500 of them."""
    wanted = sorted(set(keys))
    found: dict[str, PersonRow] = {}
    for start in range(0, len(wanted), TOGETHER):
        query = select(Person).where(Person.key.in_(wanted[start : start + TOGETHER]))
        found |= {one.key: _row(r, one) for one in r.session.scalars(query)}
    return found


def must(r: Reading, key: str) -> PersonRow:
    """Return the person with that key; :class:`Missing` where there is none."""
    return _row(r, _stored(r, key))


def here(r: Reading, on: date | None = None) -> ColumnElement[bool]:
    """Return the condition that a person's last day is not over on a day, or now."""
    return or_(Person.ended.is_(None), Person.ended >= (on or r.today()))


def everybody(r: Reading, *, on: date | None = None) -> list[PersonRow]:
    """Return everybody who is active now, or who belonged to the site on a day, in the order of their sort names."""
    query = _whole().where(here(r, on))
    if on is not None:
        query = query.where(or_(Person.started.is_(None), Person.started <= on))
    return _sorted(r, r.session.scalars(query))


def everyone(r: Reading, on: date) -> list[PersonRow]:
    """Return everybody whose first day had come on a day, also who has left since; the ledger says who had by then."""
    return _sorted(r, r.session.scalars(_whole().where(or_(Person.started.is_(None), Person.started <= on))))


def all_people(r: Reading) -> list[PersonRow]:
    """Return everybody who was ever on the roster, leavers too."""
    return _sorted(r, r.session.scalars(_whole()))


def _whole() -> Select[Person]:
    """Return the question for people whose roles come with one more, however many people there are."""
    return select(Person).options(subqueryload(Person.roles))


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
    return _sorted(r, r.session.scalars(query))


def with_number(r: Reading, number: str) -> list[PersonRow]:
    """Return who has that number now; else everybody who ever had it."""
    now = r.session.scalars(select(Person).where(Person.number == number, here(r))).first()
    if now is not None:
        return [_row(r, now)]
    ever = select(PersonName.person).where(PersonName.number == number)
    return _sorted(r, r.session.scalars(select(Person).where(Person.key.in_(ever))))


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
        elif field in {"shift", "crew", "language", "agency"} and value is not None:
            setattr(person, field, names.short(value, field))
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


def _let_go(w: Writing) -> None:
    """Free the numbers of those whose last day is over."""
    w.session.execute(update(Person).where(Person.status == ACTIVE, Person.ended < w.today()).values(status=LEFT))


def _must_be_free(w: Writing, person: Person) -> None:
    columns = {
        "number": (Person.number, Person.badge),
        "badge": (Person.badge, Person.number),
        "login": (Person.login,),
    }
    with w.session.no_autoflush:
        _let_go(w)
        for field, places in columns.items():
            value = getattr(person, field)
            if value is not None and w.session.scalar(_others(person.key, value, places)) is not None:
                raise RecordError(say("Somebody else has the {field} {value} already.", field=field, value=value))


def _others(key: str, value: str, columns: tuple[InstrumentedAttribute[Any], ...]) -> Select[str]:
    same = or_(*(column == value for column in columns))
    return select(Person.key).where(same, Person.status == ACTIVE, Person.key != key).limit(1)


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


def _sorted(r: Reading, found: Iterable[Person]) -> list[PersonRow]:
    """Order people by name in the same way whatever the database thinks of letters."""
    return sorted(
        (_row(r, person) for person in found), key=lambda row: (names.order(row.sort_name), row.number, row.key)
    )


def _changeable(w: Writing, key: str) -> Person:
    found = _stored(w, key)
    if found.erased:
        raise RecordError("The identity of this person was taken out of the record.")
    return found


def _stored(r: Reading, key: str) -> Person:
    found = r.session.get(Person, key)
    if found is None:
        raise Missing("The record knows no such person.")
    return found


def _row(r: Reading, person: Person) -> PersonRow:
    gone = person.ended is not None and person.ended < r.today()
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
        status=LEFT if gone else ACTIVE,
        started=person.started,
        ended=person.ended,
        born=person.born,
        roles=frozenset(role.role for role in person.roles),
        login=person.login,
        erased=person.erased,
    )
