"""Stopping time over time: the value to use, the trend, the margin and the day on which it ends."""

from datetime import date, timedelta
from fractions import Fraction

import pytest

from trainer.errors import UsageError
from trainer.findings import Severity
from trainer.safeguarding.problems import PROBLEMS
from trainer.safeguarding.stopping import Mounted, Unmeasured, history, longest_for, to_use
from trainer.safeguarding.trend import StopReading, fit, student
from trainer.units import Q, magnitude

FIRST = date(2025, 1, 6)
NAME = "ansi-presence-sensing"
VALUES = {"control-response": Q(0, "ms"), "device-response": Q(20, "ms"), "monitor-allowance": Q(0, "ms"),
          "object-sensitivity": Q(14, "mm")}  # fmt: skip


def readings(*pairs) -> list[StopReading]:
    return [StopReading(on=FIRST + timedelta(days=day), time=Q(ms, "ms")) for day, ms in pairs]


def mounted(mm, *, days=365, name=NAME, values=VALUES) -> Mounted:
    return Mounted(name=name, values=values, distance=Q(mm, "mm"), interval=timedelta(days=days), machine="PB-1")


SLOWING = readings((0, 150), (90, 153), (180, 156), (270, 159))  # a thirtieth of a millisecond a day, no scatter
TODAY = FIRST + timedelta(days=270)


def test_the_newest_days_highest_reading_is_used():
    days = readings((0, 180), (90, 150), (90, 161), (90, 155))

    assert to_use(days) == Q(161, "ms")


def test_a_line_without_scatter_is_found_exactly():
    trend = fit(SLOWING)

    assert trend.slope == Fraction(1, 30000)  # s per day
    assert trend.at(0) == Fraction("0.150")
    assert trend.error == trend.scatter == 0
    assert trend.half_width(500) == 0


def test_one_day_has_no_trend_and_two_days_no_uncertainty():
    assert fit(readings((0, 150), (0, 152))) is None
    assert fit(readings((0, 150), (90, 152))).error is None


def test_the_line_is_the_textbooks_least_squares():
    # x = 0, 1, 2, 3; y = 1, 3, 2, 5: slope 1.1, intercept 1.1, residual sum 2.7, se of the slope sqrt(1.35 / 5)
    trend = fit(readings((0, 1), (1, 3), (2, 2), (3, 5)))

    assert trend.slope == Fraction(11, 10000)
    assert trend.at(0) == Fraction(11, 10000)
    assert abs(trend.error**2 - Fraction(27, 100) / 10**6) < Fraction(1, 10**15)


def test_the_margin_is_what_is_mounted_less_what_is_needed_now():
    found = history(SLOWING, mounted(350), on=TODAY)

    assert found.use == Q(159, "ms")
    needed = Fraction("1.6002") * 179 + Fraction("3.4") * (14 - Fraction("7.0104"))
    assert magnitude(found.needed.value, "mm") == needed
    assert magnitude(found.margin, "mm") == 350 - needed
    assert not found.report.findings


def test_the_band_of_the_line_is_the_textbooks():
    # x = 0, 1, 2, 3; y = 1, 3, 2, 5: residual variance 2.7 / 2 = 1.35, spread of x 5, t(2) = 4.303, so the half width
    # is 4.303 sqrt(1.35 / 4) = 2.49983 amid the readings and 4.303 sqrt(1.35 (1 / 4 + 2.5² / 5)) = 6.12329 at x = 4
    trend = fit(readings((0, 1), (1, 3), (2, 2), (3, 5)))

    for day, half in ((Fraction(3, 2), "2.49983"), (4, "6.12329")):
        assert abs(trend.half_width(day) * 1000 - Fraction(half)) < Fraction(1, 10**4)


def test_the_margin_may_end_where_the_edges_of_the_band_pass_the_limit():
    noisy = readings((0, 150), (60, 156), (120, 153), (180, 158), (240, 157), (300, 162))
    found = history(noisy, mounted(350), on=FIRST + timedelta(days=300))
    limit, trend = magnitude(found.limit, "s"), found.trend

    for day, side in ((found.ends_from, 1), (found.ends_to, -1), (found.ends, 0)):
        along = (day - FIRST).days
        edge = [trend.at(one) + side * trend.half_width(one) for one in (along - 1, along)]
        assert edge[0] <= limit < edge[1]


def test_the_margin_ends_on_the_day_the_line_passes_the_limit():
    found = history(SLOWING, mounted(350, days=30), on=TODAY)
    limit = magnitude(found.limit, "ms")

    assert limit == Fraction("183.8")  # (350 - 23.76464) / 1.6002 - 20, down to 0.1 ms
    assert found.ends == FIRST + timedelta(days=int((limit - 150) * 30) + 1)
    assert found.ends_from == found.ends_to == found.ends  # no scatter, no uncertainty


