"""The ledger's part of a pack: whole chains as stored, single entries of others, the table, and what they name."""

import json
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from trainer.errors import RecordError
from trainer.exports.csvfile import table
from trainer.exports.pack.verifier.shape import ENTRY_COLUMNS, entry_row
from trainer.records.chain import EntryKind, Row, whole
from trainer.records.rawrows import raw_entries, raw_entry
from trainer.records.work import Reading
from trainer.wording import say

CHUNK = 256  # lines handed over at a time
NAMING = ("assessor", "presenter")  # keys of a body that may hold the key of a person


@dataclass(slots=True)
class Named:
    """What the entries of a pack name beside their own person: the numbers of entries, people, editions of content."""

    entries: set[int] = field(default_factory=set)
    people: set[str] = field(default_factory=set)
    content: set[str] = field(default_factory=set)

    def note(self, row: Row) -> None:
        """Note what an entry names."""
        body = json.loads(row.body)
        self.people |= {row.person, row.by, *(str(body[name]) for name in NAMING if body.get(name))}
        if row.kind == EntryKind.PRACTICAL_SIGNED:
            self.entries.add(body["entitlement"])
        if body.get("fingerprint"):
            self.content.add(body["fingerprint"])


def chain_pieces(r: Reading, key: str, upto: int, named: Named) -> Iterator[bytes]:
    """Give a person's entries as JSON lines, each to the last sign as it was hashed; note what they name."""
    return _lines(_noted(raw_entries(r, person=key, upto=upto), named))


def others(r: Reading, numbers: Iterable[int], kept: frozenset[str], named: Named) -> list[Row]:
    """Return the entries with these numbers that are on nobody's chain in the pack; note whom they name."""
    found = [_must(r, number) for number in sorted(numbers)]
    rows = [row for row in found if row.person not in kept]
    for row in rows:
        named.note(row)
    return rows


def row_pieces(rows: Iterable[Row]) -> Iterator[bytes]:
    """Give entries as JSON lines."""
    return _lines(rows)


def table_pieces(r: Reading, keys: Sequence[str], upto: int) -> Iterator[bytes]:
    """Give the entries of people, one after another, as CSV that is safe in spreadsheets."""
    rows = (row for key in keys for row in raw_entries(r, person=key, upto=upto))
    return table(ENTRY_COLUMNS, (entry_row(_data(row)) for row in rows))


def _noted(rows: Iterable[Row], named: Named) -> Iterator[Row]:
    for row in rows:
        named.note(row)
        yield row


def _lines(rows: Iterable[Row]) -> Iterator[bytes]:
    held: list[str] = []
    for row in rows:
        held.append(whole(row) + "\n")
        if len(held) == CHUNK:
            yield "".join(held).encode()
            held.clear()
    if held:
        yield "".join(held).encode()


def _must(r: Reading, number: int) -> Row:
    found = raw_entry(r, number)
    if found is None:
        raise RecordError(say("The entry {entry}, on which something rests, is not there.", entry=f"L-{number}"))
    return found


def _data(row: Row) -> Mapping[str, Any]:
    data: Mapping[str, Any] = json.loads(whole(row))
    return data
