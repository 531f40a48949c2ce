"""The tree over the heads of all chains, held whole while a ledger is read, so that a head moving on costs little. Pure.

The tree is that of RFC 6962 (2013): pairing each level and handing a last one without a partner up as it is gives the
same shape as splitting at the largest power of two.
"""

from bisect import insort
from itertools import pairwise

from trainer.records import tree
from trainer.records.chain import head_text

Levels = list[list[bytes]]


class HeadTree:
    """The heads of chains as they move on, and the tree head over them in the order of their keys."""

    def __init__(self) -> None:
        self.keys: list[str] = []
        self._leaves: dict[str, bytes] = {}
        self._places: dict[str, int] = {}
        self._levels: Levels = []
        self._moved: dict[str, tuple[int, str]] = {}

    def __len__(self) -> int:
        return len(self._leaves) + len(self._moved.keys() - self._leaves.keys())

    def move(self, key: str, seq: int, digest: str) -> None:
        """Note that a chain ends with this now; nothing is hashed before the tree head is asked for."""
        self._moved[key] = (seq, digest)

    def root(self) -> bytes:
        """Return the tree head over all chains as they end now."""
        fresh = self._moved.keys() - self._leaves.keys()
        self._leaves.update((key, leaf(key, *end)) for key, end in self._moved.items())
        if fresh:
            for key in fresh:
                insort(self.keys, key)
            self._places = {key: place for place, key in enumerate(self.keys)}
            self._levels = _grown([self._leaves[key] for key in self.keys])
        else:
            self._mend({self._places[key] for key in self._moved})
        self._moved.clear()
        return self._levels[-1][0] if self._levels else tree.EMPTY

    def _mend(self, places: set[int]) -> None:
        for place in places:
            self._levels[0][place] = self._leaves[self.keys[place]]
        for below, level in pairwise(self._levels):
            places = {place // 2 for place in places}
            for place in places:
                pair = below[2 * place : 2 * place + 2]
                level[place] = tree.node(*pair) if len(pair) == 2 else pair[0]


def leaf(key: str, seq: int, digest: str) -> bytes:
    """Return the leaf that the head of a chain has; a damaged text has one too, which fits no checkpoint."""
    return tree.leaf(head_text(key, seq, digest).encode("utf-8", "surrogatepass"))


def _grown(leaves: list[bytes]) -> Levels:
    levels = [leaves]
    while len(levels[-1]) > 1:
        below = levels[-1]
        level = [tree.node(below[place], below[place + 1]) for place in range(0, len(below) - 1, 2)]
        levels.append([*level, *below[2 * len(level) :]])
    return levels
