"""What is hashed is the canonical JSON of the whole row."""

import hashlib
import json
from dataclasses import fields, replace
from pathlib import Path

import pytest
import rfc8785
from hypothesis import given, settings
from hypothesis import strategies as st

from trainer.errors import UsageError
from trainer.records.chain import START, EntryKind, Row, canonical, digest_of, preimage

VECTORS = Path(__file__).parents[3] / "shared" / "vectors" / "rfc8785"
ROW = Row(
    number=5,
    person="3f" * 16,
    seq=2,
    kind="attended",
    happened_on="2026-03-09",
    recorded_at="2026-03-09T13:12:00.000000Z",
    zone="America/Chicago",
    by="ab" * 16,
    body='{"topic":"Loose pedals"}',
    previous=START,
    digest="",
)


def record_of(row: Row) -> dict:
    columns = {field.name: getattr(row, field.name) for field in fields(row) if field.name != "digest"}
    return {**columns, "body": json.loads(row.body)}


@settings(deadline=None)
@given(
    topic=st.text(st.characters(exclude_categories=["Cs"])),
    by=st.text(st.characters(exclude_categories=["Cs"]), max_size=20),
    score=st.integers(-(2**53) + 1, 2**53 - 1),
)
def test_the_digest_is_sha_256_over_the_canonical_json_of_every_other_column(topic, by, score):
    row = replace(ROW, by=by, body=canonical({"topic": topic, "score": score}))

    assert preimage(row).encode() == rfc8785.dumps(record_of(row))
    assert digest_of(row) == hashlib.sha256(rfc8785.dumps(record_of(row))).hexdigest()


@pytest.mark.parametrize("column", [field.name for field in fields(Row) if field.name != "digest"])
def test_no_column_can_change_without_the_digest(column):
    value = getattr(ROW, column)
    changed = value + 1 if isinstance(value, int) else value[:-1] + chr(ord(value[-1]) ^ 1)

    assert digest_of(replace(ROW, **{column: changed})) != digest_of(ROW)


def test_a_chain_of_three_records_has_the_digests_worked_out_apart():
    # Worked out with another program from RFC 8785 (2020) and SHA-256: each record holds the digest before it.
    records = [
        {
            "seq": 1,
            "actor": "u-17",
            "event": "attempt.passed",
            "item_set": "press-brake-core",
            "score": 18,
            "max": 20,
            "at": "2026-01-31T23:30:00Z",
        },
        {"seq": 2, "actor": "t-02", "event": "practical.signed_off", "for": "u-17", "at": "2026-02-01T08:05:00Z"},
        {
            "seq": 3,
            "actor": "a-01",
            "event": "record.corrected",
            "ref": 1,
            "field": "score",
            "from": 18,
            "to": 17,
            "reason": "item 7 withdrawn",
            "at": "2026-02-02T09:00:00Z",
        },
    ]
    digests = [START]
    for record in records:
        digests.append(hashlib.sha256(canonical({**record, "prev": digests[-1]}).encode()).hexdigest())

    assert digests[1:] == [
        "e416fa0e6496ac97b6541633de0bfcf7e226ec309792ddd465d6abbeeabd34f7",
        "0cf9bee2ab9379c1c98e423f048d885c76d833d4b4d6c75d782cb8f39080e76a",
        "f6f068f33e1eb78861fc5a3c16dc06997f0aecfd929313c5515b5a8e8d95bac4",
    ]


@pytest.mark.parametrize("bad", [float("nan"), float("inf"), 2**53 + 1, object(), "\ud800"])
def test_what_has_no_canonical_form_is_refused_in_one_sentence(bad):
    with pytest.raises(UsageError, match="cannot be kept in the ledger"):
        canonical({"value": bad})


@pytest.mark.parametrize("name", ["arrays", "french", "structures", "unicode", "values", "weird"])
def test_canonical_json_agrees_with_the_published_files(name):
    if not VECTORS.is_dir():
        pytest.skip(f"the published files of RFC 8785 are not at {VECTORS}")
    data = json.loads((VECTORS / "input" / f"{name}.json").read_bytes())

    assert rfc8785.dumps(data) == (VECTORS / "output" / f"{name}.json").read_bytes().rstrip(b"\n")


@pytest.mark.parametrize(
    ("value", "written"),
    # RFC 8785 section 3.2.2.3 and ECMAScript's number to text
    [(1.0, "1"), (-0.0, "0"), (1e21, "1e+21"), (1e-7, "1e-7"), (100.0, "100"), ("€\n", '"€\\n"')],
)
def test_numbers_and_text_are_written_as_the_standard_says(value, written):
    assert canonical({"v": value}) == f'{{"v":{written}}}'


def test_keys_are_ordered_by_utf_16_units():
    assert canonical({"\ufb33": 1, "😂": 2}) == '{"😂":2,"\ufb33":1}'


def test_there_are_thirteen_kinds():
    assert sorted(EntryKind) == [
        "assigned",
        "attended",
        "corrected",
        "entitled",
        "event",
        "excused",
        "moved",
        "practical-signed",
        "prior-accepted",
        "reinstated",
        "rule-set",
        "sitting-marked",
        "suspended",
    ]