def test_scatter_widens_the_day_to_a_span():
    noisy = readings((0, 150), (60, 156), (120, 153), (180, 158), (240, 157), (300, 162))
    found = history(noisy, mounted(350), on=FIRST + timedelta(days=300))

    assert found.ends_from < found.ends < found.ends_to


def test_a_brake_that_does_not_slow_down_has_no_such_day():
    steady = history(readings((0, 150), (90, 150), (180, 150)), mounted(350), on=TODAY)
    better = history(readings((0, 160), (90, 155), (180, 150)), mounted(350), on=TODAY)

    assert (steady.ends, better.ends) == (None, None)


@pytest.mark.parametrize(("mm", "codes"), [(300, ["mounted-too-close"]), (350, [])])
def test_mounted_too_close_is_a_finding(mm, codes):
    found = history(SLOWING, mounted(mm), on=TODAY)

    assert [finding.code for finding in found.report] == codes
    assert found.report.good == (not codes)
    if codes:
        assert found.report.rows("key", "note") == [("PB-1", "It needs 311 mm and stands at 300 mm.")]


def test_where_the_rule_says_more_than_an_equal_distance_is_too_close():
    half = readings((0, 500))
    for mm, close in (("800.1", True), ("800.2", False)):
        found = history(half, mounted(mm, name="us-presence-sensing", values={}), on=FIRST)
        assert found.too_close == close
        assert (found.limit == Q(500, "ms")) == (not close)


def test_not_measured_within_its_interval_is_a_finding():
    on_time = history(SLOWING, mounted(350, days=30), on=TODAY + timedelta(days=30))
    late = history(SLOWING, mounted(350, days=30), on=TODAY + timedelta(days=31))

    assert not on_time.report.findings
    assert [finding.code for finding in late.report] == ["not-measured-in-interval"]
    assert late.due == TODAY + timedelta(days=30)


def test_a_margin_that_may_end_before_the_next_measurement_is_a_warning():
    found = history(SLOWING, mounted(316, days=365), on=TODAY)

    assert [(finding.code, finding.severity) for finding in found.report] == [
        ("margin-ends-before-next-measurement", Severity.WARNING)
    ]
    assert found.report.good


def test_a_machine_that_was_never_measured_is_a_finding():
    found = history(SLOWING, mounted(350), on=FIRST - timedelta(days=1))

    assert isinstance(found, Unmeasured)
    assert [finding.code for finding in found.report] == ["not-measured-in-interval"]
    assert found.limit == Q("183.8", "ms")  # the brake may take that long at this distance


def test_a_limit_that_the_line_passed_long_ago_is_told_with_its_own_day():
    found = history(SLOWING, mounted(300), on=TODAY + timedelta(days=400))
    limit = magnitude(found.limit, "ms")

    assert limit == Fraction("152.6")  # (300 - 23.76464) / 1.6002 - 20, down to 0.1 ms
    assert found.ends == FIRST + timedelta(days=79)  # 150 ms + 79 / 30 ms is the first above it
    assert found.ends < TODAY


def test_readings_after_the_day_are_not_known_yet():
    found = history(SLOWING, mounted(350), on=FIRST + timedelta(days=100))

    assert found.use == Q(153, "ms")
    assert found.measured_on == FIRST + timedelta(days=90)


def test_a_distance_that_no_stopping_time_allows_has_no_limit():
    asked = PROBLEMS["iso-presence-sensing"]
    values = {"device-response": Q(20, "ms"), "detection-capability": Q(14, "mm")}

    assert longest_for(asked, values, Q(90, "mm")) is None
    assert longest_for(asked, values, Q(400, "mm")) == Q(180, "ms")
    assert longest_for(asked, values, Q(500, "mm")) == Q("292.5", "ms")  # flat at 500 as far as 1600 mm/s goes


@pytest.mark.parametrize(
    ("days", "where", "said"),
    [(SLOWING, mounted(350, name="closing-time"), "does not give a distance"),
     (SLOWING, Mounted(name=NAME, values=VALUES, distance=Q(3, "s"), interval=timedelta(1)), "must be a length"),
     (SLOWING, mounted(350, values={**VALUES, "object-sensitivity": Q(70, "mm")}), "no longer sees a hand")],
)  # fmt: skip
def test_what_cannot_be_answered_is_said_in_one_sentence(days, where, said):
    with pytest.raises(UsageError, match=said):
        history(days, where, on=TODAY)


@pytest.mark.parametrize(("freedom", "t"), [(1, "12.707"), (4, "2.777"), (11, "2.229"), (1000, "1.980"), (0, "12.707")])
def test_between_rows_the_quantile_of_fewer_readings_is_taken(freedom, t):
    assert student(freedom) == Fraction(t)
