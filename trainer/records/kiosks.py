"""Enrolled kiosks: the only devices on which a badge and a PIN open anything.

An officer makes a code; typed on the device it makes that device a kiosk, once and soon. Each step is an entry in the
chain of the officer who answers for it. Rows stay, so that a kiosk's name in an old sitting can be traced.
"""

import hashlib
import hmac
import secrets
from dataclasses import dataclass
from datetime import datetime, timedelta

from sqlalchemy import func, select

from trainer.errors import Missing, RecordError, UsageError
from trainer.records import access, ledger, names
from trainer.records.chain import Entry, EntryKind
from trainer.records.models import Kiosk
from trainer.records.privacy.officers import checked_reason, must_be_officer
from trainer.records.work import Reading, Writing, new_key
from trainer.wording import say

INVITED, ENROLLED, WITHDRAWN, RAN_OUT = "invited", "enrolled", "withdrawn", "ran-out"
DIGITS = 10  # a kiosk has number keys alone; with the waits after wrong codes, enough for half an hour
CODE_FOR = timedelta(minutes=30)  # own choice: time to walk to the device


@dataclass(frozen=True, slots=True, kw_only=True)
class KioskRow:
    """One device. ``state`` is ``invited``, ``ran-out`` (its code was not used in time), ``enrolled`` or ``withdrawn``."""

    id: str
    name: str
    state: str
    invited_by: str
    invited_at: datetime
    code_until: datetime | None
    enrolled_at: datetime | None
    withdrawn_by: str | None
    withdrawn_at: datetime | None


def all_of(r: Reading) -> list[KioskRow]:
    """Return every kiosk, those in use first, then by name."""
    order = {ENROLLED: 0, INVITED: 1, RAN_OUT: 2, WITHDRAWN: 3}
    rows = [_row(r, found) for found in r.session.scalars(select(Kiosk))]
    return sorted(rows, key=lambda row: (order[row.state], names.folded(row.name), row.invited_at))


def of_token(r: Reading, token: str) -> KioskRow | None:
    """Return the enrolled kiosk that holds a token, or None."""
    query = select(Kiosk).where(Kiosk.token == _digest(token), Kiosk.withdrawn_at.is_(None))
    found = r.session.scalars(query).first()
    return None if found is None else _row(r, found)


def invite(w: Writing, name: str, *, by: str) -> str:
    """Return a code of :data:`DIGITS` digits that enrols one device under a name, once, within :data:`CODE_FOR`.

    A code of the same name that was not used works no more. Raises :class:`RecordError` for a name in use.
    """
    must_be_officer(w, by)
    plain = names.code(name, "name")
    found = _named(w, plain)
    if found is not None and found.enrolled_at is not None:
        raise RecordError(say("There is a kiosk {name} already. Choose another name, or withdraw it.", name=plain))
    kiosk = found or Kiosk(id=new_key())
    code = "".join(secrets.choice("0123456789") for _ in range(DIGITS))
    kiosk.name, kiosk.code, kiosk.code_until = plain, _mark(w, code), w.now() + CODE_FOR
    kiosk.invited_by, kiosk.invited_at = by, w.now()
    w.session.add(kiosk)
    w.session.flush()
    _enter(w, by, "kiosk-invited", plain, kiosk)
    return code


def redeem(w: Writing, code: str, *, place: str) -> str:
    """Return the token of the device that gives a code; it is a kiosk from now on.

    Raises :class:`~trainer.records.access.SignInRefused`; wrong codes make the place wait.
    """
    place = f"enrol:{place}"
    seconds = access.look_up_wait(w, place)
    if seconds:
        raise access.SignInRefused(say("Wait {seconds} seconds, then try again.", seconds=seconds), seconds)
    plain = "".join(one for one in code if one.isdigit())
    query = select(Kiosk).where(Kiosk.code == _mark(w, plain), Kiosk.withdrawn_at.is_(None)).with_for_update()
    found = w.session.scalars(query).first()
    if found is None or found.code_until is None or found.code_until < w.now():
        access.look_up_missed(w, place)
        raise access.SignInRefused("That code is wrong, or its time is over. Ask for a new one.")
    return _enrol(w, found)


