from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from trainer.assessment import beta
from trainer.assessment.mastery import SHOWN, Evidence, credit
from trainer.assessment.settling import MOST, more_right, settling

TODAY = date(2026, 3, 9)

# Fact sheet on assessment, section 3.1: the run of right answers after Beta(1, 1), and the length with one miss in it.
RUNS = [(0.8, 0.95, 13, 21), (0.9, 0.95, 28, 45), (0.95, 0.95, 58, 92), (0.8, 0.9, 10, 17), (0.9, 0.9, 21, 37)]


@pytest.mark.parametrize(("level", "sure", "run", "with_a_miss"), RUNS)
def test_the_run_that_settles_is_as_tabled(level, sure, run, with_a_miss):
    assert more_right((1, 1), level, sure=sure) == run
    assert 1 + more_right((1, 2), level, sure=sure) == with_a_miss


@settings(deadline=None)
@given(st.floats(1, 20), st.floats(1, 6), st.sampled_from([0.0, 0.25, 0.5]), st.sampled_from([0.7, 0.8, 0.9]))
def test_it_is_the_least_number_that_does(a, b, guess, level):
    more, step = more_right((a, b), level, guess=guess), credit(guess, right=True)

    if more is None:
        assert beta.above(level, a + MOST * step, b) < SHOWN
        return
    assert beta.above(level, a + more * step, b) >= SHOWN
    assert more == 0 or beta.above(level, a + (more - 1) * step, b) < SHOWN


def evidence(right, count=1, competency="ends", on=TODAY):
    return [Evidence(competency=competency, right=right, guess=0, on=on)] * count


def test_what_is_settled_needs_nothing_and_what_can_be_guessed_needs_more():
    assert (
        str(settling("ends", evidence(True, 12), TODAY, level=0.8).note) == "It is settled: no more answers are needed."
    )
    assert str(settling("ends", evidence(True, 9), TODAY, level=0.8).note) == "One more right answer settles it."
    none, some = (settling("ends", [], TODAY, level=0.8, guess=guess).more for guess in (0, 0.25))
    assert (none, some) == (10, 12)


def test_other_competencies_and_later_answers_do_not_count():
    others = [*evidence(True, 12, "other"), *evidence(True, 12, on=date(2026, 3, 10))]

    assert str(settling("ends", others, TODAY, level=0.8).note) == "10 more right answers in a row settle it."


def test_what_no_run_would_settle_is_sent_to_the_machine():
    found = settling("ends", evidence(False, 60), TODAY, level=0.95)

    assert found.more is None
    assert "at the machine" in str(found.note)
