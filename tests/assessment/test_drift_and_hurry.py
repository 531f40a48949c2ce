import pytest

from trainer.assessment.drift import Asked, drift
from trainer.assessment.hurry import hurried, least_ms, too_fast
from trainer.errors import UsageError


def asked(edition, right, answers):
    return Asked(edition=edition, right=right, answers=answers)


def test_an_item_that_became_easier_says_so():
    # Newcombe 1998, table II, method 10: 56/70 less 48/80 lies between .0524 and .3339.
    found = drift(asked(3, 48, 80), asked(4, 56, 70))

    assert found.difference == pytest.approx(0.2)
    assert (round(found.low, 4), round(found.high, 4)) == (0.0524, 0.3339)
    assert str(found.told) == "Easier in edition 4 than in 3."


def test_an_item_that_became_harder_says_so():
    assert str(drift(asked(3, 56, 70), asked(4, 48, 80)).told) == "Harder in edition 4 than in 3."


@pytest.mark.parametrize(
    ("before", "after"),
    [
        ((40, 80), (45, 80)),  # within chance
        ((1600, 2000), (1680, 2000)),  # beyond chance, yet less than a tenth
    ],
)
def test_a_small_move_is_none(before, after):
    found = drift(asked(1, *before), asked(2, *after))

    assert (found.told, found.note) == (None, None)


def test_too_few_answers_in_either_edition_are_not_judged():
    found = drift(asked(1, 10, 400), asked(2, 9, 10))

    assert found.told is None
    assert str(found.note) == "Too few answers to judge by: 10 of the 50 that it takes."
    assert drift(asked(1, 0, 0), asked(2, 9, 10)).difference is None


def test_a_sheet_of_fifty_words_takes_five_seconds_at_the_fastest():
    # 600 words a minute (Carver 1990, known from quotations).
    assert least_ms(50) == 5000
    assert too_fast(4999, 50)
    assert not too_fast(5000, 50)
    assert not too_fast(4999, 49) or least_ms(49) > 4999


def test_a_time_that_is_not_known_is_not_fast():
    assert not too_fast(0, 500)
    assert not too_fast(1, 0)


def test_hurried_answers_are_a_share_of_those_timed():
    assert hurried(80, 20, 6).share == 0.25
    assert hurried(80, 20, 6).note is None
    assert str(hurried(8, 2, 1).note) == "Too few answers to judge by: 8 of the 50 that it takes."
    assert hurried(0, 0, 0).share is None
    with pytest.raises(UsageError):
        hurried(3, 4, 0)
