"""Supervised only: by whom is named, by a right that is in force on that day, and nobody stands by for themselves."""

from datetime import date, timedelta

import pytest
from records.site import entitle

from trainer.errors import NotEntitled, UsageError
from trainer.records import acts, people
from trainer.records.entitlements import may_judge
from trainer.records.standing import standing

NOBODY = "Nobody may stand by there"


def stand(site, on=None, known_on=None):
    with site.record.reading() as r:
        return standing(
            r, site.bank, person=site.learner, machine="PB-1", role="operator", on=on or site.today(), known_on=known_on
        )


@pytest.fixture
def failed(site):
    site.sit(site.learner)
    step = next(step.id for step in site.bank.checklists["operator-hydraulic-brake"].steps if step.critical)
    site.show(site.learner, failing=step)
    return site


def told(one):
    return " ".join(str(text) for text in (*(reason.sentence for reason in one.reasons), *one.lacks))


def test_whoever_may_judge_there_may_stand_by_and_is_named_with_the_entry(failed):
    one = stand(failed)
    assert one.word == "supervised"
    assert one.supervisors == (failed.trainer,)
    assert "May stand by there: Rosalind Achterberg (00101)." in told(one)
    assert any(1 in reason.entries for reason in one.reasons)  # the entry of the right


def test_a_right_to_stand_by_names_its_holder_and_gives_no_right_to_judge(record, failed, clock):
    with record.writing() as w:
        other = people.add(w, number="00307", name="Ramiro Quispe").key
        made = entitle(w, failed, person=other, right="supervise", valid_to=w.today() + timedelta(days=10))
    assert set(stand(failed).supervisors) == {failed.trainer, other}
    with record.reading() as r:
        assert may_judge(r, other, "press-brake-hydraulic", "operator", r.today()) is None
    clock.advance(timedelta(days=11))
    assert stand(failed).supervisors == (failed.trainer,)  # its last day is over
    assert other in stand(failed, on=failed.today() - timedelta(days=1)).supervisors
    assert made.body["right"] == "supervise"


def test_nobody_left_to_stand_by_is_said_and_a_holder_who_left_or_is_suspended_does_not_count(record, failed, clock):
    with record.writing() as w:
        acts.suspend(w, person=failed.trainer, reason="x", by=failed.officer, happened_on=w.today())
    assert stand(failed).supervisors == ()
    assert NOBODY in told(stand(failed))
    assert not stand(failed).may_run


def test_a_right_counts_as_it_was_known(record, failed, clock):
    day = failed.today()
    clock.advance(timedelta(days=5))
    with record.writing() as w:
        acts.revoke(w, entitlement=1, reason="Left the team", by=failed.officer, happened_on=day)
    assert stand(failed, on=day).supervisors == ()
    assert stand(failed, on=day, known_on=day).supervisors == (failed.trainer,)


def test_who_is_supervised_never_stands_by_for_themselves(record, failed):
    with record.writing() as w:
        entitle(w, failed, person=failed.learner, right="supervise")
    assert stand(failed).supervisors == (failed.trainer,)


def test_a_right_is_one_to_judge_or_to_stand_by_and_nobody_gives_it_to_themselves(record, site):
    with pytest.raises(UsageError, match="judge and supervise"), record.writing() as w:
        entitle(w, site, right="run", valid_to=date(2027, 12, 31))
    with pytest.raises(NotEntitled, match="themselves"), record.writing() as w:
        entitle(w, site, person=site.officer, right="supervise")
