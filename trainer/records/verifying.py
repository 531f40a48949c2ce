"""Verifying the record: every entry hashed again, every link, head and checkpoint compared. Each fault is named.

Columns are read as the bytes that the database holds, so that not even a change that no program would make (a day that
is none, text where a number belongs) goes by. Memory grows with the number of people, not of entries.
"""

import sys
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from sqlalchemy import select, text
from sqlalchemy.exc import DBAPIError

from trainer.errors import UsageError
from trainer.findings import Finding, Report
from trainer.records import heads, headtree, migrating, tree, triggers
from trainer.records.chain import START, Row, digest_of, reference
from trainer.records.checkpoints import Checkpoint, entry_leaf
from trainer.records.checkpoints import digest_of as checkpoint_digest
from trainer.records.findings import (
    AlteredCheckpoint,
    AlteredEntry,
    BrokenLink,
    CheckpointMismatch,
    ClockBack,
    ExtraEntry,
    HeadMismatch,
    MissingCheckpoint,
    MissingEntry,
    MissingGuard,
    MissingPerson,
    UnreadableRecord,
)
from trainer.records.instants import read_instant
from trainer.records.models import Person
from trainer.records.rawrows import End, raw_checkpoints, raw_entries, raw_heads
from trainer.records.work import Reading

TOLERATED = timedelta(minutes=5)
MANY = 50  # missing numbers in a row that are named one by one


@dataclass(frozen=True, slots=True)
class Link:
    """The last entry seen of a chain. ``digests`` are the one it carries and the one it should carry."""

    number: int
    seq: int
    digests: frozenset[str]
    carried: str


class Run:
    """One verification, as far as it has come."""

    def __init__(self, checkpoints: list[Checkpoint]) -> None:
        self.chains: dict[str, Link] = {}
        self.tree = tree.Frontier()
        self.number = 0
        self.carried = START
        self.ends = headtree.HeadTree()
        self.recorded_at: datetime | None = None
        self.pending = checkpoints
        self.fits = True

    def entry(self, row: Row) -> Iterator[Finding]:
        """Look at the next entry."""
        yield from missing(self.number + 1, row.number)
        if row.number < 1:
            yield ExtraEntry(key=reference(row.number))
        yield from self.compare(below=row.number)
        wanted = digest_of(row)
        if wanted != row.digest:
            yield AlteredEntry(key=reference(row.number))
        else:
            yield from self.link(row)
        yield from self.clock(row)
        self.chains[row.person] = Link(row.number, row.seq, frozenset({row.digest, wanted}), row.digest)
        self.ends.move(row.person, row.seq, row.digest)
        self.tree.add(entry_leaf(row.digest))
        self.number, self.carried = row.number, row.digest
        yield from self.compare(below=row.number + 1)

    def link(self, row: Row) -> Iterator[Finding]:
        """Compare an entry with the one before it in its chain."""
        before = self.chains.get(row.person)
        if before is None and (row.previous, row.seq) != (START, 1):
            yield BrokenLink(key=reference(row.number), note="What this entry follows on is not there.")
        elif before is not None and (row.previous not in before.digests or row.seq != before.seq + 1):
            note = f"This entry does not follow on {reference(before.number)}."
            yield BrokenLink(key=reference(row.number), note=note)

    def clock(self, row: Row) -> Iterator[Finding]:
        """Compare an entry's instant with the one before it."""
        try:
            at = read_instant(row.recorded_at)
        except ValueError:
            return  # an altered entry, already named
        if self.recorded_at is not None and at < self.recorded_at - TOLERATED:
            yield ClockBack(key=reference(row.number))
        self.recorded_at = max(self.recorded_at or at, at)

    def compare(self, *, below: int) -> Iterator[Finding]:
        """Compare the checkpoints that cover no more than the entries below a number; name the first that differs."""
        while self.pending and self.pending[0].entries < below:
            point = self.pending.pop(0)
            same = (
                point.entries == self.number
                and point.entries_root == self.tree.root().hex()
                and point.heads_root == self.ends.root().hex()
                and point.chains == len(self.ends)
            )
            if not same and self.fits:
                self.fits = False
                note = f"The entries up to {reference(point.entries)} are not the ones that it was taken of."
                yield CheckpointMismatch(key=point.reference, note=note)


def verify(r: Reading) -> Report:
    """Verify the whole record and return what is wrong with it; nothing, when it is as it was written."""
    try:
        return Report([*_guards(r), *_damage(r), *_ledger(r)])
    except (DBAPIError, UnicodeError) as error:
        return Report([UnreadableRecord(note=" ".join(str(error).split())[:200])])


