"""Who judged practice, and by what right: the rights that each evaluator ever had, and what they signed."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from trainer.records import ledger
from trainer.records.chain import Entry, EntryKind
from trainer.records.effects import Fact, facts
from trainer.records.entitlements import JUDGE, entitling, right_of
from trainer.records.work import Reading

CHANGING = (EntryKind.CORRECTED, EntryKind.MOVED)


class State(StrEnum):
    """How a right to judge stands on a day."""

    IN_FORCE = "in-force"
    TO_COME = "to-come"
    EXPIRED = "expired"
    REVOKED = "revoked"


@dataclass(frozen=True, slots=True, kw_only=True)
class Right:
    """A right to judge: for what, on what basis, from when until when, who gave it, and how it stands.

    ``revoked`` is the entry that ended it before its time, None where nothing did.
    """

    entry: int
    machine_kinds: tuple[str, ...]
    roles: tuple[str, ...]
    basis: str
    valid_from: date
    valid_to: date
    by: str
    revoked: int | None
    state: State


@dataclass(frozen=True, slots=True, kw_only=True)
class Signed:
    """A practical that somebody signed.

    ``right`` is the entry that entitled them on that day as the record reads now, None without one; ``counts`` is false
    where a correction took the practical back or moved it to somebody else.
    """

    entry: Entry
    right: int | None
    counts: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Judge:
    """An evaluator: their rights, the newest first, and what they signed, the newest first."""

    person: str
    rights: tuple[Right, ...]
    signed: tuple[Signed, ...]

    @property
    def in_force(self) -> bool:
        """Say whether any right is in force."""
        return any(right.state is State.IN_FORCE for right in self.rights)

    @property
    def without_right(self) -> tuple[Signed, ...]:
        """Return what was signed on a day for which no right is on record."""
        return tuple(one for one in self.signed if one.right is None)


def judges(r: Reading, on: date) -> list[Judge]:
    """Return everybody who has or had a right to judge, or who signed a practical, up to a day; in no order."""
    entitled = dict(ledger.chains(r, kinds=(EntryKind.ENTITLED, *CHANGING)))
    rights = {person: facts(rows) for person, rows in entitled.items()}
    signed: dict[str, list[Signed]] = defaultdict(list)
    for _person, rows in ledger.chains(r, kinds=(EntryKind.PRACTICAL_SIGNED, *CHANGING)):
        counted = {number for fact in facts(rows) for number in fact.numbers if fact.number == fact.numbers[0]}
        for row in rows:
            if row.kind is EntryKind.PRACTICAL_SIGNED and row.happened_on <= on:
                signed[row.body["evaluator"]].append(_signed(row, rights, counts=row.number in counted))
    found = {person for person, known in rights.items() if any(_is_right(fact) for fact in known)} | set(signed)
    return [
        Judge(
            person=person,
            rights=tuple(_rights(rights.get(person, ()), on)),
            signed=tuple(
                sorted(signed[person], key=lambda one: (one.entry.happened_on, one.entry.number), reverse=True)
            ),
        )
        for person in found
    ]


def _signed(row: Entry, rights: Mapping[str, list[Fact]], *, counts: bool) -> Signed:
    body = row.body
    found = entitling(rights.get(body["evaluator"], ()), body["machine_kind"], body["role"], row.happened_on)
    return Signed(entry=row, right=None if found is None else found.number, counts=counts)


def _is_right(fact: Fact) -> bool:
    return fact.kind is EntryKind.ENTITLED and "revokes" not in fact.body and right_of(fact) == JUDGE


def _rights(known: Iterable[Fact], on: date) -> list[Right]:
    rows = list(known)
    ended = {fact.body["revokes"]: fact for fact in rows if "revokes" in fact.body and fact.on <= on}
    made = [
        _right(fact, next((ended[number] for number in fact.numbers if number in ended), None), on)
        for fact in rows
        if _is_right(fact) and fact.on <= on
    ]
    return sorted(made, key=lambda right: (right.valid_from, right.entry), reverse=True)


def _right(fact: Fact, ended: Fact | None, on: date) -> Right:
    begins = date.fromisoformat(fact.body.get("valid_from", fact.on.isoformat()))
    ends = date.fromisoformat(fact.body["valid_to"])
    if ended is not None:
        state = State.REVOKED
    elif on < begins or not fact.trusted:  # one whose day is in doubt is not in force until it is confirmed
        state = State.TO_COME
    else:
        state = State.IN_FORCE if on <= ends else State.EXPIRED
    return Right(
        entry=fact.number,
        machine_kinds=tuple(fact.body["machine_kinds"]),
        roles=tuple(fact.body["roles"]),
        basis=fact.body["basis"],
        valid_from=begins,
        valid_to=ends,
        by=fact.by,
        revoked=None if ended is None else ended.number,
        state=state,
    )
