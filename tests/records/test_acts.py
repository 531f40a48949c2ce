"""What goes on the record beside papers and practicals: each act is one entry, with who did it and why."""

from datetime import date, timedelta

import pytest
from records.site import INDUCTION, TODAY, entitle

from trainer.errors import Missing, NotEntitled, RecordError, UsageError
from trainer.records import acts, assignments, ledger, people
from trainer.records.chain import EntryKind
from trainer.records.effects import facts
from trainer.records.entitlements import may_judge
from trainer.records.standing import standing


def stand(site, person=None, machine="PB-1", on=None, known_on=None):
    with site.record.reading() as r:
        return standing(
            r,
            site.bank,
            person=person or site.learner,
            machine=machine,
            role="operator",
            on=on or site.today(),
            known_on=known_on,
        )


@pytest.fixture
def authorised(site):
    site.sit(site.learner)
    site.show(site.learner)
    assert stand(site).may_run
    return site


def test_an_assignment_says_what_why_and_by_whom(record, site):
    with record.writing() as w:
        entry = assignments.assign(
            w,
            person=site.learner,
            programme=INDUCTION,
            by=site.trainer,
            reason="hired",
            happened_on=TODAY,
            machine="PB-1",
            due_on=TODAY + timedelta(days=7),
        )

    assert entry.kind is EntryKind.ASSIGNED
    assert entry.body == {"programme": INDUCTION, "reason": "hired", "machine": "PB-1", "due_on": "2026-03-16"}
    with pytest.raises(Missing), record.writing() as w:
        assignments.assign(
            w, person=site.learner, programme=INDUCTION, by="x", reason="hired", happened_on=TODAY, machine="PB-9"
        )


def test_nobody_gives_themselves_the_right_to_judge(record, site):
    with pytest.raises(NotEntitled), record.writing() as w:
        entitle(w, site, by=site.trainer)


@pytest.mark.parametrize(
    "wrong", [{"machine_kinds": []}, {"roles": ()}, {"basis": " "}, {"valid_to": date(2026, 3, 8)}]
)
def test_a_right_to_judge_is_for_something_and_for_some_time(record, site, wrong):
    with pytest.raises(UsageError), record.writing() as w:
        entitle(w, site, **wrong)


def test_a_right_to_judge_may_begin_later_than_it_was_given(record, site):
    with record.writing() as w:
        entitle(w, site, roles=["helper"], valid_from=TODAY + timedelta(days=7))
    with record.reading() as r:
        days = (TODAY + timedelta(days=6), TODAY + timedelta(days=7))
        found = [may_judge(r, site.trainer, "press-brake-hydraulic", "helper", day) for day in days]
    assert [entry and entry.number for entry in found] == [None, 2]


def test_nothing_is_recorded_for_a_day_that_has_not_come(record, site):
    tomorrow = TODAY + timedelta(days=1)
    with pytest.raises(RecordError, match="2026-03-10 has not come yet"), record.writing() as w:
        entitle(w, site, happened_on=tomorrow)
    with pytest.raises(RecordError, match="has not come yet"), record.writing() as w:
        acts.suspend(w, person=site.learner, reason="x", by=site.officer, happened_on=tomorrow)


def test_attending_alone_never_authorises(record, site):
    with record.writing() as w:
        entry = acts.attend(
            w,
            person=site.learner,
            topic="Pedals",
            presenter=site.trainer,
            by=site.trainer,
            happened_on=TODAY,
            machine="PB-1",
        )

    assert (entry.kind, entry.body["machine"]) == (EntryKind.ATTENDED, "PB-1")
    assert (stand(site).word, stand(site).may_run) == ("attended", False)


def prior(site, **changed):
    given = {
        "person": site.learner,
        "programme": INDUCTION,
        "evidence": "Certificate of 14 pages.",
        "trained_on": date(2025, 9, 1),
        "assessor": site.trainer,
        "reason": "hired",
        "happened_on": TODAY,
    }
    with site.record.writing() as w:
        return acts.accept_prior(w, site.bank, **(given | changed))


def test_prior_training_counts_from_its_own_day_and_still_needs_the_practical(site):
    entry = prior(site)
    assert (entry.body["due_on"], entry.by) == ("2026-09-01", site.trainer)
    assert stand(site).word == "practical-pending"
    site.show(site.learner)
    assert stand(site).holds_until == date(2026, 9, 1)


