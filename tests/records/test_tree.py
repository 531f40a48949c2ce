"""Hash trees give the published heads and proofs."""

import base64
import json
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from trainer.records.tree import EMPTY, Frontier, consistency, consistent, included, inclusion, leaf, node, root

VECTORS = Path(__file__).parents[3] / "shared" / "vectors" / "rfc6962" / "testdata"
LEAVES = [
    leaf(bytes.fromhex(text))
    for text in ("", "00", "10", "2021", "3031", "40414243", "5051525354555657", "606162636465666768696a6b6c6d6e6f")
]


def test_leaf_and_node_carry_their_prefix():
    # transparency-dev/merkle, rfc6962 hasher tests (2022)
    assert EMPTY.hex() == "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"
    assert leaf(b"L123456").hex() == "395aa064aa4c29f7010acfe3f25db9485bbd4b91897b6ad7ad547639252b4d56"
    assert node(b"N123", b"N456").hex() == "aa217fe888e47007fa15edab33c2b492a722cb106c64667fc2b044444de66bbb"


@pytest.mark.parametrize(
    ("size", "head"),
    # transparency-dev/merkle, test data of a tree of eight leaves (2022)
    [
        (0, "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"),
        (3, "aeb6bcfe274b70a14fb067a5e5578264db0fa9b51af5e0ba159158f329e06e77"),
        (8, "5dc9da79a70659a9ad559cb701ded9a2ab9d823aad2f4960cfe370eff4604328"),
    ],
)
def test_a_tree_has_its_published_head(size, head):
    assert root(LEAVES[:size]).hex() == head


def test_published_proofs_are_made():
    # transparency-dev/merkle (2022): leaf 5 of 8, and from 6 leaves to 8
    assert [step.hex()[:8] for step in inclusion(LEAVES, 5)] == ["bc1a0643", "ca854ea1", "d37ee418"]
    assert [step.hex()[:8] for step in consistency(LEAVES, 6)] == ["0ebc5d34", "ca854ea1", "d37ee418"]


@settings(deadline=None)
@given(st.integers(1, 70), st.data())
def test_every_leaf_and_every_earlier_tree_is_proved_and_nothing_else(size, data):
    leaves = [leaf(str(number).encode()) for number in range(size)]
    index, earlier = data.draw(st.integers(0, size - 1)), data.draw(st.integers(1, size))
    proof, steps, head = inclusion(leaves, index), consistency(leaves, earlier), root(leaves)

    assert included(leaves[index], index, size, proof, head)
    assert consistent(earlier, size, steps, root(leaves[:earlier]), head)
    assert not included(leaf(b"other"), index, size, proof, head)
    assert not included(leaves[index], index, size, proof, leaf(b"other"))
    assert not consistent(earlier, size, steps, leaf(b"other"), head)
    assert not included(leaves[index], index, size, [*proof, head], head)


@settings(deadline=None)
@given(st.integers(0, 70), st.integers(0, 70))
def test_a_frontier_goes_on_where_it_was_put_down(first, more):
    leaves = [leaf(str(number).encode()) for number in range(first + more)]
    begun = Frontier()
    for each in leaves[:first]:
        begun.add(each)
    taken_up = Frontier(begun.size, begun.peaks)
    for each in leaves[first:]:
        taken_up.add(each)

    assert taken_up.root() == root(leaves)


def test_a_frontier_with_the_wrong_number_of_subtrees_is_refused():
    with pytest.raises(ValueError, match="3 leaves has 2 full subtrees, not 1"):
        Frontier(3, [EMPTY])


def published(kind: str) -> list[Path]:
    return sorted((VECTORS / kind).rglob("*.json"))


def unpacked(path: Path) -> dict:
    data = json.loads(path.read_text())
    data["proof"] = [base64.b64decode(step) for step in data["proof"] or ()]
    return {
        key: base64.b64decode(value) if key.startswith(("root", "leafHash")) else value for key, value in data.items()
    }


def test_published_inclusion_proofs_are_judged_rightly():
    if not published("inclusion"):
        pytest.skip(f"the published proofs of RFC 6962 are not at {VECTORS}")
    for path in published("inclusion"):
        given = unpacked(path)
        good = included(given["leafHash"], given["leafIdx"], given["treeSize"], given["proof"], given["root"])

        assert good is not given["wantErr"], path


def test_published_consistency_proofs_are_judged_rightly():
    if not published("consistency"):
        pytest.skip(f"the published proofs of RFC 6962 are not at {VECTORS}")
    for path in published("consistency"):
        given = unpacked(path)
        good = consistent(given["size1"], given["size2"], given["proof"], given["root1"], given["root2"])

        assert good is not given["wantErr"], path
