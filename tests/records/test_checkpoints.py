"""A checkpoint commits to every entry and to every chain's head."""

import json
from datetime import timedelta

import pytest
from records.site import TODAY

from trainer.records import heads, ledger, people, tree
from trainer.records.chain import START, EntryKind
from trainer.records.checkpoints import EVERY, checkpoint, digest_of, entry_leaf, heads_root, newest


@pytest.fixture
def person(record):
    with record.writing() as w:
        return people.add(w, number="2201", name="Suharto").key


def add(record, person: str, count: int = 1) -> None:
    with record.writing() as w:
        for _ in range(count):
            ledger.append(w, person, EntryKind.ATTENDED, {"topic": "x"}, happened_on=TODAY, by="office")


def test_the_first_entry_of_a_day_and_every_so_many_bring_one(record, person, clock):
    seen = []
    for count, step in ((1, 0), (3, 0), (1, 26), (EVERY - 1, 0), (1, 0)):
        clock.advance(timedelta(hours=step))
        add(record, person, count)
        with record.reading() as r:
            seen.append((newest(r).number, newest(r).entries))

    assert seen == [(1, 1), (1, 1), (2, 5), (2, 5), (3, 261)]


def test_it_covers_all_entries_as_a_tree_head_and_all_heads(record, person, clock):
    add(record, person, 4)
    with record.writing() as w:
        point = checkpoint(w)
    with record.reading() as r:
        digests = [row.digest for row in ledger.entries(r)]
        assert point.entries == 4
        assert point.entries_root == tree.root(entry_leaf(digest) for digest in digests).hex()
        assert point.heads_root == heads_root([(person, 4, digests[-1])])
        assert json.loads(point.frontier) == [point.entries_root]
        assert heads.people(r) == [(person, 4, digests[-1])]
        assert heads.head(r, heads.CHECKPOINTS) == (2, point.digest)


def test_they_form_a_chain_of_their_own(record, person):
    add(record, person)
    with record.reading() as r:
        first = newest(r)
    add(record, person)
    with record.writing() as w:
        second = checkpoint(w)

    assert (first.previous, second.previous, second.reference) == (START, first.digest, "C-2")
    assert digest_of(second) == second.digest


def test_without_a_new_entry_there_is_no_new_one(record, person):
    add(record, person)
    with record.writing() as w:
        assert checkpoint(w) == checkpoint(w) == newest(w)


def test_a_later_one_is_proved_to_go_on_from_an_earlier_one(record, person):
    add(record, person, 3)
    with record.writing() as w:
        early = checkpoint(w)
    add(record, person, 5)
    with record.writing() as w:
        late = checkpoint(w)
        leaves = [entry_leaf(row.digest) for row in ledger.entries(w)]
    proof = tree.consistency(leaves, early.entries)

    assert tree.consistent(3, 8, proof, bytes.fromhex(early.entries_root), bytes.fromhex(late.entries_root))
