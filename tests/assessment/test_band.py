from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from trainer.assessment.band import Verdict, band
from trainer.safeguarding.result import Sense

LEAST = band(Sense.AT_LEAST, "mm", Fraction("402.20344"), Fraction(1), Fraction(100))
MORE = band(Sense.MORE_THAN, "mm", Fraction(192), Fraction(1), Fraction(100))
MOST = band(Sense.AT_MOST, "ms", Fraction("175.64"), Fraction(1, 10), Fraction(20))


@pytest.mark.parametrize(
    ("number", "verdict"),
    [
        ("402", Verdict.SHORT),
        ("402.1", Verdict.SHORT),
        ("402.19", Verdict.SHORT),
        ("402.2", Verdict.SHORT),  # by a hair, and a hair is short
        ("402.20344", Verdict.RIGHT),
        ("402.3", Verdict.RIGHT),
        ("403", Verdict.RIGHT),
        ("503", Verdict.RIGHT),
        ("503.1", Verdict.FAR),
    ],
)
def test_a_least_distance_is_right_from_itself_up_to_the_limit(number, verdict):
    assert LEAST.verdict(Fraction(number)) is verdict


@pytest.mark.parametrize(
    ("number", "verdict"),
    [("191", Verdict.SHORT), ("192", Verdict.SHORT), ("192.1", Verdict.RIGHT), ("193", Verdict.RIGHT)],
)
def test_where_more_is_asked_for_the_value_itself_is_short(number, verdict):
    assert MORE.verdict(Fraction(number)) is verdict
    assert MORE.needed == 193


@pytest.mark.parametrize(
    ("number", "verdict"),
    [
        ("175.7", Verdict.SHORT),
        ("176", Verdict.SHORT),
        ("175.6", Verdict.RIGHT),
        ("155.6", Verdict.RIGHT),
        ("155.5", Verdict.FAR),
    ],
)
def test_for_a_greatest_value_the_unsafe_side_is_above(number, verdict):
    assert MOST.verdict(Fraction(number)) is verdict
    assert MOST.needed == Fraction("175.6")


def test_the_gap_is_what_is_missing_to_the_exact_value_or_what_is_beyond_the_need():
    assert LEAST.gap(Fraction(335)) == Fraction("67.20344")
    assert LEAST.gap(Fraction(600)) == 197
    assert MOST.gap(Fraction(180)) == Fraction("4.36")


@settings(deadline=None)
@given(
    st.sampled_from(list(Sense)),
    st.fractions(min_value=1, max_value=1000, max_denominator=1000),
    st.fractions(min_value=0, max_value=1200, max_denominator=100),
)
def test_nothing_on_the_unsafe_side_is_right(sense, exact, number):
    accepted = band(sense, "mm", exact, Fraction(1), Fraction(100))
    too_much = sense in {Sense.AT_MOST, Sense.LESS_THAN}
    unsafe = number > exact if too_much else number < exact

    if unsafe:
        assert accepted.verdict(number) is Verdict.SHORT
    assert accepted.verdict(accepted.needed) is Verdict.RIGHT
