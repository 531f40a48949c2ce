"""Standing comes from the ledger alone, as of a day and as known on a day."""

from datetime import date, timedelta

import pytest
from records.site import INDUCTION, REFRESHER, TODAY

from trainer.errors import Missing
from trainer.records import acts, assignments, ledger, machines, people
from trainer.records.standing import standing, standings


def rows(site, **asked):
    with site.record.reading() as r:
        found = standings(r, site.bank, **({"on": site.today()} | asked))
        names = {person.key: person.number for person in people.everybody(r, on=site.today())}
    return [(names.get(row.person), row.machine, row.role, row.word.value) for row in found]


def assign(site, machine=None, person=None, programme=INDUCTION):
    with site.record.writing() as w:
        return assignments.assign(
            w,
            person=person or site.learner,
            programme=programme,
            by=site.trainer,
            reason="hired",
            happened_on=w.today(),
            machine=machine,
        )


def test_the_first_induction_end_to_end(site, clock):
    assert rows(site) == []
    assign(site, "PB-1")
    assert rows(site) == [("00241", "PB-1", "operator", "theory-open")]
    site.sit(site.learner, right=False)
    assert rows(site) == [("00241", "PB-1", "operator", "theory-open")]
    site.talk_over(site.learner)
    site.sit(site.learner)
    assert rows(site) == [("00241", "PB-1", "operator", "practical-pending")]
    site.show(site.learner, failing="curtain-test")
    assert rows(site) == [("00241", "PB-1", "operator", "supervised")]
    site.show(site.learner)
    assert rows(site) == [("00241", "PB-1", "operator", "authorised")]
    clock.advance(timedelta(days=310))
    assert rows(site) == [("00241", "PB-1", "operator", "refresh-due")]
    site.sit(site.learner, REFRESHER)
    assert rows(site) == [("00241", "PB-1", "operator", "authorised")]
    clock.advance(timedelta(days=366))
    assert rows(site) == [("00241", "PB-1", "operator", "lapsed")]


def test_what_is_recorded_late_is_not_known_before(site, clock):
    site.sit(site.learner)
    clock.advance(timedelta(days=9))
    site.show(site.learner, happened_on=TODAY + timedelta(days=1))

    def word(on, known_on):
        with site.record.reading() as r:
            return standing(
                r, site.bank, person=site.learner, machine="PB-1", role="operator", on=on, known_on=known_on
            ).word

    assert word(TODAY, None) == "practical-pending"
    assert word(TODAY + timedelta(days=1), None) == "authorised"
    assert word(TODAY + timedelta(days=1), TODAY + timedelta(days=8)) == "practical-pending"
    assert word(TODAY + timedelta(days=1), TODAY + timedelta(days=9)) == "authorised"


def test_a_practical_counts_at_that_machine_and_in_that_role_only(site):
    site.sit(site.learner)
    site.show(site.learner)

    assert ("00241", "PB-4", "operator", "authorised") not in rows(site, everything=True)
    assert rows(site, machine="PB-4", everything=True)[0] == ("00241", "PB-4", "operator", "practical-pending")
    assert ("00241", "PB-1", "helper", "no-evidence") in rows(site, everything=True)


def test_without_a_machine_named_every_machine_of_the_kind_concerns_a_person(site):
    assign(site)

    assert rows(site) == [("00241", "PB-1", "operator", "theory-open"), ("00241", "PB-4", "operator", "theory-open")]


def test_everything_lists_every_pair(site):
    pairs = rows(site, everything=True)

    assert len(pairs) == len(set(pairs)) == 3 * 2 * 5
    assert {word for *_, word in pairs} == {"no-evidence"}


def test_attending_a_talk_at_a_machine_shows_there_once(site):
    with site.record.writing() as w:
        acts.attend(w, person=site.learner, topic="x", presenter="x", by="x", happened_on=TODAY, machine="PB-1")

    assert rows(site) == [("00241", "PB-1", "operator", "attended")]


def test_who_left_drops_off_after_the_last_day_and_stays_on_the_lists_of_before(site, clock):
    site.sit(site.learner)
    site.show(site.learner)
    clock.advance(timedelta(days=10))
    with site.record.writing() as w:
        people.leave(w, site.learner, on=TODAY + timedelta(days=10), by=site.officer)
    clock.advance(timedelta(days=5))

    def on(count):
        with site.record.reading() as r:
            return [row.word.value for row in standings(r, site.bank, on=TODAY + timedelta(days=count))]

    assert [on(0), on(10), on(11)] == [["authorised"], ["authorised"], []]
    with site.record.reading() as r:
        asked = {"person": site.learner, "machine": "PB-1", "role": "operator", "on": date(2026, 3, 20)}
        gone = standing(r, site.bank, **asked)
    assert (gone.word, gone.may_run) == ("no-evidence", False)
    assert str(gone.reasons[0].sentence) == "Left; the last day was 2026-03-19."


