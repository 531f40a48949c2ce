import random
from datetime import date, timedelta
from fractions import Fraction
from math import comb

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from trainer.assessment import beta
from trainer.assessment.mastery import HALF_LIFE, Evidence, State, credit, gaps, posterior
from trainer.bank.model import Competency, Text

TODAY = date(2026, 3, 9)
NAME = Text(words={"en": "—"})


def competency(level: float = 0.8, name: str = "ends") -> Competency:
    return Competency(id=name, kind="knowledge", critical=False, level=level, roles=(), name=NAME, can_do=NAME)


def answers(right: int, wrong: int = 0, *, days: int = 0, guess: float = 0.0, observed: bool = False) -> list[Evidence]:
    on = TODAY - timedelta(days=days)
    one = [True] * right + [False] * wrong
    return [Evidence(competency="ends", right=r, guess=guess, on=on, observed=observed) for r in one]


# Computed with scipy for the project's fact sheet on assessment, section 3.1.
POSTERIORS = [
    (1, 1, 9, 10, 0.8, "0.677877", "0.63564"),
    (1, 1, 18, 20, 0.8, "0.821297", "0.72945"),
    (1, 1, 10, 10, 0.8, "0.914101", "0.76160"),
    (1, 1, 20, 20, 0.9, "0.890581", "0.86705"),
    (1, 1, 28, 28, 0.9, "0.952899", "0.90186"),
    (0.5, 0.5, 9, 10, 0.8, "0.773635", "0.66944"),
    (8, 2, 9, 10, 0.8, "0.763111", "0.70420"),
]


@pytest.mark.parametrize("row", POSTERIORS)
def test_the_beta_distribution_gives_the_tabled_digits(row):
    a, b, right, asked, level, chance, low = row

    assert f"{beta.above(level, a + right, b + asked - right):.6f}" == chance
    assert f"{beta.quantile(0.05, a + right, b + asked - right):.5f}" == low


@pytest.mark.parametrize(
    ("level", "sure", "run"), [(0.8, 0.95, 13), (0.9, 0.95, 28), (0.95, 0.95, 58), (0.8, 0.9, 10), (0.9, 0.9, 21)]
)
def test_the_run_of_right_answers_that_is_needed(level, sure, run):
    # Same sheet: the smallest n with 1 − level^(n + 1) ≥ sure.
    assert beta.above(level, 1 + run, 1) >= sure > beta.above(level, run, 1)


@settings(deadline=None)
@given(st.integers(1, 30), st.integers(1, 30), st.integers(1, 19))
def test_the_beta_distribution_agrees_with_the_exact_binomial_sum(a, b, twentieths):
    # For whole a and b the chance is a sum of binomial terms, here in exact fractions.
    x, n = Fraction(twentieths, 20), a + b - 1
    exact = sum(comb(n, k) * x**k * (1 - x) ** (n - k) for k in range(a, n + 1))

    assert beta.cdf(twentieths / 20, a, b) == pytest.approx(float(exact), rel=1e-11, abs=1e-14)


@settings(deadline=None)
@given(st.floats(0.05, 60), st.floats(0.05, 60), st.floats(0.01, 0.99))
def test_a_quantile_undoes_the_distribution(a, b, p):
    x = beta.quantile(p, a, b)

    assert 0 <= x <= 1
    assert beta.cdf(x, a, b) == pytest.approx(p, abs=1e-6) or x < 1e-9 or x > 1 - 1e-9


def test_outside_nought_and_one_there_is_nothing():
    assert [beta.cdf(x, 2, 3) for x in (-1, 0, 1, 2)] == [0, 0, 1, 1]
    assert beta.above(0.5, 1, 1) == pytest.approx(0.5)


def test_an_answer_that_can_be_guessed_counts_for_less():
    # Bayes after an even start: 0.9 / (0.9 + 0.25) and 0.75 / (0.75 + 0.1).
    assert credit(0, right=True) == 1
    assert credit(0.25, right=True) == pytest.approx(0.782609, abs=1e-6)
    assert credit(0.25, right=False) == pytest.approx(0.882353, abs=1e-6)
    assert credit(0.5, right=True) < credit(0.25, right=True) < credit(0, right=True)