def enrol_demo(w: Writing, *, by: str) -> str:
    """Enrol a browser at once, under the next free number, and return its token: for an invented plant alone."""
    count = w.session.scalar(select(func.count()).select_from(Kiosk)) or 0
    kiosk = Kiosk(id=new_key(), name=f"Demo {count + 1}", invited_by=by, invited_at=w.now())
    w.session.add(kiosk)
    w.session.flush()
    return _enrol(w, kiosk)


def rename(w: Writing, kiosk: str, name: str, *, by: str) -> Entry:
    """Give a kiosk another name. What was taken at it before keeps the old one."""
    must_be_officer(w, by)
    found, plain = _in_use(w, kiosk), names.code(name, "name")
    other = _named(w, plain)
    if other is not None:
        raise RecordError(say("There is a kiosk {name} already. Choose another name, or withdraw it.", name=plain))
    note = f"{found.name} → {plain}"
    found.name = plain
    w.session.flush()
    return _enter(w, by, "kiosk-renamed", note, found)


def withdraw(w: Writing, kiosk: str, *, by: str, reason: str) -> Entry:
    """Let a device be no kiosk any more, at once; who is signed in there is signed out. A code that waits dies too."""
    must_be_officer(w, by)
    found, why = _in_use(w, kiosk), checked_reason(reason)
    found.withdrawn_by, found.withdrawn_at, found.code = by, w.now(), None
    w.session.flush()
    return _enter(w, by, "kiosk-withdrawn", f"{found.name}: {why}", found)


def with_name(r: Reading, name: str) -> KioskRow:
    """Return the kiosk of a name that is not withdrawn; :class:`Missing` when there is none."""
    found = _named(r, name.strip())
    if found is None:
        raise Missing(say("There is no kiosk {name}.", name=name))
    return _row(r, found)


def _enrol(w: Writing, kiosk: Kiosk) -> str:
    token = secrets.token_urlsafe(32)
    kiosk.token, kiosk.enrolled_at, kiosk.code, kiosk.code_until = _digest(token), w.now(), None, None
    w.session.flush()
    _enter(w, kiosk.invited_by, "kiosk-enrolled", kiosk.name, kiosk)
    return token


def _in_use(w: Writing, kiosk: str) -> Kiosk:
    found = w.session.get(Kiosk, kiosk, with_for_update=True)
    if found is None:
        raise UsageError("Choose one of the kiosks.")
    if found.withdrawn_at is not None:
        raise RecordError(say("The kiosk {name} was withdrawn already.", name=found.name))
    return found


def _named(r: Reading, name: str) -> Kiosk | None:
    found = r.session.scalars(select(Kiosk).where(Kiosk.withdrawn_at.is_(None)))
    return next((one for one in found if names.folded(one.name) == names.folded(name)), None)


def _enter(w: Writing, by: str, event: str, note: str, kiosk: Kiosk) -> Entry:
    body = {"event": event, "note": note, "kiosk": kiosk.id}
    return ledger.append(w, by, EntryKind.EVENT, body, happened_on=w.today(), by=by)


def _row(r: Reading, kiosk: Kiosk) -> KioskRow:
    return KioskRow(
        id=kiosk.id,
        name=kiosk.name,
        state=_state(r, kiosk),
        invited_by=kiosk.invited_by,
        invited_at=kiosk.invited_at,
        code_until=kiosk.code_until,
        enrolled_at=kiosk.enrolled_at,
        withdrawn_by=kiosk.withdrawn_by,
        withdrawn_at=kiosk.withdrawn_at,
    )


def _state(r: Reading, kiosk: Kiosk) -> str:
    if kiosk.withdrawn_at is not None:
        return WITHDRAWN
    if kiosk.enrolled_at is not None:
        return ENROLLED
    return INVITED if kiosk.code_until is not None and kiosk.code_until >= r.now() else RAN_OUT


def _mark(r: Reading, code: str) -> str:
    return hmac.new(r.pepper, b"kiosk:" + code.encode(), hashlib.sha256).hexdigest()


def _digest(token: str) -> str:
    return hashlib.sha256(token.encode()).hexdigest()
