"""The US press rule: the regulator's chart, the printed examples, and what is strict about it."""

from fractions import Fraction

import pytest

from trainer.safeguarding.problems import problem
from trainer.safeguarding.result import Sense
from trainer.units import Q, magnitude

# OSHA Machine Guarding eTool, Presses, "Safety Distance": stopping time in s, distance in inches, all as printed.
CHART = """
.055 3 1/2|.063 4|.072 4 1/2|.079 5|.087 5 1/2|.095 6|.103 6 1/2|.111 7|.119 7 1/2|.126 8|.134 8 1/2|.142 9
.150 9 1/2|.158 10|.166 10 1/2|.317 20|.325 20 1/2|.333 21|.341 21 1/2|.349 22|.357 22 1/2|.365 23|.373 23 1/2
.380 24|.388 24 1/2|.396 25|.404 25 1/2|.412 26|.420 26 1/2
"""
PAIRS = [pair.split(" ", 1) for line in CHART.strip().splitlines() for pair in line.split("|")]
SHORT_ROW = ".072"


def inches(text: str) -> Fraction:
    return sum((Fraction(part) for part in text.split()), Fraction(0))


def solve(name: str, **texts: str):
    asked = problem(name)
    return asked.solve(asked.read({key.replace("_", "-"): text for key, text in texts.items()}), unit="inch")


@pytest.mark.parametrize(("time", "distance"), PAIRS, ids=[pair[0] for pair in PAIRS])
@pytest.mark.parametrize("name", ["us-presence-sensing", "us-two-hand-control"])
def test_the_regulators_chart_covers_the_formula_in_every_row_but_one(name, time, distance):
    worked = solve(name, stopping_time=f"0{time} s")
    needed = magnitude(worked.value, "inch")

    assert needed == 63 * Fraction(time)
    assert (needed < inches(distance)) == (time != SHORT_ROW)
    if time != SHORT_ROW:
        assert magnitude(worked.rounded, "inch") == inches(distance)


def test_the_chart_has_29_rows():
    assert len(PAIRS) == 29


def test_the_row_of_72_ms_is_short_by_36_thousandths_of_an_inch_so_five_inches_are_needed():
    worked = solve("us-presence-sensing", stopping_time="72 ms")

    assert magnitude(worked.value, "inch") - inches("4 1/2") == Fraction("0.036")
    assert worked.rounded == Q(5, "inch")


def test_half_a_second_needs_more_than_31_5_inches_as_the_state_rule_prints():  # WAC 296-806-45516
    worked = solve("us-presence-sensing", stopping_time="0.5 s")

    assert worked.value == Q("31.5", "inch")
    assert worked.sense is Sense.MORE_THAN
    assert worked.rounded == Q(32, "inch")