def test_evidence_fades_by_half_in_six_and_a_half_months():
    fresh, _ = posterior(answers(1), TODAY)
    aged, _ = posterior(answers(1, days=round(HALF_LIFE)), TODAY)

    assert fresh - 1 == pytest.approx(1)
    assert aged - 1 == pytest.approx(0.5, abs=0.002)


@pytest.mark.parametrize(("months", "left"), [(1, 0.899), (3, 0.726), (6, 0.527), (12, 0.278), (24, 0.077)])
def test_what_is_left_after_months_is_as_the_fact_sheet_says(months, left):
    a, _ = posterior(answers(1, days=round(months * 365.25 / 12)), TODAY)

    assert a - 1 == pytest.approx(left, abs=0.002)


def test_what_was_seen_at_the_machine_counts_twice():
    answered, _ = posterior(answers(1), TODAY)
    seen, _ = posterior(answers(1, observed=True), TODAY)

    assert seen - 1 == 2 * (answered - 1)


def test_nothing_asked_is_no_evidence_and_not_a_gap():
    (gap,) = gaps([competency()], [], TODAY)

    assert (gap.state, gap.answers, gap.newest) == (State.NO_EVIDENCE, 0, None)


def test_what_happened_after_the_day_asked_about_is_not_known_yet():
    later = [Evidence(competency="ends", right=True, guess=0, on=TODAY + timedelta(days=1))]

    assert gaps([competency()], later, TODAY)[0].state is State.NO_EVIDENCE


@pytest.mark.parametrize(
    ("right", "wrong", "state"),
    [(10, 0, State.SHOWN), (9, 0, State.NOT_SETTLED), (3, 1, State.NOT_SETTLED), (2, 4, State.GAP), (0, 1, State.GAP)],
)
def test_shown_takes_nine_chances_in_ten_and_a_gap_has_one(right, wrong, state):
    assert gaps([competency(0.8)], answers(right, wrong), TODAY)[0].state is state


def test_old_right_answers_alone_settle_nothing():
    (gap,) = gaps([competency(0.8)], answers(12, days=365), TODAY)

    assert gap.state is State.NOT_SETTLED
    assert gap.answers == 12


def test_the_interval_holds_the_median_and_the_gaps_come_first():
    names = ["shown", "gap", "unknown", "unsettled"]
    evidence = [
        *[Evidence(competency="shown", right=True, guess=0, on=TODAY)] * 15,
        *[Evidence(competency="gap", right=False, guess=0.25, on=TODAY)] * 3,
        *[Evidence(competency="unsettled", right=True, guess=0.25, on=TODAY)] * 2,
    ]

    found = gaps([competency(name=name) for name in names], evidence, TODAY)

    assert [gap.competency for gap in found] == ["gap", "unknown", "unsettled", "shown"]
    assert all(gap.low < gap.median < gap.high for gap in found)


@settings(deadline=None)
@given(st.lists(st.booleans(), max_size=20), st.sampled_from([0.0, 0.25, 0.5]))
def test_one_more_right_answer_never_makes_mastery_less_likely(history, guess):
    evidence = [Evidence(competency="ends", right=right, guess=guess, on=TODAY) for right in history]
    more = [*evidence, Evidence(competency="ends", right=True, guess=guess, on=TODAY)]

    assert gaps([competency()], more, TODAY)[0].chance >= gaps([competency()], evidence, TODAY)[0].chance


def test_the_interval_holds_what_it_says_for_people_drawn_from_the_prior():
    # Numbers to be worked out (nothing to guess): of people drawn evenly, 80 % lie inside their own interval.
    rng, inside, people = random.Random(20260309), 0, 1500
    for _ in range(people):
        theta = rng.uniform(0, 1)
        right = sum(rng.uniform(0, 1) < theta for _ in range(8))
        a, b = 1 + right, 1 + 8 - right
        inside += beta.quantile(0.1, a, b) <= theta <= beta.quantile(0.9, a, b)

    assert inside / people == pytest.approx(0.8, abs=0.03)
