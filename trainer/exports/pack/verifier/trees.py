"""Hash trees as in RFC 6962 (2013); proofs are checked as RFC 9162 (2021) does in section 2.1."""

import hashlib


def leaf(data: bytes) -> bytes:
    """Return the hash of a leaf."""
    return hashlib.sha256(b"\0" + data).digest()


def node(left: bytes, right: bytes) -> bytes:
    """Return the hash of two subtrees."""
    return hashlib.sha256(b"\1" + left + right).digest()


def included(leaf_hash: bytes, index: int, size: int, path: list[bytes], head: bytes) -> bool:
    """Say whether a path leads from leaf ``index`` (from 0) of ``size`` to the head of the tree."""
    if not 0 <= index < size or {len(step) for step in (leaf_hash, head, *path)} != {32}:
        return False
    found, place, last = leaf_hash, index, size - 1
    for step in path:
        if last == 0:
            return False
        if place & 1 or place == last:
            found = node(step, found)
            while place and not place & 1:
                place, last = place >> 1, last >> 1
        else:
            found = node(found, step)
        place, last = place >> 1, last >> 1
    return last == 0 and found == head


def consistent(first: int, size: int, path: list[bytes], old: bytes, new: bytes) -> bool:
    """Say whether a path shows that the tree of ``first`` leaves is the start of the tree of ``size``."""
    if first == size:
        return size > 0 and not path and old == new
    if {len(step) for step in (old, new, *path)} != {32}:
        return False
    steps = path if first & (first - 1) else [old, *path]
    if not 0 < first < size or not steps:
        return False
    place, last = first - 1, size - 1
    while place & 1:
        place, last = place >> 1, last >> 1
    before = after = steps[0]
    for step in steps[1:]:
        if last == 0:
            return False
        if place & 1 or place == last:
            before, after = node(step, before), node(step, after)
            while place and not place & 1:
                place, last = place >> 1, last >> 1
        else:
            after = node(after, step)
        place, last = place >> 1, last >> 1
    return last == 0 and (before, after) == (old, new)
