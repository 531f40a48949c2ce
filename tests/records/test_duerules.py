"""The published rules on due dates, each with its source: month ends, windows, grace, leap days, zones, periods.

Base rules: 14 CFR (US, as amended to 2024), EASA ED Decision 2022/014/R, the air dangerous-goods instructions
(recurrent training within 24 months, window of three). "Own" marks vectors that were worked out with a calendar.
"""

from datetime import UTC, date, datetime, timedelta
from itertools import pairwise
from zoneinfo import ZoneInfo

import pytest
from dateutil.relativedelta import relativedelta

from trainer.clock import FixedClock
from trainer.errors import UsageError
from trainer.records import Reading
from trainer.records.duedates import Good, Policy, begun, months


def d(text):
    return date.fromisoformat(text)


def renewed(policy, *days):
    good = begun(d(days[0]), policy)
    for day in days[1:]:
        good = good.after(d(day), policy)
    return good.due.isoformat()


CLAMPED = [
    # start, period, due, source
    ("2003-01-31", "P1M", "2003-02-28", "python-dateutil documentation, relativedelta examples"),
    ("2003-01-31", "P2M", "2003-03-31", "python-dateutil documentation, relativedelta examples"),
    ("2000-02-29", "P1Y", "2001-02-28", "python-dateutil documentation, relativedelta examples"),
    ("2025-01-31", "P1M", "2025-02-28", "own"),
    ("2024-01-31", "P1M", "2024-02-29", "own"),
    ("2024-02-29", "P1Y", "2025-02-28", "own; N24 of the list of nasty inputs"),
    ("2024-02-29", "P12M", "2025-02-28", "own"),
    ("2024-02-29", "P3Y", "2027-02-28", "own"),
    ("2024-02-29", "P4Y", "2028-02-29", "own"),
    ("2025-08-31", "P6M", "2026-02-28", "own"),
    ("2025-12-31", "P2M", "2026-02-28", "own"),
    ("2025-02-28", "P3Y", "2028-02-28", "own: not 29 February"),
    ("2096-02-29", "P4Y", "2100-02-28", "own: 2100 has no leap day"),
    ("2023-08-31", "P6M", "2024-02-29", "own; N24 of the list of nasty inputs"),
    ("2025-03-01", "P3Y", "2028-03-01", "own: 1095 days would be 29 February 2028"),
]


@pytest.mark.parametrize(("start", "period", "due", "source"), CLAMPED)
def test_a_day_that_the_month_lacks_becomes_its_last(start, period, due, source):
    assert Policy(period=period).due(d(start)) == d(due), source


def test_a_month_back_is_clamped_too():
    """Printed in the documentation of python-dateutil: 31 May less a month is 30 April. A window opens the day after."""
    assert Policy(period="P1Y", early_window="P1M").opens(d("2003-05-31")) == d("2003-05-01")


def test_steps_drift_and_the_anchor_with_its_count_does_not():
    """Own vectors: 31 January 2025, monthly; 29 February 2024, yearly, four times."""
    monthly, yearly = Policy(period="P1M"), Policy(period="P1Y")
    stepped = [d("2025-01-31")]
    for _turn in range(4):
        stepped.append(monthly.due(stepped[-1]))

    assert [day.isoformat() for day in stepped[1:]] == ["2025-02-28", "2025-03-28", "2025-04-28", "2025-05-28"]
    anchored = [monthly.due(d("2025-01-31"), count).isoformat() for count in (1, 2, 3, 4)]
    assert anchored == ["2025-02-28", "2025-03-31", "2025-04-30", "2025-05-31"]
    assert monthly.due(monthly.due(d("2025-01-31"))) == d("2025-03-28") != monthly.due(d("2025-01-31"), 2)
    assert monthly.due(d("2025-01-31")) - relativedelta(months=1) == d("2025-01-28")
    leap = d("2024-02-29")
    for _turn in range(4):
        leap = yearly.due(leap)
    assert (leap, yearly.due(d("2024-02-29"), 48)) == (d("2028-02-28"), d("2028-02-29"))


def test_renewed_within_the_window_the_anchor_and_its_count_are_kept():
    policy = Policy(period="P1M", early_window="", late_grace="P1M")
    good = begun(d("2025-01-31"), policy)
    for day in ("2025-03-01", "2025-04-01", "2025-05-01"):
        good = good.after(d(day), policy)

    assert (good.anchor, good.count, good.due) == (d("2025-01-31"), 4, d("2025-05-31"))


def test_traps_of_other_ways_to_count():
    """Own: what a naive sum does with the same days, and why none is used."""
    with pytest.raises(ValueError, match="day"):
        d("2024-02-29").replace(year=2025)
    assert d("2024-02-29") + timedelta(days=365) == d("2025-02-28")
    assert d("2025-03-01") + timedelta(days=1095) == d("2028-02-29") != Policy(period="P3Y").due(d("2025-03-01"))