@pytest.mark.parametrize(
    ("wrong", "error"),
    [
        ({"trained_on": date(2026, 3, 10)}, UsageError),
        ({"evidence": " "}, UsageError),
        ({"programme": "no-such"}, Missing),
        ({"happened_on": date(2026, 3, 10)}, RecordError),
    ],
)
def test_prior_training_needs_evidence_and_a_day_that_fits(site, wrong, error):
    with pytest.raises(error):
        prior(site, **wrong)
    with pytest.raises(NotEntitled):
        prior(site, assessor=site.learner)


def test_a_suspension_holds_until_somebody_else_ends_it(record, authorised):
    site = authorised
    with record.writing() as w:
        held = acts.suspend(w, person=site.learner, reason="Key off.", by=site.trainer, happened_on=TODAY)
    assert stand(site).word == "suspended"
    with pytest.raises(NotEntitled), record.writing() as w:
        acts.reinstate(w, suspension=held.number, reason="x", by=site.learner, happened_on=TODAY)
    with pytest.raises(RecordError, match="not of the kind suspended"), record.writing() as w:
        acts.reinstate(w, suspension=1, reason="x", by=site.officer, happened_on=TODAY)
    with record.writing() as w:
        acts.reinstate(w, suspension=held.number, reason="Briefed.", by=site.officer, happened_on=TODAY)
    assert stand(site).may_run


def test_a_changed_machine_needs_a_new_practical_of_everybody_who_showed_their_work_there(record, authorised, clock):
    site = authorised
    clock.advance(timedelta(days=1))
    with record.writing() as w:
        events = acts.machine_changed(w, machine="PB-1", note="New control.", by=site.officer, happened_on=w.today())
        assert (
            acts.machine_changed(w, machine="PB-4", note="New control.", by=site.officer, happened_on=w.today()) == []
        )
    assert [event.person for event in events] == [site.learner]
    assert stand(site).word == "practical-pending"
    assert stand(site, on=TODAY).may_run
    site.show(site.learner)
    assert stand(site).may_run


def test_a_withdrawn_practical_no_longer_authorises_but_did_so_as_known_then(record, authorised, clock):
    site = authorised
    clock.advance(timedelta(days=3))
    with record.writing() as w:
        acts.withdraw(w, entry=3, reason="Wrong person.", by=site.officer, happened_on=w.today())

    assert stand(site, on=TODAY).word == "practical-pending"
    assert stand(site, on=TODAY, known_on=TODAY).may_run


def test_a_right_that_was_entered_by_mistake_takes_its_practicals_along(record, authorised):
    site = authorised
    with record.writing() as w:
        acts.withdraw(w, entry=1, reason="Never appointed.", by=site.officer, happened_on=TODAY)

    assert stand(site).word == "practical-pending"
    assert any("no right to sign" in str(reason.sentence) for reason in stand(site).reasons)


def test_a_corrected_day_moves_the_due_day(record, authorised):
    site = authorised
    with record.writing() as w:
        acts.replace(
            w, entry=2, day=TODAY - timedelta(days=5), reason="Sat on paper.", by=site.officer, happened_on=TODAY
        )

    assert stand(site).holds_until == date(2027, 3, 4)


def test_a_part_of_an_entry_is_corrected_and_the_rest_stays(record, authorised):
    site = authorised
    with record.writing() as w:
        acts.replace(w, entry=3, instead={"machine": "PB-4"}, reason="Other brake.", by=site.officer, happened_on=TODAY)
        acts.replace(w, entry=3, instead={"comment": "Seen."}, reason="Note.", by=site.officer, happened_on=TODAY)
    with record.reading() as r:
        (fact,) = [fact for fact in facts(ledger.entries(r, person=site.learner)) if fact.number == 3]

    assert (fact.body["machine"], fact.body["comment"], fact.body["result"]) == ("PB-4", "Seen.", "passed")
    assert fact.numbers == (3, 4, 5)
    assert not stand(site).may_run