def _computed(hashed: Callable[[Any], str], data: object) -> str | None:
    """Return a hash, or None of what was so damaged that it has no canonical JSON."""
    try:
        return hashed(data)
    except UsageError:
        return None


def chain_holds(r: Reading, person: str) -> bool:
    """Say whether every entry of one person is as it was written, linked to the one before, up to the head."""
    length, carried = 0, START
    for row in raw_entries(r, person=person):
        if (row.seq, row.previous) != (length + 1, carried) or _computed(digest_of, row) != row.digest:
            return False
        length, carried = row.seq, row.digest
    return (length, carried) == heads.head(r, person)


def missing(first: int, upto: int) -> Iterator[Finding]:
    """Name the entries from ``first`` on that are not there, before number ``upto``."""
    return _gap(first, upto, MissingEntry, "L-{}")


def _gap(first: int, upto: int, kind: type[Finding], name: str) -> Iterator[Finding]:
    """Name what is not there, one by one or, where much is, all at once: a forged number may be as large as it likes."""
    first = max(first, 1)
    if upto - first > MANY:
        note = f"{name.format(first)} to {name.format(upto - 1)} were removed."
        yield kind(key=name.format(first), note=note)
    else:
        yield from (kind(key=name.format(number)) for number in range(first, upto))


def _guards(r: Reading) -> Iterator[Finding]:
    connection = r.session.connection()
    gone = triggers.names(connection.dialect.name) - migrating.present_triggers(connection)
    yield from (MissingGuard(key=name) for name in sorted(gone))


def _damage(r: Reading) -> Iterator[Finding]:
    if r.session.get_bind().dialect.name == "sqlite":
        told = [str(line) for line in r.session.scalars(text("PRAGMA integrity_check"))]
        yield from (UnreadableRecord(note=line) for line in told[:5] if line != "ok")


def _ledger(r: Reading) -> Iterator[Finding]:
    points = list(raw_checkpoints(r))
    ends = {end.chain: end for end in raw_heads(r)}
    yield from _points(points, ends.pop(heads.CHECKPOINTS, None))
    run = Run(points)
    for row in raw_entries(r):
        yield from run.entry(row)
    yield from run.compare(below=sys.maxsize)
    yield from _tip(run, ends.pop(heads.ENTRIES, None))
    yield from _heads(run, ends)
    yield from _people(r, run, ends)


def _points(points: list[Checkpoint], end: End | None) -> Iterator[Finding]:
    """Compare the checkpoints with each other and with where their chain should end."""
    number, previous = 0, START
    for point in points:
        yield from _gap(number + 1, point.number, MissingCheckpoint, "C-{}")
        if point.number < 1:
            yield AlteredCheckpoint(key=point.reference, note="This checkpoint was put in beside the program.")
        if _computed(checkpoint_digest, point) != point.digest:
            yield AlteredCheckpoint(key=point.reference)
        elif point.previous != previous and point.number == number + 1 and number:
            yield AlteredCheckpoint(key=f"C-{number}", note=f"{point.reference} does not follow on it.")
        number, previous = point.number, point.digest
    length, digest = (end.seq, end.digest) if end else (0, START)
    yield from _gap(number + 1, length + 1, MissingCheckpoint, "C-{}")
    if number > length or (number == length and digest != previous):
        yield HeadMismatch(key=f"C-{number}", note="The checkpoints do not end where their head says.")


def _tip(run: Run, end: End | None) -> Iterator[Finding]:
    """Compare the last entry with how far the ledger went."""
    length, digest = (end.seq, end.digest) if end else (0, START)
    yield from missing(run.number + 1, length + 1)
    yield from (ExtraEntry(key=reference(number)) for number in range(length + 1, run.number + 1)[:MANY])
    if run.number == length and run.carried != digest:
        yield HeadMismatch(key=reference(run.number), note="The ledger does not end with this entry as it is.")


def _heads(run: Run, ends: dict[str, End]) -> Iterator[Finding]:
    """Compare the last entry of every person with where the chain should end."""
    for chain, link in run.chains.items():
        end = ends.get(chain)
        if end is None or (end.seq, end.digest) != (link.seq, link.carried):
            yield HeadMismatch(key=reference(link.number))
    for chain in ends.keys() - run.chains.keys():
        yield MissingPerson(key=chain, note="Every entry of this person was removed.")


def _people(r: Reading, run: Run, ends: dict[str, End]) -> Iterator[Finding]:
    """Name the people who have entries and are not there."""
    known = set(r.session.scalars(select(Person.key)))
    for chain, link in run.chains.items():
        if chain not in known:
            yield MissingPerson(key=reference(link.number), note=f"The person {chain} was removed.")
    for chain in ends.keys() - run.chains.keys() - known:
        yield MissingPerson(key=chain)
