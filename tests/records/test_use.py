"""A machine that was not used for too long pauses whoever may run it; what nobody noted did not happen."""

from datetime import date, timedelta

import pytest
from records.site import INDUCTION

from trainer.errors import NotEntitled
from trainer.records import acts, ledger, pausing
from trainer.records.chain import EntryKind
from trainer.records.duedates import Policy
from trainer.records.standing import standing

BACK = "press-brake-return"


@pytest.fixture
def authorised(site, monkeypatch):
    """Return a site whose induction pauses after three months without use, with an authorised learner."""
    from trainer.records import terms

    plain = terms.policy
    monkeypatch.setattr(
        terms, "policy", lambda programme: Policy(**{**plain(programme).as_data(), "pause_after": "P3M"})
    )
    site.sit(site.learner, INDUCTION)
    site.show(site.learner)
    return site


def stand(site, on=None):
    with site.record.reading() as r:
        return standing(r, site.bank, person=site.learner, machine="PB-1", role="operator", on=on or site.today())


def note(site, what, by=None):
    with site.record.writing() as w:
        return acts.note_use(
            w, person=site.learner, machine="PB-1", what=what, by=by or site.trainer, happened_on=w.today()
        )


def told(one):
    return " ".join(str(text) for text in (*(reason.sentence for reason in one.reasons), *one.lacks))


def test_it_holds_to_the_day_on_which_the_time_without_use_is_over(authorised):
    one = stand(authorised)
    assert (one.word, one.holds_until) == ("authorised", date(2026, 6, 9))
    assert stand(authorised, on=date(2026, 6, 9)).may_run
    over = stand(authorised, on=date(2026, 6, 10))
    assert (over.word, over.may_run) == ("paused", False)
    assert "Paused: not used since 2026-03-09" in told(over)
    assert "The way back has to be passed" in told(over)


def test_noted_use_carries_it_on_and_nobody_notes_their_own(authorised, clock):
    clock.advance(timedelta(days=60))
    with pytest.raises(NotEntitled, match="their own use"):
        note(authorised, "used", by=authorised.learner)
    note(authorised, "used")
    assert stand(authorised).holds_until == date(2026, 8, 8)


def test_working_all_the_same_does_not_bring_it_back_and_a_check_alone_neither(authorised, clock):
    clock.advance(timedelta(days=100))
    note(authorised, "used")
    note(authorised, "pre-start-check")
    assert stand(authorised).word == "paused"


def test_the_way_back_and_then_a_check_bring_it_back(authorised, clock):
    clock.advance(timedelta(days=100))
    authorised.sit(authorised.learner, BACK)
    assert "a pre-start check has to be noted" in told(stand(authorised))
    note(authorised, "used")
    assert stand(authorised).word == "paused"
    note(authorised, "pre-start-check")
    assert stand(authorised).may_run


def test_the_pause_assigns_the_way_back_once_to_exactly_those_concerned(record, authorised, clock):
    with record.writing() as w:
        assert pausing.assign_ways_back(w, authorised.bank) == []
    clock.advance(timedelta(days=100))
    with record.writing() as w:
        made = pausing.assign_ways_back(w, authorised.bank)
    assert [(one.person, one.body["programme"], one.body["machine"]) for one in made] == [
        (authorised.learner, BACK, "PB-1")
    ]
    with record.writing() as w:
        assert pausing.assign_ways_back(w, authorised.bank) == []
        assert sum(one.kind is EntryKind.ASSIGNED for one in ledger.entries(w, person=authorised.learner)) == 1


def test_a_policy_without_a_pause_says_nothing_of_one():
    assert "pause_after" not in Policy(period="P12M").as_data()
    assert Policy.from_data({"period": "P12M", "pause_after": "P6M"}).paused_after(date(2026, 8, 31)) == date(
        2027, 2, 28
    )
