"""What a certificate or a card claims, and the short code by which anybody can ask whether it still holds.

A code is 60 bits of HMAC-SHA-256 under the record's own key, so it can neither be worked out nor guessed, and nothing
has to be kept for it: half of it stands for the person under the name that was printed, half for the whole claim.
Whoever asks learns the name as printed, the kind of machine, the role and today's state. An unknown code takes as many
steps as one whose person is known.
"""

import hmac
from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

import rfc8785

from trainer.bank import Bank
from trainer.exports.about import LENGTH, SIGNS, grouped
from trainer.records import Reading, machines
from trainer.records.conditions import StandingWord
from trainer.records.history import NameBook
from trainer.records.machines import MachineRow
from trainer.records.standing import roles_at, standing
from trainer.records.verifying import chain_holds

HALF = LENGTH // 2  # signs
MISREAD = str.maketrans({"O": "0", "I": "1", "L": "1"})
NOBODY = ("", "")


class State(StrEnum):
    """What can be said of a claim today. Unknown is never authorised."""

    AUTHORISED = "authorised"
    NOT = "not-authorised"
    UNKNOWN = "unknown"


@dataclass(frozen=True, slots=True, kw_only=True)
class Claim:
    """That a person (a key), under a name, may do the work of a role at a machine."""

    person: str
    name: str
    machine: str
    role: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """What anybody may learn who has a code."""

    name: str
    kind: str
    role: str
    state: State


def code_of(r: Reading, claim: Claim) -> str:
    """Return the code of a claim as it is printed: ``7QK4-M2XD-0F9B``."""
    who = _signs(r.pepper, "who", claim.person, claim.name)
    return grouped(who + _signs(r.pepper, "what", claim.person, claim.name, claim.machine, claim.role))


def look_up(r: Reading, bank: Bank, code: str) -> Shown | None:
    """Return what a code shows today, or None for one that is none of ours; O, I and L are read as 0 and 1."""
    wanted = plain(code)
    half = wanted[:HALF]
    who = [
        (key, one.name) for key, one in NameBook(r).everybody() if _same(_signs(r.pepper, "who", key, one.name), half)
    ]
    found: list[tuple[Claim, MachineRow]] = []
    for key, name in dict.fromkeys(who or [NOBODY]):
        for machine, role in _places(r, bank):
            claim = Claim(person=key, name=name, machine=machine.id, role=role)
            if _same(plain(code_of(r, claim)), wanted) and key:
                found.append((claim, machine))
    if len(found) != 1:
        return None
    ((claim, machine),) = found
    return Shown(name=claim.name, kind=machine.kind, role=claim.role, state=_state(r, bank, claim, machine))


def plain(code: str) -> str:
    """Return the signs of a code as it was typed; all zeros for what cannot be one."""
    signs = "".join(sign for sign in code.upper() if sign.isalnum()).translate(MISREAD)
    good = len(signs) == LENGTH and set(signs) <= set(SIGNS)
    return signs if good else SIGNS[0] * LENGTH


def _places(r: Reading, bank: Bank) -> Iterator[tuple[MachineRow, str]]:
    for machine in machines.all_machines(r):
        for role in roles_at(bank, machine.kind):
            yield machine, role


def _state(r: Reading, bank: Bank, claim: Claim, machine: MachineRow) -> State:
    """Return the state today; unknown while the person's entries are not as they were written, or nothing is known."""
    if not machine.in_use or not chain_holds(r, claim.person):
        return State.UNKNOWN
    found = standing(r, bank, person=claim.person, machine=claim.machine, role=claim.role, on=r.today())
    if found.may_run:
        return State.AUTHORISED
    return State.UNKNOWN if found.word is StandingWord.NO_EVIDENCE and not found.reasons else State.NOT


def _signs(key: bytes, *parts: str) -> str:
    number = int.from_bytes(hmac.digest(key, b"claim:" + rfc8785.dumps(list(parts)), "sha256")) >> 256 - HALF * 5
    return "".join(SIGNS[(number >> 5 * place) & 31] for place in reversed(range(HALF)))


def _same(one: str, other: str) -> bool:
    return hmac.compare_digest(one, other)
