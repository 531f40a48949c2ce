"""Hash trees as in RFC 6962: leaf and node hashing, tree heads, inclusion and consistency proofs. Pure.

A leaf is ``SHA-256(00 || data)``, a node ``SHA-256(01 || left || right)``, split at the largest power of two below
the size; the tree without leaves is ``SHA-256("")`` (RFC 6962 section 2.1, 2013).
"""

import hashlib
from collections.abc import Iterable, Sequence

EMPTY = hashlib.sha256().digest()


def leaf(data: bytes) -> bytes:
    """Return the hash of a leaf."""
    return hashlib.sha256(b"\0" + data).digest()


def node(left: bytes, right: bytes) -> bytes:
    """Return the hash of two subtrees."""
    return hashlib.sha256(b"\1" + left + right).digest()


class Frontier:
    """A tree that grows at its right end and keeps only the roots of its full subtrees, left to right."""

    def __init__(self, size: int = 0, peaks: Iterable[bytes] = ()) -> None:
        self.size = size
        self.peaks = list(peaks)
        if len(self.peaks) != size.bit_count():
            raise ValueError(f"a tree of {size} leaves has {size.bit_count()} full subtrees, not {len(self.peaks)}")

    def add(self, leaf_hash: bytes) -> None:
        """Add a leaf, already hashed."""
        self.peaks.append(leaf_hash)
        rest = self.size
        while rest & 1:
            right = self.peaks.pop()
            self.peaks.append(node(self.peaks.pop(), right))
            rest >>= 1
        self.size += 1

    def root(self) -> bytes:
        """Return the tree head."""
        if not self.peaks:
            return EMPTY
        found = self.peaks[-1]
        for peak in reversed(self.peaks[:-1]):
            found = node(peak, found)
        return found


def root(leaves: Iterable[bytes]) -> bytes:
    """Return the tree head over hashed leaves."""
    frontier = Frontier()
    for leaf_hash in leaves:
        frontier.add(leaf_hash)
    return frontier.root()


def split(size: int) -> int:
    """Return the largest power of two below ``size`` (at least 2)."""
    return 1 << (size - 1).bit_length() - 1


def inclusion(leaves: Sequence[bytes], index: int) -> list[bytes]:
    """Return the proof that leaf ``index`` (from 0) is in the tree (RFC 6962 section 2.1.1)."""
    if len(leaves) <= 1:
        return []
    at = split(len(leaves))
    if index < at:
        return [*inclusion(leaves[:at], index), root(leaves[at:])]
    return [*inclusion(leaves[at:], index - at), root(leaves[:at])]


def consistency(leaves: Sequence[bytes], earlier: int) -> list[bytes]:
    """Return the proof that the tree of the first ``earlier`` leaves is a start of the whole (section 2.1.2)."""
    return [] if earlier in {0, len(leaves)} else _subproof(leaves, earlier, whole=True)


def _subproof(leaves: Sequence[bytes], earlier: int, *, whole: bool) -> list[bytes]:
    if earlier == len(leaves):
        return [] if whole else [root(leaves)]
    at = split(len(leaves))
    if earlier <= at:
        return [*_subproof(leaves[:at], earlier, whole=whole), root(leaves[at:])]
    return [*_subproof(leaves[at:], earlier - at, whole=False), root(leaves[:at])]


def included(leaf_hash: bytes, index: int, size: int, proof: Sequence[bytes], head: bytes) -> bool:
    """Say whether a proof shows that a leaf is in the tree with that head (RFC 9162 section 2.1.3.2)."""
    if not 0 <= index < size or not _hashes(leaf_hash, head, *proof):
        return False
    place, last, found = index, size - 1, leaf_hash
    for step in proof:
        if last == 0:
            return False
        if place & 1 or place == last:
            found = node(step, found)
            while not place & 1 and place:
                place, last = place >> 1, last >> 1
        else:
            found = node(found, step)
        place, last = place >> 1, last >> 1
    return last == 0 and found == head


def consistent(earlier: int, size: int, proof: Sequence[bytes], old: bytes, new: bytes) -> bool:
    """Say whether a proof shows that a tree is a start of a later one (RFC 9162 section 2.1.4.2).

    An empty tree proves nothing: it is a start of every tree.
    """
    if earlier == size:
        return size > 0 and not proof and old == new
    if not 0 < earlier < size or not _hashes(old, new, *proof):
        return False
    steps = list(proof) if earlier & (earlier - 1) else [old, *proof]
    if not steps:
        return False
    place, last = earlier - 1, size - 1
    while place & 1:
        place, last = place >> 1, last >> 1
    first = second = steps[0]
    for step in steps[1:]:
        if last == 0:
            return False
        if place & 1 or place == last:
            first, second = node(step, first), node(step, second)
            while not place & 1 and place:
                place, last = place >> 1, last >> 1
        else:
            second = node(second, step)
        place, last = place >> 1, last >> 1
    return last == 0 and first == old and second == new


def _hashes(*values: bytes) -> bool:
    return all(len(value) == len(EMPTY) for value in values)
