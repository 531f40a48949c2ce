import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from trainer.assessment.consistency import chance_to_pass
from trainer.assessment.samples import FEW, difference, exact, too_few, wilson
from trainer.errors import UsageError


def test_eighteen_of_twenty_have_the_tabled_intervals():
    # Fact sheet on assessment, section 3.1: computed with scipy.
    assert [f"{end:.4f}" for end in wilson(18, 20)] == ["0.6990", "0.9721"]
    assert [f"{end:.4f}" for end in exact(18, 20)] == ["0.6830", "0.9877"]


# Newcombe 1998, Statistics in Medicine 17:873-890, table II, method 10.
@pytest.mark.parametrize(
    ("counts", "low", "high"),
    [
        ((56, 70, 48, 80), "0.0524", "0.3339"),
        ((9, 10, 3, 10), "0.1705", "0.8090"),
        ((6, 7, 2, 7), "0.0582", "0.8062"),
        ((5, 56, 0, 29), "-0.0381", "0.1926"),
        ((0, 10, 0, 20), "-0.1611", "0.2775"),
        ((0, 10, 0, 10), "-0.2775", "0.2775"),
    ],
)
def test_differences_have_the_published_intervals(counts, low, high):
    assert [f"{end:.4f}" for end in difference(*counts)] == [low, high]


@settings(deadline=None)
@given(st.integers(1, 80).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n))))
def test_the_exact_interval_leaves_a_fortieth_at_each_end(counts):
    right, answers = counts
    low, high = exact(right, answers)

    if right > 0:
        assert chance_to_pass(low, right, answers) == pytest.approx(0.025, rel=1e-4)
    if right < answers:
        assert 1 - chance_to_pass(high, right + 1, answers) == pytest.approx(0.025, rel=1e-4)


def test_none_and_all_right_keep_the_ends_and_nothing_asked_says_nothing():
    assert wilson(0, 12)[0] == 0
    assert wilson(12, 12)[1] == 1
    assert wilson(0, 0) == (0, 1)
    assert difference(3, 3, 0, 0) == (-1, 1)


def test_small_samples_say_so_and_large_ones_do_not():
    assert str(too_few(0)) == "Nobody has answered it yet."
    assert str(too_few(FEW - 1)) == "Too few answers to judge by: 49 of the 50 that it takes."
    assert too_few(FEW) is None


@pytest.mark.parametrize(("right", "answers"), [(-1, 3), (4, 3)])
def test_more_right_than_asked_is_refused(right, answers):
    with pytest.raises(UsageError, match="cannot be right"):
        wilson(right, answers)
