from dataclasses import replace
from itertools import product

import pytest

from trainer.assessment.sequential import Decision, Plan, courses
from trainer.errors import UsageError

ENDLESS = 1500


def plan(low, high, false_pass, false_fail, **more):
    return Plan(low=low, high=high, false_pass=false_pass, false_fail=false_fail, **more)


def test_the_sums_are_those_of_a_printed_run():
    # Vignette of the CRAN package SPRT: x = 0 0 1 0 1 1 1, a .05, b .1, .1 against .3; decided at the seventh.
    one = plan(0.1, 0.3, 0.05, 0.1)
    answers = [False, False, True, False, True, True, True]

    assert [f"{total:.7f}" for total in one.sums(answers)] == [
        *("-0.2513144", "-0.5026289", "0.5959834", "0.3446690", "1.4432813", "2.5418936", "3.6405059")
    ]
    assert (f"{one.pass_at:.6f}", f"{one.fail_at:.6f}") == ("2.890372", "-2.251292")
    assert [one.decide(sum(answers[:n]), n) for n in range(1, 8)] == [Decision.GO_ON] * 6 + [Decision.PASSED]


@pytest.mark.parametrize(
    ("args", "slope", "lines", "items", "first"),
    [
        # The plan of the NIST/SEMATECH e-handbook, 6.2.6 (as remembered: .0397, -.939, 1.205); then Wald's own example.
        # In both a "right answer" is a defect. Fact sheet on assessment, section 3.2.
        ((0.01, 0.10, 0.05, 0.10), "0.0397", ("-0.9389", "1.2054"), ("27.96", "16.45"), (24, 2)),
        ((0.1, 0.3, 0.02, 0.03), "0.1862", ("-2.5826", "2.8754"), ("28.70", "23.82"), (14, 4)),
    ],
)
def test_plans_of_inspection_have_the_tabled_lines(args, slope, lines, items, first):
    one = plan(*args)

    assert f"{one.slope:.4f}" == slope
    assert tuple(f"{line:.4f}" for line in one.lines) == lines
    assert tuple(f"{one.wald_items(high=high):.2f}" for high in (False, True)) == items
    assert (one.first_fail, one.first_pass) == first


# Fact sheet on assessment, section 3.2, computed by following every path. Columns: plan; slope; lines of passing and
# failing; first pass, first fail; true false pass and false fail without an end; items asked at low and high, and
# Wald's estimate of both; undecided after 30 items at low, high and half-way.
SETTINGS = [
    (
        (0.60, 0.85, 0.05, 0.05), "0.7379", ("2.2153", "-2.2153"), (9, 4), ("0.0422", "0.0334"),
        ("16.99", "19.60"), ("14.45", "17.79"), ("0.126", "0.152", "0.370"),
    ),
    (
        (0.60, 0.85, 0.10, 0.20), "0.7379", ("1.5645", "-1.1316"), (6, 2), ("0.0991", "0.1435"),
        ("8.01", "10.68"), ("6.25", "9.15"), ("0.012", "0.019", "0.047"),
    ),
    (
        (0.70, 0.95, 0.01, 0.05), "0.8544", ("2.1715", "-1.4237"), (15, 2), ("0.0096", "0.0249"),
        ("11.45", "22.02"), ("8.99", "20.83"), ("0.045", "0.128", "0.312"),
    ),
    (
        (0.75, 0.95, 0.025, 0.05), "0.8719", ("1.9707", "-1.6093"), (16, 2), ("0.0218", "0.0295"),
        ("15.25", "24.87"), ("12.46", "22.95"), ("0.115", "0.288", "0.426"),
    ),
]  # fmt: skip


@pytest.mark.parametrize("row", SETTINGS)
def test_settings_for_mastery_have_the_tabled_lines(row):
    args, slope, lines, first, *_ = row
    one = plan(*args)

    assert f"{one.slope:.4f}" == slope
    assert (f"{one.lines[1]:.4f}", f"{one.lines[0]:.4f}") == lines
    assert (one.first_pass, one.first_fail) == first
    assert (one.passes_at(first[0]), one.fails_at(first[1])) == (first[0], 0)


@pytest.mark.parametrize("row", SETTINGS)
def test_settings_for_mastery_have_the_tabled_error_rates(row):
    args, *_, rates, items, wald, undecided = row
    endless, capped = plan(*args, most=ENDLESS), plan(*args)
    low, _, high = courses(endless)

    assert (f"{low.passed:.4f}", f"{high.failed:.4f}") == rates
    assert (f"{low.items:.2f}", f"{high.items:.2f}") == items
    assert tuple(f"{endless.wald_items(high=high):.2f}" for high in (False, True)) == wald
    low, middle, high = courses(capped)
    assert tuple(f"{one.undecided:.3f}" for one in (low, high, middle)) == undecided
    assert low.passed <= args[2]


def test_the_table_of_counts_is_the_one_printed():
    # Same section: (n: fail if at most, pass if at least).
    one = plan(0.60, 0.85, 0.05, 0.05)
    table = {9: (4, 9), 10: (5, 10), 12: (6, 12), 15: (8, 14), 20: (12, 17)}

    assert {n: (one.fails_at(n), one.passes_at(n)) for n in table} == table


def test_the_course_agrees_with_writing_out_every_run_of_answers():
    one = plan(0.60, 0.85, 0.10, 0.20, most=9, least=7)
    passed = 0.0
    for run in product([True, False], repeat=9):
        ends = (one.decide(sum(run[:n]), n) for n in range(1, 10))
        if next(end for end in ends if end is not Decision.GO_ON) is Decision.PASSED:
            passed += 0.7 ** sum(run) * 0.3 ** (9 - sum(run))

    assert one.course(0.7).passed == pytest.approx(passed)


def test_a_pass_waits_for_what_is_critical_and_a_fail_does_not():
    one = plan(0.60, 0.85, 0.10, 0.20, least=12)

    assert one.decide(11, 11) is Decision.GO_ON
    assert one.decide(12, 12) is Decision.PASSED
    assert one.decide(0, 2) is Decision.FAILED
    assert one.first_pass == 12


def test_undecided_at_the_end_is_not_passed():
    one = plan(0.60, 0.85, 0.05, 0.05, most=10)

    assert one.decide(8, 10) is Decision.UNDECIDED
    course = one.course(0.75)
    assert course.not_passed == pytest.approx(1 - course.passed)
    assert course.passed + course.failed + course.undecided == pytest.approx(1)


def test_asking_longer_before_a_pass_never_lets_more_of_the_unable_pass():
    one = plan(0.60, 0.85, 0.10, 0.20)

    assert replace(one, least=15).course(0.6).passed <= one.course(0.6).passed


@pytest.mark.parametrize(
    "bad",
    [
        {"low": 0.8, "high": 0.7},
        {"low": 0.0},
        {"high": 1.0},
        {"false_pass": 0.0},
        {"false_fail": 0.95},
        {"least": 31},
        {"low": float("nan")},
        {"false_pass": float("nan")},
    ],
)
def test_a_plan_that_tests_nothing_is_refused(bad):
    args = {"low": 0.6, "high": 0.85, "false_pass": 0.05, "false_fail": 0.05}
    with pytest.raises(UsageError):
        Plan(**(args | bad))


def test_counts_that_cannot_be_are_refused():
    with pytest.raises(UsageError):
        plan(0.6, 0.85, 0.05, 0.05).decide(4, 3)
