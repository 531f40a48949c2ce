"""Checkpoints: what the whole ledger was at one moment, so that a removed person or a cut-off end is noticed."""

import hashlib
import json
from collections.abc import Iterable
from dataclasses import asdict, dataclass, replace
from datetime import datetime

from sqlalchemy import func, insert, select

from trainer.records import heads, headtree, tree
from trainer.records.chain import START, canonical
from trainer.records.instants import instant_text, read_instant
from trainer.records.models import Checkpoint as Stored
from trainer.records.models import Entry
from trainer.records.work import Reading, Writing

EVERY = 256  # entries after which a checkpoint is written without being asked for; also once a day


@dataclass(frozen=True, slots=True, kw_only=True)
class Checkpoint:
    """One checkpoint, as text. ``entries`` is the number of the last entry it covers, ``frontier`` JSON text."""

    number: int
    at: str
    entries: int
    chains: int
    entries_root: str
    heads_root: str
    frontier: str
    previous: str
    digest: str

    @property
    def reference(self) -> str:
        """Return how people call it: ``C-3``."""
        return f"C-{self.number}"


def digest_of(row: Checkpoint) -> str:
    """Return the digest that a checkpoint must carry: SHA-256 of the canonical JSON of its other columns."""
    columns = {name: value for name, value in asdict(row).items() if name != "digest"}
    return hashlib.sha256(canonical(columns).encode()).hexdigest()


def heads_root(found: Iterable[tuple[str, int, str]]) -> str:
    """Return the tree head over the chains' heads (key, length, digest), given in the order of the keys."""
    return tree.root(headtree.leaf(*end) for end in found).hex()


def entry_leaf(digest: str) -> bytes:
    """Return the leaf that an entry has in the tree over entries: its digest, in ASCII hex."""
    return tree.leaf(
        digest.encode("utf-8", "surrogatepass")
    )  # a damaged digest is no ASCII and has a leaf all the same


def checkpoint(w: Writing) -> Checkpoint:
    """Write down what the ledger is now and return it; the newest one again when nothing was added since."""
    heads.alone(w)
    last = newest(w)
    size = w.session.scalar(select(func.max(Entry.number))) or 0
    if last is not None and last.entries == size:
        return last
    frontier = _grown(w, last)
    found = heads.people(w)
    row = Checkpoint(
        number=(last.number if last else 0) + 1,
        at=instant_text(w.now()),
        entries=size,
        chains=len(found),
        entries_root=frontier.root().hex(),
        heads_root=heads_root(found),
        frontier=json.dumps([peak.hex() for peak in frontier.peaks], separators=(",", ":")),
        previous=last.digest if last else START,
        digest="",
    )
    made = replace(row, digest=digest_of(row))
    w.session.execute(insert(Stored).values({**asdict(made), "at": read_instant(made.at)}))
    heads.move(w, heads.CHECKPOINTS, made.number, made.digest)
    return made


def checkpoint_if_due(w: Writing, number: int) -> None:
    """Write a checkpoint after every 256 entries and with the first entry of a day."""
    last = w.session.execute(select(Stored.entries, Stored.at).order_by(Stored.number.desc()).limit(1)).first()
    if last is None or number - last.entries >= EVERY or w.day_of(last.at) != w.today():
        checkpoint(w)


def latest(r: Reading, count: int) -> list[Checkpoint]:
    """Return the newest checkpoints, newest first."""
    query = select(Stored).order_by(Stored.number.desc()).limit(count)
    return [_read(found) for found in r.session.scalars(query)]


def newest(r: Reading) -> Checkpoint | None:
    """Return the newest checkpoint, or None before the first."""
    found = r.session.scalars(select(Stored).order_by(Stored.number.desc()).limit(1)).first()
    return None if found is None else _read(found)


def _grown(r: Reading, last: Checkpoint | None) -> tree.Frontier:
    size = last.entries if last else 0
    peaks = json.loads(last.frontier) if last else []
    frontier = tree.Frontier(size, (bytes.fromhex(peak) for peak in peaks))
    for digest in r.session.scalars(select(Entry.digest).where(Entry.number > size).order_by(Entry.number)):
        frontier.add(entry_leaf(digest))
    return frontier


def _read(found: Stored) -> Checkpoint:
    at: datetime = found.at
    return Checkpoint(
        number=found.number,
        at=instant_text(at),
        entries=found.entries,
        chains=found.chains,
        entries_root=found.entries_root,
        heads_root=found.heads_root,
        frontier=found.frontier,
        previous=found.previous,
        digest=found.digest,
    )
