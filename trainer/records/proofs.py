"""Proofs that people's chains and single entries are in what a checkpoint was taken of, as in RFC 6962 (2013).

The tree is never held: its leaves go by once, and only the hashes of those stretches of leaves are kept that a proof
needs. So memory grows with the number of proofs and of people, not of entries.
"""

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass

from sqlalchemy import select

from trainer.errors import Missing, RecordError
from trainer.records import heads, headtree, ledger, tree
from trainer.records.checkpoints import Checkpoint, entry_leaf, newest
from trainer.records.models import Entry
from trainer.records.rawrows import PAGE
from trainer.records.work import Reading

Span = tuple[int, int]  # leaves from the first number up to, not with, the second


@dataclass(frozen=True, slots=True, kw_only=True)
class ChainProof:
    """That a chain of this length, ending with this digest, is leaf ``index`` of ``size`` in the tree of heads."""

    person: str
    seq: int
    digest: str
    index: int
    size: int
    path: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class TreeProofs:
    """Proofs in the tree of entries: by the number of an entry, and by the size of an earlier tree."""

    entries: Mapping[int, tuple[str, ...]]
    earlier: Mapping[int, tuple[str, ...]]


def sealed(r: Reading) -> Checkpoint:
    """Return the newest checkpoint; :class:`RecordError` where it does not cover every entry."""
    found = newest(r)
    if found is None or found.entries != ledger.size(r):
        raise RecordError("Something was recorded in the meantime. Try again.")
    return found


def of_chains(r: Reading, keys: Collection[str]) -> list[ChainProof]:
    """Return for each person the proof that the chain as it ends now is in the tree of heads, in the order of keys.

    Raises :class:`Missing` for a person about whom there is no entry.
    """
    found = heads.people(r)
    places = {key: place for place, (key, _seq, _digest) in enumerate(found)}
    if not places.keys() >= set(keys):
        raise Missing("There is no entry about one of these people.")
    leaves = (headtree.leaf(*end) for end in found)
    paths = {key: inclusion_spans(places[key], len(found)) for key in sorted(keys)}
    kept = span_hashes(leaves, {span for spans in paths.values() for span in spans})
    return [
        ChainProof(
            person=key,
            seq=found[places[key]][1],
            digest=found[places[key]][2],
            index=places[key],
            size=len(found),
            path=_hex(kept, spans),
        )
        for key, spans in paths.items()
    ]


def of_tree(r: Reading, size: int, *, numbers: Iterable[int], earlier: Iterable[int]) -> TreeProofs:
    """Return the proofs that entries are among the first ``size``, and that earlier trees are a start of that one."""
    single = {number: inclusion_spans(number - 1, size) for number in sorted(numbers)}
    starts = {first: consistency_spans(first, size) for first in sorted(earlier)}
    wanted = {span for spans in (*single.values(), *starts.values()) for span in spans}
    kept = span_hashes(_entry_leaves(r, size), wanted) if wanted else {}
    return TreeProofs(
        entries={number: _hex(kept, spans) for number, spans in single.items()},
        earlier={first: _hex(kept, spans) for first, spans in starts.items()},
    )


def inclusion_spans(index: int, size: int) -> list[Span]:
    """Return the stretches whose hashes prove leaf ``index``, from the leaf to the head (RFC 6962 section 2.1.1)."""
    start, end = 0, size
    found: list[Span] = []
    while end - start > 1:
        at = start + tree.split(end - start)
        if index < at:
            found.append((at, end))
            end = at
        else:
            found.append((start, at))
            start = at
    return found[::-1]


def consistency_spans(earlier: int, size: int) -> list[Span]:
    """Return the stretches whose hashes prove that the first ``earlier`` leaves are a start (RFC 6962 section 2.1.2)."""
    start, end, whole = 0, size, True
    found: list[Span] = []
    while earlier not in {0, end}:
        at = start + tree.split(end - start)
        if earlier <= at:
            found.append((at, end))
            end = at
        else:
            found.append((start, at))
            start, whole = at, False
    return [*([] if whole or earlier == 0 else [(start, end)]), *found[::-1]]


def span_hashes(leaves: Iterable[bytes], wanted: Collection[Span]) -> dict[Span, bytes]:
    """Return the hashes of the wanted stretches of a tree whose leaves go by once."""
    kept: dict[Span, bytes] = {}
    peaks: list[tuple[int, int, bytes]] = []
    size = 0

    def keep(start: int, end: int, found: bytes) -> None:
        if (start, end) in wanted:
            kept[start, end] = found

    for each in leaves:
        peaks.append((size, size + 1, each))
        size += 1
        keep(*peaks[-1])
        while len(peaks) > 1 and peaks[-1][1] - peaks[-1][0] == peaks[-2][1] - peaks[-2][0]:
            (_, end, right), (start, _, left) = peaks.pop(), peaks.pop()
            peaks.append((start, end, tree.node(left, right)))
            keep(*peaks[-1])
    for start, _, left in reversed(peaks[:-1]):
        peaks[-1] = (start, size, tree.node(left, peaks[-1][2]))
        keep(*peaks[-1])
    return kept


def _entry_leaves(r: Reading, size: int) -> Iterator[bytes]:
    query = select(Entry.digest).where(Entry.number <= size).order_by(Entry.number)
    for digest in r.session.scalars(query.execution_options(yield_per=PAGE)):
        yield entry_leaf(digest)


def _hex(kept: Mapping[Span, bytes], spans: Iterable[Span]) -> tuple[str, ...]:
    return tuple(kept[span].hex() for span in spans)
