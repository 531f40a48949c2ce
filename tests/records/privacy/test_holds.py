"""A legal hold is an entry; so is its lifting. What is in doubt holds."""

from dataclasses import replace
from datetime import timedelta

import pytest

from trainer.errors import NotEntitled, RecordError
from trainer.records import acts, ledger
from trainer.records.effects import facts
from trainer.records.privacy import holds


def test_it_is_on_from_being_set_until_it_is_lifted(site):
    with site.record.writing() as w:
        entry = holds.set_hold(w, site.learner, by=site.officer, reason="Case 12")
    with site.record.reading() as r:
        found = holds.hold_on(r, site.learner)
        assert (found.since, found.reason, found.entry) == (site.today(), "Case 12", entry.number)
        assert holds.hold_on(r, site.trainer) is None
    with pytest.raises(RecordError, match="already"), site.record.writing() as w:
        holds.set_hold(w, site.learner, by=site.officer, reason="Case 13")

    with site.record.writing() as w:
        holds.lift_hold(w, site.learner, by=site.officer, reason="closed")
        assert holds.hold_on(w, site.learner) is None
    with pytest.raises(RecordError, match="no legal hold"), site.record.writing() as w:
        holds.lift_hold(w, site.learner, by=site.officer, reason="again")


def test_only_an_officer_sets_it_and_nobody_lifts_their_own(site):
    with pytest.raises(NotEntitled), site.record.writing() as w:
        holds.set_hold(w, site.learner, by=site.trainer, reason="x")
    with site.record.writing() as w:
        holds.set_hold(w, site.officer, by=site.officer, reason="x")
    with pytest.raises(RecordError, match="their own"), site.record.writing() as w:
        holds.lift_hold(w, site.officer, by=site.officer, reason="x")


def test_a_hold_that_was_set_by_mistake_can_be_withdrawn(site):
    with site.record.writing() as w:
        entry = holds.set_hold(w, site.learner, by=site.officer, reason="Case 12")
        acts.withdraw(w, entry=entry.number, reason="wrong person", by=site.officer, happened_on=w.today())
        assert holds.hold_on(w, site.learner) is None


def test_a_lifting_in_doubt_lifts_nothing_and_a_hold_in_doubt_holds(site):
    with site.record.writing() as w:
        holds.set_hold(w, site.learner, by=site.officer, reason="Case 12")
        known = facts(ledger.entries(w, person=site.learner))
        assert holds.hold_in([replace(fact, trusted=False) for fact in known]) is not None
    site.clock.advance(timedelta(days=-2))
    with site.record.writing() as w:
        lifted = holds.lift_hold(w, site.learner, by=site.officer, reason="closed")
        assert lifted.unverified
        assert holds.hold_on(w, site.learner) is not None
