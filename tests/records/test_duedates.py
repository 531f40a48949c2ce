"""Due dates follow the published rules: anchored, clamped to the month, good through the end of the day."""

from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from trainer.errors import UsageError
from trainer.records.duedates import Policy, months


@pytest.mark.parametrize(
    ("anchor", "period", "due"),
    # Printed in the documentation of python-dateutil (relativedelta), or worked out with another program, or
    # required of the records: a yearly refresher of 29 February is due on the 28th, never later than the rule.
    [
        ("2003-01-31", "P1M", "2003-02-28"),
        ("2003-01-31", "P2M", "2003-03-31"),
        ("2000-02-29", "P1Y", "2001-02-28"),
        ("2024-02-29", "P1Y", "2025-02-28"),
        ("2024-02-29", "P12M", "2025-02-28"),
        ("2024-02-29", "P4Y", "2028-02-29"),
        ("2096-02-29", "P4Y", "2100-02-28"),
        ("2025-02-28", "P3Y", "2028-02-28"),
        ("2023-08-31", "P6M", "2024-02-29"),
        ("2025-12-31", "P2M", "2026-02-28"),
        ("2025-01-31", "P1Y6M", "2026-07-31"),
    ],
)
def test_a_period_is_counted_from_the_day(anchor, period, due):
    assert Policy(period=period).due(date.fromisoformat(anchor)) == date.fromisoformat(due)


@pytest.mark.parametrize(
    ("anchor", "period", "due"),
    # 14 CFR 61.56(c) (US, 2024): good to the last day of the 24th month after
    [("2023-04-12", "P24M", "2025-04-30"), ("2010-07-01", "P24M", "2012-07-31"), ("2024-02-29", "P12M", "2025-02-28")],
)
def test_a_period_may_be_counted_to_the_end_of_the_month(anchor, period, due):
    assert Policy(period=period, count_from="month_end").due(date.fromisoformat(anchor)) == date.fromisoformat(due)


def test_a_leap_day_may_fall_on_the_first_of_march_where_the_law_says_so():
    policy = Policy(period="P1Y", leap_day="mar1")

    assert policy.due(date(2024, 2, 29)) == date(2025, 3, 1)
    assert policy.due(date(2024, 2, 28)) == date(2025, 2, 28)
    assert Policy(period="P4Y", leap_day="mar1").due(date(2024, 2, 29)) == date(2028, 2, 29)


def test_counted_from_the_anchor_months_ends_do_not_drift():
    ends = [Policy(period=f"P{count}M").due(date(2025, 1, 31)) for count in (1, 2, 3, 4)]

    assert [end.isoformat() for end in ends] == ["2025-02-28", "2025-03-31", "2025-04-30", "2025-05-31"]


@settings(deadline=None)
@given(st.dates(date(1990, 1, 1), date(2090, 1, 1)), st.integers(1, 120))
def test_never_later_than_the_rule(anchor, count):
    due = Policy(period=f"P{count}M").due(anchor)

    assert due.day <= anchor.day
    assert (due.year * 12 + due.month) - (anchor.year * 12 + anchor.month) == count


@pytest.mark.parametrize(
    "period", ["", "P", "P0M", "P1D", "P4W", "P1.5Y", "1Y", "p1y", "P-1Y", "PT1H", "P1000M", "P1Y\n"]
)
def test_a_period_that_is_not_whole_months_or_years_is_refused(period):
    with pytest.raises(UsageError, match="no period"):
        months(period)
    with pytest.raises(UsageError):
        Policy(period=period)


def test_a_policy_is_kept_and_read_again_and_an_unknown_rule_is_never_ignored():
    policy = Policy(period="P12M", count_from="month_end", leap_day="mar1", warn_days=60)

    assert Policy.from_data(policy.as_data()) == policy
    with pytest.raises(UsageError, match="moon_phase"):
        Policy.from_data({**policy.as_data(), "moon_phase": "P3M"})
    assert Policy.from_data({"period": "P12M", "count_from": "day", "leap_day": "feb28", "warn_days": 60}).lasts(
        date(2026, 1, 1)
    ) == date(2026, 1, 1)  # an entry of before the newer rules
    with pytest.raises(UsageError, match="month_end"):
        Policy(period="P12M", count_from="week")