def test_an_entry_moves_to_the_person_it_belongs_to_with_two_people(record, authorised):
    site = authorised
    with record.writing() as w:
        second = people.add(w, number="00119", name="Ines Kowal", roles=("trainer",)).key
        plain = people.add(w, number="00120", name="Bo Lindahl").key
    given = {"entry": 2, "to": site.trainer, "reason": "Badge mix-up.", "happened_on": TODAY, "by": site.officer}
    with pytest.raises(RecordError, match="two people"), record.writing() as w:
        acts.move(w, approved_by=site.officer, **given)
    with pytest.raises(NotEntitled, match="their own record"), record.writing() as w:
        acts.move(w, approved_by=site.trainer, **given)
    with pytest.raises(NotEntitled, match="a trainer or an officer"), record.writing() as w:
        acts.move(w, approved_by=plain, **given)
    with record.writing() as w:
        away, here = acts.move(w, approved_by=second, **given)

    assert (away.person, here.person) == (site.learner, site.trainer)
    assert not stand(site).may_run
    assert stand(site, site.trainer).word == "practical-pending"
    with pytest.raises(RecordError, match="L-2 does not count any more"), record.writing() as w:
        acts.move(w, approved_by=second, **given)
    with pytest.raises(RecordError, match="cannot be moved"), record.writing() as w:
        acts.move(w, approved_by=second, **(given | {"entry": away.number}))


@pytest.mark.parametrize("act", ["withdraw", "replace", "suspend", "excuse", "revoke", "reinstate"])
def test_whoever_changes_what_counts_says_why(record, site, act):
    given = {
        "withdraw": {"entry": 1},
        "replace": {"entry": 1},
        "suspend": {"person": site.learner},
        "excuse": {"person": site.learner, "programme": INDUCTION, "until": TODAY},
        "revoke": {"entitlement": 1},
        "reinstate": {"suspension": 2},
    }
    with record.writing() as w:
        acts.suspend(w, person=site.learner, reason="x", by=site.officer, happened_on=TODAY)
    with pytest.raises(UsageError, match="Say why"), record.writing() as w:
        getattr(acts, act)(w, **given[act], reason="  ", by=site.officer, happened_on=TODAY)


def test_an_act_on_an_entry_that_is_not_there_names_it(record, site):
    with pytest.raises(Missing, match="L-99"), record.writing() as w:
        acts.withdraw(w, entry=99, reason="x", by=site.officer, happened_on=TODAY)


def test_every_act_is_one_entry_more(record, site):
    with record.writing() as w:
        acts.event(w, person=site.learner, event="unsafe-act", note="Reached in.", by=site.trainer, happened_on=TODAY)
        acts.excuse(w, person=site.learner, programme=INDUCTION, until=TODAY, reason="Ill.", by="x", happened_on=TODAY)
    with record.reading() as r:
        assert ledger.size(r) == 3
        assert ledger.verify(r).good


def test_a_practical_of_before_a_change_that_is_keyed_in_later_does_not_authorise(record, site, clock):
    """The paper form of 9 March comes in on the 12th; the machine was changed on the 10th, when nobody knew of it."""
    site.sit(site.learner)
    clock.advance(timedelta(days=1))
    with record.writing() as w:
        assert acts.machine_changed(w, machine="PB-1", note="New tool.", by=site.officer, happened_on=w.today()) == []
    clock.advance(timedelta(days=2))
    site.show(site.learner, happened_on=TODAY)
    assert stand(site, on=site.today()).word == "practical-pending"
    site.show(site.learner)
    assert stand(site, on=site.today()).may_run


def test_a_practical_that_was_moved_to_a_person_is_shown_again_after_a_change_too(record, site, clock):
    with record.writing() as w:
        other = people.add(w, number="00307", name="Ramiro Quispe").key
    site.sit(site.learner)
    entry = site.show(other)
    with record.writing() as w:
        acts.move(
            w, entry=entry.number, to=site.learner, reason="Wrong badge.", by=site.trainer, approved_by=site.officer,
            happened_on=TODAY,
        )  # fmt: skip
    assert stand(site).may_run
    clock.advance(timedelta(days=1))
    with record.writing() as w:
        acts.machine_changed(w, machine="PB-1", note="New tool.", by=site.officer, happened_on=w.today())
    assert stand(site, on=site.today()).word == "practical-pending"
