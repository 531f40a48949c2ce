"""Proofs made while the leaves go by once are those of RFC 6962."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from records.site import TODAY

from trainer.errors import Missing, RecordError
from trainer.records import headtree, ledger, people, proofs, tree
from trainer.records.chain import EntryKind
from trainer.records.checkpoints import checkpoint


@settings(deadline=None)
@given(st.integers(1, 90), st.data())
def test_stretches_give_the_proofs_that_the_whole_tree_gives(size, data):
    leaves = [tree.leaf(str(number).encode()) for number in range(size)]
    index, earlier = data.draw(st.integers(0, size - 1)), data.draw(st.integers(0, size))
    single, start = proofs.inclusion_spans(index, size), proofs.consistency_spans(earlier, size)
    kept = proofs.span_hashes(iter(leaves), {*single, *start})

    assert [kept[span] for span in single] == tree.inclusion(leaves, index)
    assert [kept[span] for span in start] == tree.consistency(leaves, earlier)


@pytest.fixture
def point(site, record):
    with record.writing() as w:
        for count in range(7):
            ledger.append(
                w,
                (site.learner, site.officer)[count % 2],
                EntryKind.ATTENDED,
                {"topic": f"Talk {count}"},
                happened_on=TODAY,
                by=site.trainer,
            )
        return checkpoint(w)


def test_every_chain_is_proved_against_the_checkpoint(site, record, point):
    with record.reading() as r:
        found = proofs.of_chains(r, [site.learner, site.officer, site.trainer])
        assert proofs.sealed(r) == point
    for each in found:
        leaf = headtree.leaf(each.person, each.seq, each.digest)
        path = [bytes.fromhex(step) for step in each.path]
        assert tree.included(leaf, each.index, each.size, path, bytes.fromhex(point.heads_root))
        assert each.size == point.chains == 3


def test_single_entries_and_earlier_trees_are_proved(record, point):
    with record.reading() as r:
        digests = [ledger.entry(r, number).digest for number in range(1, point.entries + 1)]
        found = proofs.of_tree(r, point.entries, numbers=[1, 5], earlier=[1, 3])
    leaves = [tree.leaf(digest.encode()) for digest in digests]

    assert found.entries == {n: tuple(step.hex() for step in tree.inclusion(leaves, n - 1)) for n in (1, 5)}
    assert found.earlier == {n: tuple(step.hex() for step in tree.consistency(leaves, n)) for n in (1, 3)}
    assert tree.root(leaves).hex() == point.entries_root


def test_a_checkpoint_that_is_behind_seals_nothing(site, record, point):
    with record.writing() as w:
        ledger.append(w, site.learner, EntryKind.ATTENDED, {"topic": "x"}, happened_on=TODAY, by="x")
    with record.reading() as r, pytest.raises(RecordError, match="in the meantime"):
        proofs.sealed(r)


def test_somebody_without_an_entry_has_no_proof(record, site):
    with record.writing() as w:
        key = people.add(w, number="7", name="Nobody Yet").key
    with record.reading() as r, pytest.raises(Missing, match="no entry"):
        proofs.of_chains(r, [key])
