"""Dates and times as they really come in: rows N24 to N27 of the project's list; N21 and N23 are the roster's."""

from datetime import UTC, date, datetime, timedelta

import pytest
from records.site import INDUCTION, TODAY, mark, outcome, paper

from trainer.errors import RecordError
from trainer.records import acts, people, sittings
from trainer.records.duedates import Policy
from trainer.records.dues import due_list
from trainer.records.standing import standing


@pytest.mark.parametrize(
    ("passed", "period", "due"), [("2024-02-29", "P1Y", "2025-02-28"), ("2023-08-31", "P6M", "2024-02-29")]
)
def test_n24_a_leap_day_is_never_due_later_than_the_rule(passed, period, due):
    assert Policy(period=period).due(date.fromisoformat(passed)) == date.fromisoformat(due)


@pytest.mark.parametrize(
    ("begins", "day"),
    [
        (datetime(2026, 3, 11, 4, 50, tzinfo=UTC), date(2026, 3, 11)),  # 23:50 to 00:20 at the site
        (datetime(2026, 11, 1, 6, 45, tzinfo=UTC), date(2026, 11, 1)),  # 01:45 to 01:15: the clocks go back between
    ],
)
def test_n25_a_night_shift_is_one_sitting_of_half_an_hour_on_the_day_it_ended(record, site, clock, begins, day):
    clock.instant = begins
    with record.writing() as w:
        sitting = sittings.start(
            w, site.bank, person=site.learner, programme=INDUCTION, paper=paper(), language="en", kiosk="K1"
        )
        sittings.save_answer(w, sitting.id, 2, {"chosen": "a"}, mark(right=True), key="one", took_ms=9_000)
    clock.advance(timedelta(minutes=30))
    with record.writing() as w:
        entry = sittings.hand_in(w, sitting.id, outcome(passed=True))

    assert entry.happened_on == day
    assert entry.body["due_on"] == day.replace(year=day.year + 1).isoformat()
    ends = [datetime.fromisoformat(entry.body[name]) for name in ("started_at", "ended_at")]
    assert ends[1] - ends[0] == timedelta(minutes=30)


@pytest.mark.parametrize("jump", [datetime(1970, 1, 1, tzinfo=UTC), datetime(2026, 3, 9, 10, 0, tzinfo=UTC)])
def test_n26_a_sitting_under_a_clock_that_is_wrong_is_kept_and_dates_nothing_until_confirmed(record, site, clock, jump):
    right = clock.instant
    clock.instant = jump  # the epoch, or three hours back
    entry = site.sit(site.learner)
    clock.instant = right + timedelta(hours=1)

    assert entry.body["time"] == "unverified"
    with record.reading() as r:
        where = {"person": site.learner, "machine": "PB-1", "role": "operator", "on": TODAY}
        before = standing(r, site.bank, **where)
        assert due_list(r, site.bank, on=TODAY, days=3660) == []
    assert (before.word, before.due_on) == ("no-evidence", None)
    with record.writing() as w:
        acts.confirm_day(w, entry=entry.number, day=TODAY, reason="Shift log.", by=site.officer, happened_on=TODAY)
    with record.reading() as r:
        after = standing(r, site.bank, **where)
    assert (after.word, after.due_on) == ("practical-pending", date(2027, 3, 9))


def test_n27_a_practical_before_the_first_day_is_refused_and_a_late_one_says_how_late(record, site, clock):
    clock.instant = datetime(2026, 5, 12, 15, tzinfo=UTC)
    with record.writing() as w:
        new = people.add(w, number="00555", name="Minh Tran", started=date(2026, 5, 6)).key
    with pytest.raises(RecordError, match="before the first day here, 2026-05-06"):
        site.show(new, happened_on=date(2026, 5, 3))

    assert site.show(site.learner, happened_on=date(2026, 5, 3)).late_days == 9
