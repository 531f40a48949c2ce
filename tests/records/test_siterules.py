"""Rules of the site: on record, from a day on, never backwards."""

from datetime import timedelta

import pytest
from records.site import INDUCTION, REFRESHER, TODAY, Site

from trainer.errors import NotEntitled, UsageError
from trainer.records import acts, ledger
from trainer.records.siterules import EVERY, DueRule, policy, set_due, set_smallest_group, smallest_group

LATER = TODAY + timedelta(days=10)


def set_one(site: Site, programme: str, months: str | None, **given: object) -> object:
    rule = None if months is None else DueRule(period=months)
    with site.record.writing() as w:
        told = {"since": site.today(), "by": site.officer, "reason": "Works council"} | given
        return set_due(w, site.bank, programme=programme, rule=rule, **told)  # type: ignore[arg-type]


def period(site: Site, programme: str, on: object = TODAY) -> str:
    with site.record.reading() as r:
        return policy(r, site.bank, programme, on).period  # type: ignore[arg-type]


def test_a_rule_holds_from_its_day_on_and_changes_no_entry(site: Site) -> None:
    own = site.bank.programme(INDUCTION).interval
    before = site.sit(site.learner)
    set_one(site, EVERY, "P6M", since=LATER)
    assert (period(site, INDUCTION), period(site, INDUCTION, LATER)) == (own, "P6M")
    set_one(site, INDUCTION, "P3M")
    after = site.sit(site.trainer)
    assert (before.body["policy"]["period"], after.body["policy"]["period"]) == (own, "P3M")
    assert after.body["due_on"] < before.body["due_on"]
    assert (period(site, INDUCTION, LATER), period(site, REFRESHER, LATER)) == ("P3M", "P6M")
    set_one(site, INDUCTION, None)
    assert (period(site, INDUCTION), period(site, INDUCTION, LATER)) == (own, "P6M")
    with site.record.reading() as r:
        assert ledger.entry(r, before.number).body == before.body


def test_a_rule_that_was_withdrawn_holds_no_more(site: Site) -> None:
    own = period(site, INDUCTION)
    made = set_one(site, INDUCTION, "P3M")
    with site.record.writing() as w:
        acts.withdraw(w, entry=made.number, reason="Typed wrong", by=site.trainer, happened_on=w.today())  # type: ignore[attr-defined]
    assert period(site, INDUCTION) == own


def test_what_makes_no_rule_is_refused(site: Site) -> None:
    for months, given in (
        ("P3M", {"since": TODAY - timedelta(days=1)}),
        ("P61M", {}),
        ("x", {}),
        ("P3M", {"reason": ""}),
    ):
        with pytest.raises(UsageError):
            set_one(site, INDUCTION, months, **given)
    with pytest.raises(NotEntitled):
        set_one(site, INDUCTION, "P3M", by=site.trainer)


def test_the_smallest_group_can_be_raised_and_not_lowered(site: Site) -> None:
    with site.record.writing() as w:
        set_smallest_group(w, least=8, since=LATER, by=site.officer, reason="Works council")
        assert (smallest_group(w, TODAY), smallest_group(w, LATER)) == (5, 8)
    with site.record.writing() as w, pytest.raises(UsageError, match="5 to 50"):
        set_smallest_group(w, least=4, since=TODAY, by=site.officer, reason="x")
