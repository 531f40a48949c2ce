"""The curtain at its distance, the opening of a guard, the reach over a barrier, stopping time over time."""

import re
from datetime import date, timedelta

import pytest
from figures import svg as read
from hypothesis import given, settings
from hypothesis import strategies as st

from trainer.errors import UsageError
from trainer.figures import answered, curtain_side, guard_opening, reach_over, stopping_history
from trainer.figures.answered import DIE
from trainer.figures.over import BARRIER, FLOOR
from trainer.figures.side import FRONT, WIDTH
from trainer.safeguarding.problems import problem
from trainer.safeguarding.stopping import Mounted, history
from trainer.safeguarding.trend import StopReading
from trainer.units import Q


def worked(name, **texts):
    asked = problem(name)
    return asked.solve(asked.read({key.replace("_", "-"): value for key, value in texts.items()}))


def curtain(stop=120, blanked=2):
    return worked(
        "ansi-presence-sensing",
        stopping_time=f"{stop} ms",
        control_response="25 ms",
        device_response="20 ms",
        monitor_allowance="29 ms",
        object_sensitivity="14 mm",
        beams_blanked=str(blanked),
        beam_pitch="10 mm",
    )


def scale_of(svg):
    return float(re.search(r'<g transform="translate\((\S+) (\S+)\) scale\((\S+) ', svg)[3])


def sound(svg, size=22):
    assert read.overlapping(svg, size) == []
    assert read.off_the_sheet(svg, size) == []
    assert len(read.ids(svg)) == len(set(read.ids(svg)))
    assert read.references(svg) <= set(read.ids(svg))


def test_the_curtain_stands_at_the_worked_distance_to_scale():
    svg = curtain_side(curtain()).svg
    found = re.search(r"translate\((\S+) \S+\) scale\((\S+) ", svg)
    bend, scale = float(found[1]), float(found[2])
    beams = [float(x) for x in re.findall(r'<circle class="solid" cx="(\S+)" cy="\S+" r="2.6"', svg)]
    assert set(beams) == {-FRONT - 403.0}
    lines = [float(x) for x in re.findall(r'<path class="fine" d="M(\S+) \S+L', svg)]
    for end in (bend - (FRONT + 403) * scale, bend - FRONT * scale):
        assert min(abs(x - end) for x in lines) < 0.05
    assert bend < WIDTH


def test_the_side_view_carries_its_numbers():
    figure = curtain_side(curtain())
    for number in ("403 mm", "91.8 mm", "310.4 mm"):
        assert number in figure.text
        assert number in figure.svg


def test_the_side_view_follows_the_unit():
    assert "15.87 in" in curtain_side(curtain(), unit="inch").svg


@settings(max_examples=25, deadline=None)
@given(stop=st.integers(60, 900), blanked=st.integers(0, 3), unit=st.sampled_from(["mm", "inch"]))
def test_the_side_view_stays_readable_at_any_distance(stop, blanked, unit):
    sound(curtain_side(curtain(stop, blanked), unit=unit).svg)


def test_more_than_is_written_where_the_rule_says_more_than():
    assert "&gt; 193 mm" in curtain_side(worked("us-presence-sensing", stopping_time="120 ms")).svg


@pytest.mark.parametrize(
    ("texts", "numbers"),
    [
        ({"name": "us-guard-opening", "distance": "165 mm"}, ("165 mm", "19 mm")),
        ({"name": "us-guard-opening", "opening": "12 mm"}, ("12 mm", "64 mm")),
        ({"name": "iso-guard-opening", "shape": "slot", "opening": "12 mm"}, ("12 mm", "100 mm")),
        ({"name": "iso-guard-opening", "shape": "round", "opening": "80 mm"}, ("80 mm", "850 mm")),
    ],
)
def test_the_opening_is_drawn_with_what_was_given_and_what_was_found(texts, numbers):
    figure = guard_opening(worked(**texts))
    for number in numbers:
        assert number in figure.text
        assert number in figure.svg
    sound(figure.svg)


def test_the_opening_is_to_scale_with_its_distance():
    svg = guard_opening(worked("us-guard-opening", distance="165 mm")).svg
    upper, lower = re.findall(r'<path class="cut hatched"[^>]* d="M300 (\S+)h16V(\S+)h-16z"', svg)
    gap = float(lower[0]) - float(upper[1])
    assert gap == pytest.approx(19 * scale_of(svg), abs=0.05)
    danger = next(read.boxes_of(svg, "danger"))
    assert danger[0] - 300 == pytest.approx(165 * scale_of(svg), abs=0.05)


def test_a_hand_is_never_drawn_further_than_the_danger():
    for opening in range(4, 120, 4):
        figure = guard_opening(worked("iso-guard-opening", shape="slot", opening=f"{opening} mm"))
        reach = float(re.search(r'<g transform="translate\((\S+) 0\)">', figure.svg)[1])
        danger = next(read.boxes_of(figure.svg, "danger"))
        assert reach * scale_of(figure.svg) < danger[0] - 300


@pytest.mark.parametrize("barrier", [1000, 1200, 1400, 1600])
@pytest.mark.parametrize("hazard", [800, 1000, 1400])
def test_the_reach_over_a_barrier_is_to_scale(hazard, barrier):
    found = worked("barrier-reach-over", hazard_height=f"{hazard} mm", barrier_height=f"{barrier} mm", risk="low")
    figure = reach_over(found)
    scale, distance = scale_of(figure.svg), float(found.rounded.magnitude)
    x, y, _width, height = next(read.boxes_of(figure.svg, "danger"))
    assert x - BARRIER == pytest.approx(distance * scale, abs=0.5)
    assert FLOOR - (y + height / 2) == pytest.approx(hazard * scale, abs=0.5)
    assert f"{barrier} mm" in figure.text
    sound(figure.svg)