def test_a_leaving_that_was_entered_late_was_not_known_before(site, clock):
    site.sit(site.learner)
    site.show(site.learner)
    clock.advance(timedelta(days=10))
    with site.record.writing() as w:
        people.leave(w, site.learner, on=TODAY, by=site.officer)
    with site.record.reading() as r:

        def words(**asked):
            return [row.word.value for row in standings(r, site.bank, on=TODAY + timedelta(days=3), **asked)]

        assert words() == []
        assert words(known_on=TODAY + timedelta(days=9)) == ["authorised"]
        assert words(known_on=TODAY + timedelta(days=10)) == []


def test_names_that_do_not_exist_are_refused(record, site):
    asked = {"person": site.learner, "machine": "PB-1", "role": "operator", "on": TODAY}
    for wrong in ({"person": "nobody"}, {"machine": "PB-9"}):
        with pytest.raises(Missing), record.reading() as r:
            standing(r, site.bank, **(asked | wrong))
    with record.reading() as r:
        assert not standing(r, site.bank, **(asked | {"role": "pilot"})).may_run


def test_one_and_many_agree(record, site):
    site.sit(site.learner)
    site.show(site.learner)
    with record.reading() as r:
        for row in standings(r, site.bank, on=TODAY, everything=True):
            alone = standing(r, site.bank, person=row.person, machine=row.machine, role=row.role, on=TODAY)
            assert alone == row


def test_a_sitting_stamped_by_a_wrong_clock_authorises_only_once_its_day_is_confirmed(record, site, clock):
    site.show(site.learner)
    clock.advance(timedelta(days=-20_000))
    entry = site.sit(site.learner)
    clock.advance(timedelta(days=20_000))
    assert entry.happened_on.year == 1971
    assert rows(site) == [("00241", "PB-1", "operator", "theory-open")]
    with record.writing() as w:
        acts.confirm_day(w, entry=entry.number, day=TODAY, reason="Shift log.", by=site.officer, happened_on=TODAY)
    assert rows(site) == [("00241", "PB-1", "operator", "authorised")]


def test_machines_of_a_kind_are_judged_alike_only_where_nothing_names_them(site, record, bank):
    site.sit(site.learner)
    site.show(site.learner)
    with record.writing() as w:
        for number in range(5, 9):
            machines.add(w, id=f"PB-{number}", kind="press-brake-hydraulic", name=f"Press brake {number}")
        acts.suspend(w, person=site.learner, machine="PB-6", reason="Reached in.", by=site.officer, happened_on=TODAY)
        acts.suspend(w, person=site.officer, machine="PB-7", reason="Reached in.", by=site.trainer, happened_on=TODAY)
    with record.reading() as r:
        found = standings(r, bank, on=TODAY, everything=True)
        alone = [standing(r, bank, person=one.person, machine=one.machine, role=one.role, on=TODAY) for one in found]
        of_one = standings(r, bank, on=TODAY, everything=True, person=site.learner)

    assert found == alone
    assert of_one == [one for one in found if one.person == site.learner]
    assert {one.word.value for one in of_one if one.role == "operator"} >= {
        "authorised",
        "suspended",
        "practical-pending",
    }


def test_a_right_that_was_withdrawn_tells_in_the_same_way_for_one_and_for_all(site, record, bank):
    site.sit(site.learner)
    site.show(site.learner)
    with record.reading() as r:
        right = next(row.number for row in ledger.entries(r, person=site.trainer))
    for again in (False, True):  # withdrawn, and the withdrawal withdrawn
        with record.writing() as w:
            right = acts.withdraw(w, entry=right, reason="Never was.", by=site.officer, happened_on=TODAY).number
        with record.reading() as r:
            of_all = [one for one in standings(r, bank, on=TODAY, everything=True) if one.person == site.learner]
            of_one = standings(r, bank, on=TODAY, everything=True, person=site.learner)
            alone = [
                standing(r, bank, person=one.person, machine=one.machine, role=one.role, on=TODAY) for one in of_one
            ]

        assert of_all == of_one == alone
        assert any(one.may_run for one in of_one) is again
