"""Single changes to a record by chance, as somebody makes them who may do everything in the database."""

import random
from collections.abc import Callable
from dataclasses import dataclass, fields, replace
from datetime import timedelta

from records.site import TODAY
from sqlalchemy import text
from sqlalchemy.exc import IntegrityError

from trainer.clock import FixedClock
from trainer.errors import UsageError
from trainer.findings import Report
from trainer.records import Record, heads, ledger
from trainer.records.chain import START, EntryKind, Row, digest_of
from trainer.records.checkpoints import Checkpoint
from trainer.records.checkpoints import digest_of as checkpoint_digest
from trainer.records.rawrows import End, raw_checkpoints, raw_entries, raw_heads
from trainer.records.tree import EMPTY

TABLES = {Row: "entry", Checkpoint: "checkpoint", End: "head"}
IDENTITY = {Row: "number", Checkpoint: "number", End: "chain"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """What is done, and the keys by which it has to be named: at least one of each group."""

    said: str
    statements: tuple[str, ...] = ()
    back: timedelta | None = None
    named: tuple[frozenset[str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """What a record holds before anything is changed. ``bare`` is a person without an entry."""

    dialect: str
    entries: list[Row]
    checkpoints: list[Checkpoint]
    heads: list[End]
    bare: str

    @property
    def everything(self) -> list[Row | Checkpoint | End]:
        return [*self.entries, *self.checkpoints, *self.heads]

    def last(self, person: str) -> Row:
        return [row for row in self.entries if row.person == person][-1]


def held(record: Record, bare: str) -> Held:
    with record.reading() as r:
        return Held(
            dialect=record.engine.dialect.name,
            entries=list(raw_entries(r)),
            checkpoints=list(raw_checkpoints(r)),
            heads=list(raw_heads(r)),
            bare=bare,
        )


def byte_flipped(before: Held, chance: random.Random) -> Change:
    """One byte of one column of an entry, a checkpoint or a head becomes another byte."""
    kind = chance.choice([Row, Row, Checkpoint, End])
    row = chance.choice([each for each in before.everything if isinstance(each, kind)])
    column = chance.choice([field.name for field in fields(kind) if str(getattr(row, field.name))])
    data = bytearray(str(getattr(row, column)).encode())
    place = chance.randrange(len(data))
    data[place] ^= chance.randrange(1, 256) if chance.random() < 0.3 else 1 << chance.randrange(5)
    change = f'UPDATE {TABLES[kind]} SET "{column}" = {_bytes(before, bytes(data), column, kind)} WHERE {_is(row)}'
    new = int(data) if column == "seq" and data.isdigit() else -1
    said = f"byte {place} of {column} of {_name(row)}: {bytes(data)!r}"
    return Change(said=said, statements=(change,), named=_names(before, row, new))


def row_removed(before: Held, chance: random.Random) -> Change:
    kind = chance.choice([Row, Row, Checkpoint, End])
    row = chance.choice([each for each in before.everything if isinstance(each, kind)])
    return Change(said=f"{_name(row)} removed", statements=(_removal(row),), named=_names(before, row))


def rows_swapped(before: Held, chance: random.Random) -> Change:
    """Two entries or two checkpoints change places, or the values of one column."""
    one, other = chance.sample(chance.choice([before.entries, before.entries, before.checkpoints]), 2)
    columns = [field.name for field in fields(one) if getattr(one, field.name) != getattr(other, field.name)]
    column = chance.choice(["number", *columns])
    left = replace(one, **{column: getattr(other, column)})
    right = replace(other, **{column: getattr(one, column)})
    statements = (_removal(one), _removal(other), insertion(left), insertion(right))
    said = f"{column} of {_name(one)} and {_name(other)} swapped"
    named = tuple(frozenset({_name(row)}) for row in (one, other))
    return Change(said=said, statements=statements, named=named)


def row_inserted(before: Held, chance: random.Random) -> Change:
    return chance.choice([_entry_inserted, _entry_inserted, _checkpoint_inserted, _head_inserted])(before, chance)


def person_removed(before: Held, chance: random.Random) -> Change:
    """All that there is about a person goes, or the person alone, or the entries alone."""
    key = chance.choice(sorted({row.person for row in before.entries}))
    mine = [row for row in before.entries if row.person == key]
    gone = [f"DELETE FROM entry WHERE person = '{key}'"]
    alone = [f"DELETE FROM {table} WHERE person = '{key}'" for table in ("person_name", "person_role")]
    alone.append(f"DELETE FROM person WHERE key = '{key}'")
    extent = chance.choice(["whole", "whole", "entries", "identity"])
    statements = {
        "whole": [*gone, *alone, f"DELETE FROM head WHERE chain = '{key}'"],
        "entries": gone,
        "identity": alone,
    }[extent]
    named = [frozenset({_name(row)}) for row in (mine[-1:] if extent == "identity" else mine)]
    return Change(said=f"person {key}: {extent} removed", statements=tuple(statements), named=tuple(named))


def clock_set_back(before: Held, chance: random.Random) -> Change:
    """The clock is set back by more than the five minutes that keeping it right may take, and something is recorded."""
    back = timedelta(minutes=6) + timedelta(seconds=chance.randrange(3 * 365 * 86_400))
    return Change(said=f"clock set back by {back}", back=back, named=(frozenset({_key(len(before.entries) + 1)}),))


ACTS: tuple[Callable[[Held, random.Random], Change], ...] = (
    byte_flipped,
    row_removed,
    rows_swapped,
    row_inserted,
    person_removed,
    clock_set_back,
)


def verified(record: Record, clock: FixedClock, before: Held, change: Change) -> Report | None:
    """Verify the record with a change in it, then take the change back; None when the database itself refuses it."""
    try:
        with record.writing() as w:
            connection = w.session.connection()
            for statement in (*unguarded(connection), *change.statements):
                connection.execute(text(statement.replace(":", "\\:")))
            if change.back is not None:
                clock.advance(-change.back)
                body = {"topic": "Loose pedals", "presenter": "x"}
                person = before.entries[0].person
                ledger.append(w, person, EntryKind.ATTENDED, body, happened_on=TODAY, by="office")
            report = ledger.verify(w)
            w.session.rollback()
    except (IntegrityError, UsageError):
        return None
    finally:
        if change.back is not None:
            clock.advance(change.back)
    return report


def unguarded(connection) -> list[str]:
    """Return what keeps the guards from acting in this transaction, without taking them away."""
    if connection.dialect.name == "postgresql":
        return ["SET LOCAL session_replication_role = replica"]
    found = connection.exec_driver_sql("SELECT name, sql FROM sqlite_master WHERE type = 'trigger'").fetchall()
    return ["PRAGMA defer_foreign_keys = ON", *(f"DROP TRIGGER {name}" for name, _sql in found)]


def _entry_inserted(before: Held, chance: random.Random) -> Change:
    """A forged entry with a good digest: on top of a chain, after a gap, before everything, or of a bare person."""
    person = chance.choice([before.bare, *sorted({row.person for row in before.entries})])
    last = None if person == before.bare else before.last(person)
    number = chance.choice([len(before.entries) + 1, len(before.entries) + chance.randrange(2, 90), 0, -7])
    forged = replace(
        last or before.entries[0],
        number=number,
        person=person,
        seq=last.seq + 1 if last else 1,
        previous=last.digest if last else START,
        body='{"topic":"Put in"}',
    )
    forged = replace(forged, digest=digest_of(forged))
    named = (frozenset({_name(forged)}),)
    return Change(said=f"{_name(forged)} put in for {person}", statements=(insertion(forged),), named=named)


def _checkpoint_inserted(before: Held, chance: random.Random) -> Change:
    """A forged checkpoint with a good digest: of all there is, or of nothing."""
    last = before.checkpoints[-1]
    empty = EMPTY.hex()
    nothing = {"entries": 0, "chains": 0, "entries_root": empty, "heads_root": empty, "frontier": "[]"}
    forged = chance.choice(
        [
            replace(last, number=last.number + chance.choice([1, 1, 3, 90]), previous=last.digest),
            replace(last, number=chance.choice([0, -4]), previous=START, **nothing),
        ]
    )
    forged = replace(forged, digest=checkpoint_digest(forged))
    named = (frozenset({_name(forged)}),)
    return Change(said=f"{_name(forged)} put in", statements=(insertion(forged),), named=named)


def _head_inserted(before: Held, chance: random.Random) -> Change:
    chain = chance.choice([before.bare, f"{chance.getrandbits(128):032x}"])
    forged = End(chain=chain, seq=chance.choice([0, 1, 5]), digest=chance.choice([START, before.entries[0].digest]))
    named = (frozenset({chain}),)
    return Change(said=f"head of {chain} put in", statements=(insertion(forged),), named=named)


def _names(before: Held, row: Row | Checkpoint | End, new: int = -1) -> tuple[frozenset[str], ...]:
    """Return by what a changed or removed row has to be named: itself, or where its chain then ends."""
    if not isinstance(row, End):
        return (frozenset({_name(row)}),)
    ends = {heads.CHECKPOINTS: "C-{}", heads.ENTRIES: "L-{}"}
    if row.chain not in ends:
        return (frozenset({_name(before.last(row.chain))}),)
    return (frozenset(ends[row.chain].format(number) for number in (row.seq, min(row.seq, max(new, 0)) + 1)),)


def _name(row: Row | Checkpoint | End) -> str:
    if isinstance(row, End):
        return f"head of {row.chain}"
    return _key(row.number) if isinstance(row, Row) else f"C-{row.number}"


def _key(number: int) -> str:
    return f"L-{number}"


def _is(row: Row | Checkpoint | End) -> str:
    column = IDENTITY[type(row)]
    return f"{column} = {literal(getattr(row, column))}"


def _removal(row: Row | Checkpoint | End) -> str:
    return f"DELETE FROM {TABLES[type(row)]} WHERE {_is(row)}"


def _bytes(before: Held, data: bytes, column: str, kind: type) -> str:
    number = next(field for field in fields(kind) if field.name == column).type is int
    if before.dialect == "sqlite":
        return f"CAST(x'{data.hex()}' AS TEXT)"
    return f"convert_from(decode('{data.hex()}', 'hex'), 'UTF8'){'::integer' if number else ''}"


def literal(value: object) -> str:
    return str(value) if isinstance(value, int) else "'" + str(value).replace("'", "''") + "'"


def insertion(row: Row | Checkpoint | End) -> str:
    names = [field.name for field in fields(row)]
    values = ", ".join(literal(getattr(row, name)) for name in names)
    columns = ", ".join(f'"{name}"' for name in names)
    return f"INSERT INTO {TABLES[type(row)]} ({columns}) VALUES ({values})"
