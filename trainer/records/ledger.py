"""The ledger: appending and reading entries. Nothing here changes or removes one; the database refuses that too."""

import json
from collections.abc import Collection, Iterator, Mapping
from dataclasses import asdict, replace
from datetime import date, datetime, timedelta
from itertools import groupby
from typing import Any

from sqlalchemy import func, insert, select

from trainer.errors import Missing
from trainer.records import heads
from trainer.records.bodies import must_be_whole
from trainer.records.chain import Entry, EntryKind, Row, canonical, digest_of, reference
from trainer.records.checkpoints import checkpoint, checkpoint_if_due
from trainer.records.instants import instant_text, read_instant
from trainer.records.models import Entry as Stored
from trainer.records.models import Person
from trainer.records.verifying import verify
from trainer.records.work import Reading, Writing
from trainer.wording import say

__all__ = ["Entry", "EntryKind", "append", "chains", "checkpoint", "entries", "entry", "reference", "size", "verify"]

TOLERATED = timedelta(minutes=5)  # a clock set back by less than this is a clock being kept right
PAGE = 500  # rows held in memory at a time while reading on
COLUMNS = (
    Stored.number,
    Stored.person,
    Stored.seq,
    Stored.kind,
    Stored.happened_on,
    Stored.recorded_at,
    Stored.zone,
    Stored.by,
    Stored.body,
    Stored.previous,
    Stored.digest,
)


def append(w: Writing, person: str, kind: EntryKind, body: Mapping[str, Any], *, happened_on: date, by: str) -> Entry:
    """Add an entry to a person's chain and return it. ``body`` is plain data that canonical JSON can hold.

    A clock that stands before the newest entry cannot be trusted: the body then gets ``"time": "unverified"``, and
    the entry authorises nothing until its day is confirmed. Raises :class:`Missing` for an unknown person and
    :class:`~trainer.errors.UsageError` for a body that lacks what its kind must say.
    """
    must_be_whole(EntryKind(kind), body)
    heads.alone(w)
    if w.session.scalar(select(Person.key).where(Person.key == person)) is None:
        raise Missing("The record knows no such person.")
    newest = select(Stored.number, Stored.recorded_at).order_by(Stored.number.desc()).limit(1)
    last = w.session.execute(newest).first()
    if last is not None and w.now() < last.recorded_at - TOLERATED:
        body = {**body, "time": "unverified"}
    length, previous = heads.head(w, person)
    row = Row(
        number=(last.number if last else 0) + 1,
        person=person,
        seq=length + 1,
        kind=EntryKind(kind).value,
        happened_on=happened_on.isoformat(),
        recorded_at=instant_text(w.now()),
        zone=str(w.zone),
        by=by,
        body=canonical(body),
        previous=previous,
        digest="",
    )
    return _keep(w, replace(row, digest=digest_of(row)))


def entry(r: Reading, number: int) -> Entry:
    """Return one entry; :class:`Missing` where there is none of that number."""
    found = r.session.execute(select(*COLUMNS).where(Stored.number == number)).first()
    if found is None:
        raise Missing(say("There is no entry {entry}.", entry=reference(number)))
    return _read(found)


def entries(
    r: Reading,
    *,
    person: str | None = None,
    kind: EntryKind | None = None,
    since: date | None = None,
    until: date | None = None,
    known_on: date | None = None,
    first: int | None = None,
    upto: int | None = None,
) -> Iterator[Entry]:
    """Give entries in the order of their numbers, holding few in memory.

    ``since`` and ``until`` keep what happened from and up to a day, ``known_on`` what was recorded by the end of that
    day at the site, ``first`` and ``upto`` what has such a number or lies between.
    """
    query = select(*COLUMNS).order_by(Stored.number)
    if first is not None:
        query = query.where(Stored.number >= first)
    if upto is not None:
        query = query.where(Stored.number <= upto)
    if person is not None:
        query = query.where(Stored.person == person)
    if kind is not None:
        query = query.where(Stored.kind == EntryKind(kind).value)
    if since is not None:
        query = query.where(Stored.happened_on >= since)
    if until is not None:
        query = query.where(Stored.happened_on <= until)
    if known_on is not None:
        query = query.where(Stored.recorded_at < r.end_of(known_on))
    with r.session.execute(query.execution_options(yield_per=PAGE)) as result:  # closed also when reading stops early
        for found in result:
            yield _read(found)


def chains(
    r: Reading, *, kinds: Collection[EntryKind], known_on: date | None = None
) -> Iterator[tuple[str, list[Entry]]]:
    """Give each person with their entries of some kinds, oldest first, holding those of one person in memory."""
    query = select(*COLUMNS).where(Stored.kind.in_([kind.value for kind in kinds])).order_by(Stored.person, Stored.seq)
    if known_on is not None:
        query = query.where(Stored.recorded_at < r.end_of(known_on))
    with r.session.execute(query.execution_options(yield_per=PAGE)) as result:
        for person, group in groupby(result, key=lambda found: found.person):
            yield person, [_read(found) for found in group]


def holders(r: Reading, numbers: Collection[int]) -> frozenset[str]:
    """Return on whose chains the entries of these numbers stand; unknown numbers are left out."""
    if not numbers:
        return frozenset()
    return frozenset(r.session.scalars(select(Stored.person).where(Stored.number.in_(numbers)).distinct()))


def newest_by_person(r: Reading) -> Mapping[str, tuple[int, datetime]]:
    """Return for each person how many entries there are and when the newest was recorded."""
    query = select(Stored.person, func.max(Stored.seq), func.max(Stored.recorded_at)).group_by(Stored.person)
    return {person: (length, at) for person, length, at in r.session.execute(query)}


def size(r: Reading) -> int:
    """Return how many entries there are: the number of the newest."""
    return r.session.scalar(select(func.max(Stored.number))) or 0


def _keep(w: Writing, row: Row) -> Entry:
    typed = {"happened_on": date.fromisoformat(row.happened_on), "recorded_at": read_instant(row.recorded_at)}
    w.session.execute(insert(Stored).values({**asdict(row), **typed}))
    heads.move(w, heads.ENTRIES, row.number, row.digest)
    heads.move(w, row.person, row.seq, row.digest)
    checkpoint_if_due(w, row.number)
    return Entry(**{**asdict(row), **typed, "kind": EntryKind(row.kind), "body": json.loads(row.body)})


def _read(found: Any) -> Entry:
    number, person, seq, kind, happened_on, recorded_at, zone, by, body, previous, digest = found
    return Entry(
        number=number,
        person=person,
        seq=seq,
        kind=EntryKind(kind),
        happened_on=happened_on,
        recorded_at=recorded_at,
        zone=zone,
        by=by,
        body=json.loads(body),
        previous=previous,
        digest=digest,
    )
