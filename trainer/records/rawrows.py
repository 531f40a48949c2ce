"""Rows as the bytes that the database holds, for verification: nothing is understood, so nothing can go by unseen."""

from collections.abc import Iterator
from dataclasses import dataclass, fields
from typing import Any

from sqlalchemy import ColumnElement, LargeBinary, String, cast, select

from trainer.records.chain import Row
from trainer.records.checkpoints import Checkpoint
from trainer.records.models import Checkpoint as StoredCheckpoint
from trainer.records.models import Entry, Head
from trainer.records.work import Reading

PAGE = 500  # rows held in memory at a time
NO_NUMBER = -1  # what stands for text where a number belongs


@dataclass(frozen=True, slots=True, kw_only=True)
class End:
    """The head of a chain as stored."""

    chain: str
    seq: int
    digest: str


def raw_entries(r: Reading, *, person: str | None = None, upto: int | None = None) -> Iterator[Row]:
    """Give every entry, or every one of a person, in the order of the numbers; with ``upto`` no later ones."""
    wanted = [] if person is None else [Entry.person == person]
    wanted += [] if upto is None else [Entry.number <= upto]
    for values in _rows(r, Entry, Row, Entry.number, *wanted):
        yield Row(**values)


def raw_entry(r: Reading, number: int) -> Row | None:
    """Return one entry, or None where there is none of that number."""
    return next((Row(**values) for values in _rows(r, Entry, Row, Entry.number, Entry.number == number)), None)


def raw_checkpoints(r: Reading) -> Iterator[Checkpoint]:
    """Give every checkpoint in the order of the numbers."""
    for values in _rows(r, StoredCheckpoint, Checkpoint, StoredCheckpoint.number):
        yield Checkpoint(**values)


def raw_heads(r: Reading) -> Iterator[End]:
    """Give the head of every chain."""
    for values in _rows(r, Head, End, Head.chain):
        yield End(**values)


def _rows(r: Reading, table: Any, kind: Any, order: Any, *wanted: ColumnElement[bool]) -> Iterator[dict[str, Any]]:
    names = [field.name for field in fields(kind)]
    readers = [_number if field.type is int else _text for field in fields(kind)]
    raw = LargeBinary if r.session.get_bind().dialect.name == "sqlite" else String
    query = select(*(cast(getattr(table, name), raw) for name in names)).where(*wanted).order_by(order)
    with r.session.execute(query.execution_options(yield_per=PAGE)) as result:
        for found in result:
            yield {name: read(value) for name, read, value in zip(names, readers, found, strict=True)}


def _text(value: bytes | str | None) -> str:
    if isinstance(value, bytes):
        return value.decode("utf-8", "surrogateescape")
    return value or ""


def _number(stored: bytes | str | None) -> int:
    value = _text(stored)
    plain = value.removeprefix("-")
    good = plain.isascii() and plain.isdigit() and str(int(plain)) == plain
    return int(value) if good and len(plain) < 19 else NO_NUMBER
