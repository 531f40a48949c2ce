"""A tree that is mended gives what a tree that is made anew gives."""

import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from trainer.records import tree
from trainer.records.chain import canonical, head_text
from trainer.records.checkpoints import heads_root
from trainer.records.headtree import HeadTree, leaf


@pytest.mark.parametrize("people", [*range(18), 31, 32, 33, 100])
def test_the_root_is_that_of_all_heads_in_the_order_of_their_keys(people):
    chance, grown, ends = random.Random(people), HeadTree(), {}
    for turn in range(4):
        for _ in range(people):
            key = f"{chance.randrange(people * 2)}"
            ends[key] = (turn, f"{chance.getrandbits(64):x}")
            grown.move(key, *ends[key])
        wanted = tree.root(tree.leaf(_plain(key, *ends[key])) for key in sorted(ends))

        assert len(grown) == len(ends)
        assert grown.root() == wanted
        assert grown.root().hex() == heads_root((key, *ends[key]) for key in sorted(ends))


def _plain(key: str, seq: int, digest: str) -> bytes:
    return canonical({"chain": key, "digest": digest, "seq": seq}).encode()


@settings(deadline=None)
@given(st.text(st.characters(exclude_categories=["Cs"])), st.integers(0, 2**53 - 1), st.text("0123456789abcdef"))
def test_a_head_is_hashed_as_canonical_json(key, seq, digest):
    assert head_text(key, seq, digest).encode() == _plain(key, seq, digest)


def test_half_a_character_has_a_leaf_too():
    assert leaf("\udcff", 1, "x") != leaf("\udcfe", 1, "x")