@pytest.mark.parametrize(
    ("anchor", "period", "due"), [("2024-02-29", "P1Y", "2025-03-01"), ("2024-02-29", "P4Y", "2028-02-29")]
)
def test_the_first_of_march_is_a_setting_for_laws_that_say_so(anchor, period, due):
    assert Policy(period=period, leap_day="mar1").due(d(anchor)) == d(due)


@pytest.mark.parametrize(
    ("done", "period", "due", "source"),
    [
        ("2023-04-12", "P24M", "2025-04-30", "14 CFR 61.56(c): 24 calendar months before the month of acting"),
        ("2010-07-01", "P24M", "2012-07-31", "14 CFR 61.56(c)"),
        ("2024-02-29", "P12M", "2025-02-28", "own, by the same rule"),
        ("2024-08-31", "P36M", "2027-08-31", "own, by the same rule"),
        ("2013-02-07", "P24M", "2015-02-28", "air dangerous goods, recurrent training: printed example"),
        ("2014-09-10", "P24M", "2016-09-30", "air dangerous goods: done before the window opens"),
    ],
)
def test_a_calendar_month_ends_on_its_last_day(done, period, due, source):
    assert Policy(period=period, count_from="month_end").due(d(done)) == d(due), source


BASE_MONTH = Policy(period="P12M", count_from="month_end", early_window="P2M", late_grace="P1M")


@pytest.mark.parametrize(
    ("done", "due"),
    # 14 CFR 135.301(a) and 135.323(b): done in the calendar month before or after the month due counts as done in it.
    # Two months of early window are the month due and the one before it. The base is March 2026.
    [
        ("2026-02-01", "2027-03-31"),
        ("2026-03-15", "2027-03-31"),
        ("2026-03-31", "2027-03-31"),
        ("2026-04-01", "2027-03-31"),
        ("2026-04-30", "2027-03-31"),
        ("2026-01-31", "2027-01-31"),
        ("2026-05-01", "2027-05-31"),
    ],
)
def test_the_month_before_and_the_month_after_keep_the_base_month(done, due):
    assert renewed(BASE_MONTH, "2025-03-10", done) == due


def test_where_late_does_not_reset_the_old_month_stays():
    policy = Policy(period="P12M", count_from="month_end", late_resets=False)

    assert renewed(policy, "2025-03-10", "2026-09-01") == "2027-03-31"
    assert renewed(policy, "2025-03-10", "2027-09-01") == "2028-03-31"  # a whole turn was missed


DANGEROUS_GOODS = Policy(period="P24M", count_from="month_end", early_window="P3M")


@pytest.mark.parametrize(
    ("done", "due"),
    # The printed example: trained 7 Feb 2013, good to 28 Feb 2015, the window opens on 1 Dec 2014.
    [
        ("2014-12-01", "2017-02-28"),
        ("2015-02-28", "2017-02-28"),
        ("2014-11-30", "2016-11-30"),
        ("2014-09-10", "2016-09-30"),
    ],
)
def test_a_window_of_three_months_before_the_end(done, due):
    assert DANGEROUS_GOODS.opens(d("2015-02-28")) == d("2014-12-01")
    assert renewed(DANGEROUS_GOODS, "2013-02-07", done) == due


@pytest.mark.parametrize(
    ("done", "due"),
    # EASA AMC1 ORO.FC.145(g), ED Decision 2022/014/R: in the last three months of validity the original expiry counts
    # on; earlier, the end of the month of completion.
    [
        ("2026-05-01", "2027-07-31"),
        ("2026-07-31", "2027-07-31"),
        ("2026-04-30", "2027-04-30"),
        ("2026-08-01", "2027-08-31"),
    ],
)
def test_the_last_three_months_of_validity(done, due):
    policy = Policy(period="P12M", count_from="month_end", early_window="P3M")

    assert renewed(policy, "2025-07-09", done) == due


def test_whether_work_may_go_on_in_the_grace_is_a_setting_of_its_own():
    """Whether 14 CFR 135.301(a) lets somebody work in the late month is disputed; unless a policy says so, it ends."""
    strict = begun(d("2025-03-10"), BASE_MONTH)
    lenient = begun(d("2025-03-10"), Policy.from_data({**BASE_MONTH.as_data(), "work_in_grace": True}))

    assert (strict.due, strict.lasts) == (d("2026-03-31"), d("2026-03-31"))
    assert (lenient.due, lenient.lasts) == (d("2026-03-31"), d("2026-04-30"))


def test_renewing_never_makes_it_shorter_and_never_more_than_a_window_longer():
    for policy in (BASE_MONTH, DANGEROUS_GOODS, Policy(period="P12M"), Policy(period="P6M", early_window="P1M")):
        for first in ("2024-02-29", "2025-01-31", "2025-03-10"):
            good = begun(d(first), policy)
            for ahead in range(0, 1200, 7):
                day = d(first) + timedelta(days=ahead)
                again = good.after(day, policy)
                assert isinstance(again, Good)
                assert again.due >= good.due
                window = months(policy.early_window) if policy.early_window else 0
                assert again.due <= max(good.due, policy.due(day, months(policy.period) + window))


