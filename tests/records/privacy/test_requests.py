"""Requests are kept with their due day, one month on, and stay open until somebody answers."""

from datetime import date

import pytest

from trainer.errors import Missing, NotEntitled, RecordError, UsageError
from trainer.records.privacy import requests


@pytest.mark.parametrize(
    ("received", "due"),
    [
        (date(2026, 1, 31), date(2026, 2, 28)),
        (date(2024, 1, 31), date(2024, 2, 29)),
        (date(2026, 2, 28), date(2026, 3, 28)),
        (date(2025, 12, 31), date(2026, 1, 31)),
        (date(2026, 3, 9), date(2026, 4, 9)),
    ],
)
def test_a_request_is_due_one_month_on_also_at_the_end_of_a_month(site, received, due):
    with site.record.writing() as w:
        row = requests.receive(w, person=site.learner, kind="copy", received_on=received)

    assert (row.due_on, row.reference, row.answered_on) == (due, "R-1", None)


def test_the_one_that_is_due_first_stands_first_and_answered_ones_below(site):
    with site.record.writing() as w:
        for day in (5, 1, 3):
            requests.receive(w, person=site.learner, kind="copy", received_on=date(2026, 3, day))
        requests.answer(w, 2, by=site.officer, words="handed over")
    with site.record.reading() as r:
        assert [row.id for row in requests.listed(r)] == [3, 1, 2]
        assert [row.id for row in requests.listed(r, only_open=True)] == [3, 1]
        assert requests.listed(r, person=site.trainer) == []


def test_it_is_answered_once_and_by_an_officer(site):
    with site.record.writing() as w:
        requests.receive(w, person=site.learner, kind="correction", received_on=w.today())
    with pytest.raises(NotEntitled), site.record.writing() as w:
        requests.answer(w, 1, by=site.trainer, words="done")
    with site.record.writing() as w:
        assert requests.answer(w, 1, by=site.officer, words="done").answered_on == site.today()
    with pytest.raises(RecordError, match="R-1 was answered on 2026-03-09"), site.record.writing() as w:
        requests.answer(w, 1, by=site.officer, words="done")
    with pytest.raises(Missing, match="R-7"), site.record.writing() as w:
        requests.answer(w, 7, by=site.officer, words="done")


def test_what_is_no_request_is_refused(site):
    with pytest.raises(UsageError, match="no kind of request"), site.record.writing() as w:
        requests.receive(w, person=site.learner, kind="wish", received_on=w.today())
    with pytest.raises(UsageError, match="has not come yet"), site.record.writing() as w:
        requests.receive(w, person=site.learner, kind="copy", received_on=date(2026, 3, 10))
