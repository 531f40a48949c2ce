"""PINs and passwords: which are refused, how they are hashed and checked.

Argon2id. A PIN is hashed with the OWASP minimum (19456 KiB, 2 passes, 1 lane; OWASP Password Storage Cheat Sheet,
2025), so that a kiosk answers at once; a password with the library's own, heavier setting (RFC 9106, 2021, second
recommended option). Both are first mixed with a key that is not in the database.
"""

import re
import unicodedata
from datetime import datetime
from itertools import pairwise

from argon2 import PasswordHasher
from argon2.exceptions import InvalidHashError, VerificationError
from sqlalchemy import delete, select

from trainer.errors import Missing, RecordError, UsageError
from trainer.records import pepper
from trainer.records.models import Person, Secret
from trainer.records.work import Reading, Writing
from trainer.wording import say

PIN, PASSWORD = "pin", "password"
HASHERS = {PIN: PasswordHasher(time_cost=2, memory_cost=19456, parallelism=1), PASSWORD: PasswordHasher()}
NOBODYS = {  # hashes of random secrets that nobody has: checked, at the same cost, for people who are not there
    PIN: "$argon2id$v=19$m=19456,t=2,p=1$H0rYV3q7W3ZMbjs8bj1sjA$MMm1NmIn/ExWmiw7TypViwELu/kpinIo4Fs7k/rKRDU",
    PASSWORD: "$argon2id$v=19$m=65536,t=3,p=4$98QrxwXKVwYHbGmmf+r/lQ$oqhTMEUlLp/CAFbDMQ+x7HjkKb1r4xHu27wVKVDJ9+M",
}
SHORTEST_PASSWORD, LONGEST_PASSWORD = 15, 256  # NIST SP 800-63B-4 (2025): 15 where it is the only proof
COMMON_PINS = frozenset(
    [
        "0852",
        "1004",
        "1024",
        "1234",
        "1379",
        "1397",
        "2580",
        "4321",
        "5683",
        "6969",
        "7410",
        "8520",
        "9876",
        "1230",
        "0123",
        "147258",
        "159753",
    ]
)


def set_pin(w: Writing, person: str, pin: str) -> None:
    """Give a person a PIN of 4 to 8 digits; :class:`UsageError` for one that is easily guessed."""
    found = _person(w, person)
    if not re.fullmatch(r"[0-9]{4,8}", pin):
        raise UsageError("A PIN has 4 to 8 digits.")
    if easily_guessed(pin) or pin in {found.number, found.badge} or found.number.endswith(pin):
        raise UsageError("That PIN is too easy to guess; choose another.")
    _keep(w, person, PIN, pin)


def set_password(w: Writing, person: str, password: str) -> None:
    """Give a person a password; :class:`UsageError` for one that is too short, too long or easily guessed."""
    found = _person(w, person)
    plain = normal(password)
    if not SHORTEST_PASSWORD <= len(plain) <= LONGEST_PASSWORD:
        raise UsageError(
            say("A password has {least} to {most} characters.", least=SHORTEST_PASSWORD, most=LONGEST_PASSWORD)
        )
    folded = plain.casefold()
    named = [part for part in (found.login, found.name, found.number) if part]
    left = re.sub("|".join(re.escape(part.casefold()) for part in named), "", folded)
    if len(set(folded)) < 5 or len(left) < SHORTEST_PASSWORD // 2:
        raise UsageError("That password is too easy to guess; choose another.")
    _keep(w, person, PASSWORD, plain)


def lend(w: Writing, person: str, password: str, *, until: datetime) -> None:
    """Give a person a password to come in with once; by ``until`` they have to have chosen their own."""
    _person(w, person)
    _keep(w, person, PASSWORD, normal(password), lent_until=until)


def is_lent(r: Reading, person: str) -> bool:
    """Say whether a person's password was handed out and waits for one of their own."""
    query = select(Secret.lent_until).where(Secret.person == person, Secret.kind == PASSWORD)
    return r.session.scalar(query) is not None


def easily_guessed(pin: str) -> bool:
    """Say whether a PIN is a run, a repeat, a year or another that many people take."""
    steps = {(int(b) - int(a)) % 10 for a, b in pairwise(pin)}
    run = steps in ({0}, {1}, {9})
    repeat = any(pin == pin[:n] * (len(pin) // n) for n in range(1, len(pin) // 2 + 1) if len(pin) % n == 0)
    year = re.fullmatch(r"(19|20)[0-9]{2}", pin) is not None
    return run or repeat or year or pin in COMMON_PINS


def forget(w: Writing, person: str) -> None:
    """Take every secret of a person out."""
    w.session.execute(delete(Secret).where(Secret.person == person))


def matches(r: Reading, person: str | None, kind: str, given: str) -> bool:
    """Say whether ``given`` is the person's secret. Works as long for an unknown person as for a known one."""
    query = select(Secret.hash, Secret.lent_until).where(Secret.person == (person or ""), Secret.kind == kind)
    found = r.session.execute(query).first()
    stored = None if found is None else found.hash
    given = normal(given)[:LONGEST_PASSWORD]
    try:
        HASHERS[kind].verify(stored or NOBODYS[kind], pepper.mixed(r.pepper, given))
    except (VerificationError, InvalidHashError):
        return False
    return found is not None and (found.lent_until is None or r.now() <= found.lent_until)


def normal(secret: str) -> str:
    """Return a secret in one form, however its letters were composed (Unicode NFKC)."""
    return unicodedata.normalize("NFKC", secret)


def _keep(w: Writing, person: str, kind: str, secret: str, *, lent_until: datetime | None = None) -> None:
    made = Secret(person=person, kind=kind, changed_at=w.now(), lent_until=lent_until)
    made.hash, made.pepper = HASHERS[kind].hash(pepper.mixed(w.pepper, secret)), pepper.name_of(w.pepper)
    w.session.execute(delete(Secret).where(Secret.person == person, Secret.kind == kind))
    w.session.add(made)
    w.session.flush()


def _person(r: Reading, person: str) -> Person:
    found = r.session.get(Person, person)
    if found is None:
        raise Missing("The record knows no such person.")
    if found.erased:
        raise RecordError("The identity of this person was taken out of the record.")
    return found