@pytest.mark.parametrize(
    ("born", "done", "due", "young"),
    # Germany, JArbSchG section 29(2): young people are instructed at least every half-year; 18 ends it.
    [
        ("2008-09-01", "2025-03-10", "2025-09-10", "under-18"),  # 17 in September 2025
        ("2007-09-10", "2025-03-10", "2026-03-10", "turns-18"),  # 18 on the very day
        ("2007-09-11", "2025-03-10", "2025-09-10", "under-18"),  # a day short of it
        ("2007-03-10", "2025-03-10", "2026-03-10", ""),
        ("2008-02-29", "2025-08-28", "2026-02-28", "under-18"),  # 18 on 1 March 2026: the safe side
        (None, "2025-03-10", "2025-09-10", "unknown"),
    ],
)
def test_while_under_18_the_shorter_period_counts(born, done, due, young):
    policy = Policy(period="P12M", young_period="P6M").for_born(d(born) if born else None, d(done))

    assert (policy.due(d(done)).isoformat(), policy.young) == (due, young)
    assert policy.for_born(d("1980-01-01"), d(done)) == policy  # kept with the entry; no later birthday rewrites it


def test_without_a_period_for_young_people_no_date_of_birth_is_asked_for():
    assert Policy(period="P12M").for_born(None, d("2025-03-10")) == Policy(period="P12M")


def test_the_day_is_the_civil_one_at_the_site():
    """Own: a kiosk in New York at 19:30 on 31 January 2025 is 1 February in UTC, and the due day is 28 February."""
    instant = datetime(2025, 2, 1, 0, 30, tzinfo=UTC)
    local = instant.astimezone(ZoneInfo("America/New_York")).date()

    assert (local, Policy(period="P1M").due(local)) == (d("2025-01-31"), d("2025-02-28"))
    assert Policy(period="P1M").due(instant.date()) == d("2025-03-01")


@pytest.mark.parametrize(
    ("zone", "wall", "earlier", "later"),
    # Own, from the tz database: an hour that is missing (the two readings differ and neither is that wall time in UTC
    # and back), and one that comes twice.
    [
        ("Europe/London", "2025-03-30 01:30", "2025-03-30 01:30", "2025-03-30 00:30"),
        ("Europe/London", "2025-10-26 01:30", "2025-10-26 00:30", "2025-10-26 01:30"),
        ("America/New_York", "2025-03-09 02:30", "2025-03-09 07:30", "2025-03-09 06:30"),
        ("America/New_York", "2025-11-02 01:30", "2025-11-02 05:30", "2025-11-02 06:30"),
    ],
)
def test_instants_not_wall_times_are_kept_because_some_are_missing_and_some_come_twice(zone, wall, earlier, later):
    local = datetime.fromisoformat(wall).replace(tzinfo=ZoneInfo(zone))
    readings = [local.replace(fold=fold).astimezone(UTC) for fold in (0, 1)]

    assert [f"{one:%Y-%m-%d %H:%M}" for one in readings] == [earlier, later]
    back = {f"{one.astimezone(ZoneInfo(zone)):%Y-%m-%d %H:%M}" for one in readings}
    assert (wall in back) is (earlier < later)


def test_a_day_at_the_site_may_have_23_hours_and_is_good_until_it_is_over():
    """Own: London, 30 March 2025. A result that is due on that day holds until midnight there."""
    reading = Reading(
        session=None, clock=FixedClock(datetime(2025, 3, 1, tzinfo=UTC)), zone=ZoneInfo("Europe/London"), pepper=b""
    )

    ends = [reading.end_of(d(day)) for day in ("2025-03-29", "2025-03-30", "2025-03-31")]
    assert [b - a for a, b in pairwise(ends)] == [timedelta(hours=23), timedelta(hours=24)]
    noon = datetime(2025, 3, 29, 12, tzinfo=reading.zone)
    assert (noon + timedelta(days=1)).astimezone(UTC) - noon.astimezone(UTC) == timedelta(hours=23)
    assert reading.day_of(ends[0] - timedelta(seconds=1)) == d("2025-03-29")


@pytest.mark.parametrize(
    ("period", "count"),
    # ISO 8601-1:2019, 5.5.2: a year is twelve months as a period, never 365 days; weeks are not mixed with others.
    [("P1M", 1), ("P1Y", 12), ("P12M", 12), ("P3Y", 36), ("P1Y6M", 18)],
)
def test_periods_are_calendar_periods(period, count):
    assert months(period) == count


@pytest.mark.parametrize("period", ["P365D", "P4W", "P4W1D", "P0M", ""])
def test_days_and_weeks_are_no_due_periods(period):
    with pytest.raises(UsageError):
        months(period)


@pytest.mark.parametrize(
    "rules",
    [
        {"early_window": "P12M"},
        {"early_window": "P4W"},
        {"late_grace": "1M"},
        {"young_period": "P2Y"},
        {"leap_day": "feb29"},
    ],
)
def test_a_policy_that_makes_no_sense_is_refused(rules):
    with pytest.raises(UsageError):
        Policy(period="P12M", **rules)