def test_a_refusal_has_no_drawing_and_says_why():
    with pytest.raises(UsageError) as refused:
        reach_over(worked("barrier-reach-over", hazard_height="1800 mm", barrier_height="1000 mm"))
    assert str(refused.value)


@pytest.mark.parametrize("own", [1, 100, 310, 390, 403, 600, 3000])
def test_what_was_answered_is_to_scale_with_what_is_needed(own):
    figure = answered(curtain(), Q(own, "mm"))
    assert figure.text == f"Set at {own} mm; 403 mm are needed."
    set_at = float(re.search(r'<path class="cut" d="M(\S+) ', figure.svg)[1]) - DIE
    due_at = float(re.search(r'<path class="hidden" d="M(\S+) ', figure.svg)[1]) - DIE
    assert set_at / due_at == pytest.approx(own / 403, abs=0.01)
    if own >= 100:
        sound(figure.svg, 13)


READINGS = [("2023-03-04", 118), ("2024-02-27", 121), ("2025-03-10", 127), ("2025-09-20", 131), ("2026-02-20", 134)]


def over_time(rows, *, mounted=380, on="2026-03-09", days=365, **options):
    asked = problem("ansi-presence-sensing")
    values = asked.read(
        {
            "stopping-time": "100 ms",
            "control-response": "25 ms",
            "device-response": "20 ms",
            "monitor-allowance": "29 ms",
            "object-sensitivity": "14 mm",
        }
    )
    values.pop("stopping-time")
    readings = [StopReading(on=date.fromisoformat(day), time=Q(ms, "ms")) for day, ms in rows]
    stands = Mounted(
        name="ansi-presence-sensing", values=values, distance=Q(mounted, "mm"), interval=timedelta(days=days)
    )
    return stopping_history(readings, history(readings, stands, on=date.fromisoformat(on)), **options)


def test_the_history_tells_what_is_used_needed_there_allowed_and_due():
    text = over_time(READINGS).text
    for part in ("5 readings", "134 ms", "357 mm", "380 mm", "148.6 ms", "2027-02-20"):
        assert part in text


def test_too_close_is_said_in_words_and_in_the_drawing():
    figure = over_time(READINGS, mounted=350)
    assert "It is mounted too close." in figure.text
    assert "too close: needs 357 mm, stands at 350 mm" in figure.svg


def test_a_reading_lies_where_its_day_and_time_put_it():
    svg = over_time(READINGS).svg
    dots = [(float(x), float(y)) for x, y in re.findall(r'<circle class="solid" cx="(\S+)" cy="(\S+)" r="4"', svg)]
    days = [date.fromisoformat(day).toordinal() for day, _ in READINGS]
    for axis, values in ((0, days), (1, [ms for _, ms in READINGS])):
        px = [dot[axis] for dot in dots]
        share = (px[2] - px[0]) / (px[-1] - px[0])
        assert share == pytest.approx((values[2] - values[0]) / (values[-1] - values[0]), abs=0.002)


def test_readings_of_days_to_come_are_left_out():
    assert "4 readings" in over_time(READINGS, on="2025-12-01").text


def test_an_interval_that_has_passed_is_told_as_passed():
    assert "was due" in over_time(READINGS[:2], on="2026-03-09").svg


@pytest.mark.parametrize("count", [1, 2, 3, 5])
@pytest.mark.parametrize("mounted", [330, 357, 380, 600])
def test_the_history_stays_readable(count, mounted):
    sound(over_time(READINGS[-count:], mounted=mounted).svg, 13)


@pytest.mark.parametrize(
    ("draw", "name", "texts"),
    [(guard_opening, "us-guard-opening", {"distance": "40 in"}), (guard_opening, "us-guard-opening", {"distance": "0.2 in"}),
     (guard_opening, "us-guard-opening", {"opening": "3 in"}),
     (reach_over, "barrier-reach-over", {"hazard-height": "1000 mm", "barrier-height": "1200 mm"}),
     (curtain_side, "iso-presence-sensing",
      {"stopping-time": "250 ms", "device-response": "10 ms", "detection-capability": "71 mm"})],
)  # fmt: skip
def test_what_the_rule_refuses_is_not_drawn_and_its_words_are_said(draw, name, texts):
    asked = problem(name)
    worked = asked.solve(asked.read(texts))

    with pytest.raises(UsageError) as refused:
        draw(worked)
    assert str(refused.value) == str(worked.refusal)


def test_an_opening_far_out_is_drawn_where_memory_was_asked_for():
    asked = problem("us-guard-opening")
    for texts in ({"distance": "40 in"}, {"opening": "3 in"}):
        worked = asked.solve(asked.read({**texts, "unverified": "yes"}))
        assert "danger" in guard_opening(worked).text


@pytest.mark.parametrize(("stop", "least"), [("10 ms", "100 mm"), ("250 ms", "500 mm")])
def test_a_distance_that_the_floor_of_the_rule_sets_is_drawn_with_it(stop, least):
    asked = problem("iso-presence-sensing")
    worked = asked.solve(
        asked.read({"stopping-time": stop, "device-response": "10 ms", "detection-capability": "14 mm"})
    )

    assert f"at least {least}" in curtain_side(worked).text
