"""Entries are shown with the names that people had then."""

from datetime import date, timedelta

from records.site import TODAY

from trainer.records import people
from trainer.records.history import history


def test_names_are_those_of_the_day(record, site, clock):
    site.sit(site.learner)
    clock.advance(timedelta(days=20))
    with record.writing() as w:
        people.rename(w, site.learner, name="Dana Novák", number="90241", since=date(2026, 3, 20))
    site.sit(site.learner, right=False)
    with record.reading() as r:
        rows = list(history(r, person=site.learner))

    assert [(row.person.number, row.person.name) for row in rows] == [("00241", "Dana Ruiz"), ("90241", "Dana Novák")]
    assert [row.by for row in rows] == [row.person for row in rows]


def test_lateness_is_counted_in_days_of_the_site(record, site, clock):
    clock.advance(timedelta(days=9, hours=15, minutes=47))  # 23:59 at the site
    site.show(site.learner, happened_on=TODAY)
    with record.reading() as r:
        assert [row.late_days for row in history(r, person=site.learner)] == [9]


def test_a_name_given_later_for_an_earlier_day_counts_for_that_day(record, site):
    with record.writing() as w:
        people.rename(w, site.learner, name="Dana Third", since=date(2026, 6, 1))
        people.rename(w, site.learner, name="Dana Second", since=date(2026, 4, 1))
    site.sit(site.learner)
    with record.reading() as r:
        (row,) = history(r, person=site.learner)
        assert row.person.name == "Dana Ruiz"


def test_who_is_no_person_has_no_name(record, site):
    with record.writing() as w:
        people.leave(w, site.learner, on=TODAY, by="roster import")
    with record.reading() as r:
        (row,) = history(r, person=site.learner)

    assert (row.by, row.entry.by) == (None, "roster import")
