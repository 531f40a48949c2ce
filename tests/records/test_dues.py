"""Who is due, for what, and why."""

from datetime import date, timedelta

from records.site import INDUCTION, REFRESHER, TODAY

from trainer.records import acts, assignments, people
from trainer.records.dues import due_list


def due(site, *, on=None, days=90):
    with site.record.reading() as r:
        return due_list(r, site.bank, on=on or site.today(), days=days)


def assign(site, **more):
    with site.record.writing() as w:
        return assignments.assign(
            w,
            **({"person": site.learner, "programme": INDUCTION, "by": site.trainer, "reason": "hired"} | more),
            happened_on=w.today(),
        )


def test_an_assignment_is_due_until_it_is_passed(site):
    entry = assign(site, machine="PB-1")
    (row,) = due(site)

    assert (row.person, row.programme, row.machines) == (site.learner, INDUCTION, ("PB-1",))
    assert (row.state, row.due_on, row.entry) == ("assigned", TODAY, entry.number)
    assert str(row.reason) == "Assigned on 2026-03-09: hired"
    site.sit(site.learner, right=False)
    assert len(due(site)) == 1
    site.talk_over(site.learner)
    site.sit(site.learner)
    assert due(site) == []


def test_an_assignment_without_a_machine_is_for_all_that_its_programme_covers(site):
    assign(site, due_on=TODAY + timedelta(days=5))
    (row,) = due(site)

    assert (row.machines, row.due_on) == (("PB-1", "PB-4"), TODAY + timedelta(days=5))


def test_two_assignments_of_one_programme_are_one_row_with_the_earlier_day(site):
    assign(site, machine="PB-4", due_on=TODAY + timedelta(days=9))
    last = assign(site, machine="PB-1", due_on=TODAY + timedelta(days=12), reason="moved")
    (row,) = due(site)

    assert (row.machines, row.due_on, row.entry) == (("PB-1", "PB-4"), TODAY + timedelta(days=9), last.number)


def test_what_was_passed_falls_due_and_then_is_overdue_and_the_refresher_renews_it(site, clock):
    entry = site.sit(site.learner)
    site.show(site.learner)
    end = date(2027, 3, 9)

    assert due(site, on=end - timedelta(days=91)) == []
    (row,) = due(site, on=end - timedelta(days=90))
    assert (row.state, row.programme, row.due_on, row.entry) == ("due", REFRESHER, end, entry.number)
    assert row.machines == ("PB-1",)
    assert due(site, on=end)[0].state == "due"
    (row,) = due(site, on=end + timedelta(days=1))
    assert (row.state, str(row.reason)) == ("overdue", "Passed on 2026-03-09; it lapsed after 2027-03-09.")
    clock.advance(timedelta(days=370))
    site.sit(site.learner, REFRESHER)
    assert due(site) == []


def test_who_is_excused_is_not_reminded_until_that_day_is_over(record, site):
    assign(site)
    until = TODAY + timedelta(days=10)
    with record.writing() as w:
        acts.excuse(w, person=site.learner, programme=INDUCTION, until=until, reason="Ill.", by="x", happened_on=TODAY)

    assert due(site, on=until) == []
    assert len(due(site, on=until + timedelta(days=1))) == 1


def test_who_left_is_not_due(record, site, clock):
    assign(site)
    with record.writing() as w:
        people.leave(w, site.learner, on=TODAY, by=site.officer)

    assert len(due(site, on=TODAY)) == 1
    assert due(site, on=TODAY + timedelta(days=1)) == []


def test_who_came_back_is_overdue_at_once(record, site, clock):
    site.sit(site.learner)
    site.show(site.learner)
    clock.advance(timedelta(days=30))
    with record.writing() as w:
        acts.event(w, person=site.learner, event="returned", note="", by=site.officer, happened_on=w.today())

    assert [(row.state, row.programme) for row in due(site)] == [("overdue", REFRESHER)]


def test_the_most_pressing_comes_first(site, clock):
    site.sit(site.learner)
    clock.advance(timedelta(days=300))
    assign(site, person=site.officer)
    rows = due(site, days=3650)

    assert [row.due_on for row in rows] == sorted(row.due_on for row in rows)
    assert len(rows) == 2
