"""The sums of verify.py are its own, and agree with the published files and with the record's."""

import base64
import hashlib
import json
from pathlib import Path

import pytest
import rfc8785
from hypothesis import given
from hypothesis import strategies as st

from trainer.exports.about import coded
from trainer.exports.csvfile import safe
from trainer.exports.pack.verifier.canonical import canonical, parsed
from trainer.exports.pack.verifier.main import pack_code
from trainer.exports.pack.verifier.shape import cell
from trainer.exports.pack.verifier.trees import consistent, included, leaf, node
from trainer.records import tree

VECTORS = Path(__file__).parents[4] / "shared" / "vectors"
plain = st.recursive(
    st.none()
    | st.booleans()
    | st.integers(-(2**53) + 1, 2**53 - 1)
    | st.floats(allow_nan=False, allow_infinity=False)
    | st.text(st.characters(exclude_categories=["Cs"])),
    lambda inner: (
        st.lists(inner, max_size=4)
        | st.dictionaries(st.text(st.characters(exclude_categories=["Cs"])), inner, max_size=4)
    ),
    max_leaves=12,
)


@given(plain)
def test_canonical_json_is_that_of_the_library(value):
    assert canonical(value).encode() == rfc8785.dumps(value)


@pytest.mark.parametrize("name", ["arrays", "french", "structures", "unicode", "values", "weird"])
def test_canonical_json_agrees_with_the_published_files(name):
    # cyberphone/json-canonicalization, test data of RFC 8785 (2020)
    if not (VECTORS / "rfc8785").is_dir():
        pytest.skip(f"the published files of RFC 8785 are not at {VECTORS}")
    data = json.loads((VECTORS / "rfc8785" / "input" / f"{name}.json").read_bytes())

    assert canonical(data).encode() == (VECTORS / "rfc8785" / "output" / f"{name}.json").read_bytes().rstrip(b"\n")


@pytest.mark.parametrize(
    ("value", "written"),
    # RFC 8785 (2020) section 3.2.2.3 and appendix B
    [
        (0.0, "0"),
        (-0.0, "0"),
        (5e-324, "5e-324"),
        (1.7976931348623157e308, "1.7976931348623157e+308"),
        (9007199254740992.0, "9007199254740992"),
        (295147905179352830000.0, "295147905179352830000"),
        (9.999999999999997e22, "9.999999999999997e+22"),
        (1e23, "1e+23"),
        (1e21, "1e+21"),
        (999999999999999900000.0, "999999999999999900000"),
        (0.000001, "0.000001"),
        (1e-7, "1e-7"),
        (333333333.3333333, "333333333.3333333"),
        (-0.0000033333333333333333, "-0.0000033333333333333333"),
    ],
)
def test_numbers_are_written_as_the_standard_says(value, written):
    assert canonical(value) == written


@pytest.mark.parametrize(
    "line",
    [
        b'{"b":1,"a":2}\n',
        b'{"a": 1}\n',
        b'{"a":1}',
        b'{"a":1,"a":1}\n',
        b'{"a":1.0}\n',
        b'{"a":NaN}\n',
        b"[1]\n",
        b'{"a":9007199254740993}\n',
        b"\xff\n",
        b'{"a":"\\u0041"}\n',
        b'{"a":"\\ud800"}\n',
        b"{" * 100_000,
        b"",
    ],
)
def test_a_line_in_any_other_form_is_named(line):
    assert parsed(line)[1] is False


def published(kind: str) -> list[dict]:
    found = sorted((VECTORS / "rfc6962" / "testdata" / kind).rglob("*.json"))
    if not found:
        pytest.skip(f"the published proofs of RFC 6962 are not at {VECTORS}")
    texts = ("root", "leafHash")
    return [
        {
            key: base64.b64decode(value) if key.startswith(texts) else value
            for key, value in {**data, "proof": [base64.b64decode(step) for step in data["proof"] or ()]}.items()
        }
        for data in (json.loads(path.read_text()) for path in found)
    ]


def test_published_inclusion_proofs_are_judged_rightly():
    # transparency-dev/merkle, test data (2022)
    for data in published("inclusion"):
        good = included(data["leafHash"], data["leafIdx"], data["treeSize"], data["proof"], data["root"])
        assert good is not data["wantErr"], data.get("desc")


def test_published_consistency_proofs_are_judged_rightly():
    # transparency-dev/merkle, test data (2022)
    for data in published("consistency"):
        good = consistent(data["size1"], data["size2"], data["proof"], data["root1"], data["root2"])
        assert good is not data["wantErr"], data.get("desc")


@given(st.integers(1, 60), st.data())
def test_proofs_of_the_records_own_trees_are_accepted_and_no_others(size, data):
    leaves = [leaf(str(number).encode()) for number in range(size)]
    index, earlier = data.draw(st.integers(0, size - 1)), data.draw(st.integers(1, size))
    path, steps, head = tree.inclusion(leaves, index), tree.consistency(leaves, earlier), tree.root(leaves)

    assert included(leaves[index], index, size, path, head)
    assert not included(node(b"", b""), index, size, path, head)
    assert not included(leaves[index], index, size, [*path, head], head)
    assert consistent(earlier, size, steps, tree.root(leaves[:earlier]), head)
    assert not consistent(earlier, size, steps, node(b"", b""), head)
    assert not consistent(earlier, size, [*steps, head], tree.root(leaves[:earlier]), head)


@given(st.text())
def test_cells_are_made_safe_as_in_every_other_table(text):
    assert cell(text) == safe(text)


def test_the_pack_code_is_written_as_check_codes_are():
    class Files:
        def text(self, _name):
            return "x\n"

    class Check:
        files = Files()

    assert pack_code(Check()) == coded(hashlib.sha256(b"x\n").digest())
