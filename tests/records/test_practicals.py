"""Who signs has the right to, on that day, for that kind of machine and role; and never for themselves."""

from datetime import date, timedelta

import pytest
from records.site import TODAY, entitle

from trainer.errors import Missing, NotEntitled, RecordError, UsageError
from trainer.records import acts, ledger, people, practicals
from trainer.records.chain import EntryKind

STEPS = "operator-hydraulic-brake"


def test_a_signed_practical_names_machine_checklist_evaluator_and_by_what_right(site):
    entry = site.show(site.learner)
    body = entry.body

    assert (entry.kind, entry.person, entry.by) == (EntryKind.PRACTICAL_SIGNED, site.learner, site.trainer)
    assert (body["machine"], body["machine_kind"], body["role"]) == ("PB-1", "press-brake-hydraulic", "operator")
    assert (body["evaluator"], body["entitlement"], body["result"]) == (site.trainer, 1, "passed")
    assert set(body["steps"].values()) == {"right"}
    assert (body["edition"], body["fingerprint"]) == (site.bank.edition, site.bank.fingerprint)


def test_nobody_signs_for_themselves(site):
    with pytest.raises(NotEntitled, match="themselves"):
        site.show(site.trainer)


@pytest.mark.parametrize("who", ["learner", "officer"])
def test_nobody_signs_without_the_right(site, who):
    other = site.officer if who == "learner" else site.learner
    with pytest.raises(NotEntitled, match="No right to judge operator"):
        site.show(other, evaluator=getattr(site, who))


def test_the_right_is_for_kinds_of_machine_and_roles(record, site):
    with record.reading() as r:

        def may(kind, role):
            return practicals.may_judge(r, site.trainer, kind, role, TODAY) is not None

        assert may("press-brake-hydraulic", "operator")
        assert not may("press-brake-mechanical", "operator")
        assert not may("press-brake-hydraulic", "helper")


def test_the_right_begins_and_ends_on_its_days(record, site):
    with record.reading() as r:
        days = (TODAY - timedelta(days=1), TODAY, date(2027, 12, 31), date(2028, 1, 1))
        found = [practicals.may_judge(r, site.trainer, "press-brake-hydraulic", "operator", day) for day in days]

    assert [entry and entry.number for entry in found] == [None, 1, 1, None]


def test_a_right_that_ended_leaves_what_was_signed_and_blocks_what_is_new(record, site, clock):
    site.show(site.learner)
    clock.advance(timedelta(days=5))
    with record.writing() as w:
        acts.revoke(w, entitlement=1, reason="Left the team.", by=site.officer, happened_on=w.today())
    with pytest.raises(NotEntitled):
        site.show(site.learner)
    late = site.show(site.learner, happened_on=TODAY + timedelta(days=4), comment="Was on paper.")

    assert late.body["entitlement"] == 1


def test_a_second_right_takes_over(record, site):
    with record.writing() as w:
        entitle(w, site, valid_to=date(2026, 4, 1), roles=["operator", "helper"])
        acts.revoke(w, entitlement=1, reason="Wrong dates.", by=site.officer, happened_on=TODAY)

    assert site.show(site.learner).body["entitlement"] == 2


def test_rights_in_force_are_listed(record, site):
    with record.reading() as r:
        (right,) = practicals.entitlements(r, TODAY)
        assert practicals.entitlements(r, date(2028, 1, 1)) == []
    assert (right.person, right.machine_kinds, right.roles) == (site.trainer, ("press-brake-hydraulic",), ("operator",))
    assert (right.valid_to, right.entry) == (date(2027, 12, 31), 1)


def steps(site, **changed):
    return {step.id: "right" for step in site.bank.checklists[STEPS].steps} | changed


def critical(site, *, is_critical: bool):
    return next(step.id for step in site.bank.checklists[STEPS].steps if step.critical is is_critical)


def test_a_failed_critical_step_fails_it_and_the_rest_may_stay_open(site):
    name = critical(site, is_critical=True)
    some = dict.fromkeys(steps(site)) | {name: "failed"}
    entry = site.show(site.learner, steps=some, comment="Reached in.")

    assert (entry.body["result"], entry.body["critical_failed"]) == ("failed", [name])


def test_a_failed_step_that_is_not_critical_is_passed_with_its_comment(site):
    entry = site.show(site.learner, failing=critical(site, is_critical=False))

    assert (entry.body["result"], entry.body["critical_failed"]) == ("passed", [])
    assert entry.body["comment"].startswith("The pedal")


@pytest.mark.parametrize("is_critical", [True, False])
def test_a_failed_step_needs_a_comment(site, is_critical):
    with pytest.raises(RecordError, match="needs a comment"):
        site.show(site.learner, failing=critical(site, is_critical=is_critical), comment="  ")


def test_a_step_without_an_outcome_is_refused(site):
    with pytest.raises(RecordError, match="1 steps have no outcome"):
        site.show(site.learner, steps=steps(site, **{critical(site, is_critical=False): None}))
    with pytest.raises(RecordError, match="no outcome"):
        site.show(site.learner, steps={})


@pytest.mark.parametrize("wrong", [{"no-such-step": "right"}, {"curtain-test": "maybe"}])
def test_a_step_or_outcome_that_there_is_not_is_refused(site, wrong):
    with pytest.raises(UsageError, match="right or failed"):
        site.show(site.learner, steps=steps(site, **wrong))


@pytest.mark.parametrize(
    ("wrong", "error"),
    [
        ({"checklist": "no-such"}, Missing),
        ({"machine": "PB-9"}, Missing),
        ({"person": "nobody"}, Missing),
        ({"machine": "PB-4"}, UsageError),
        ({"role": "helper"}, UsageError),
        ({"happened_on": TODAY + timedelta(days=1)}, RecordError),
    ],
)
def test_names_and_days_that_do_not_fit_are_refused_and_nothing_is_written(record, site, wrong, error):
    with pytest.raises(error):
        site.show(**({"person": site.learner} | wrong))
    with record.reading() as r:
        assert ledger.size(r) == 1


@pytest.mark.parametrize("who", ["learner", "trainer"])
def test_a_day_on_which_either_did_not_belong_to_the_site_is_refused(record, site, who):
    with record.writing() as w:
        people.change(w, getattr(site, who), started=TODAY - timedelta(days=3))
    with pytest.raises(RecordError, match="before the first day here"):
        site.show(site.learner, happened_on=TODAY - timedelta(days=4))


def test_after_the_last_day_nothing_is_signed(record, site):
    with record.writing() as w:
        people.leave(w, site.learner, on=TODAY - timedelta(days=1), by=site.officer)
    with pytest.raises(RecordError, match="after the last day here"):
        site.show(site.learner)
