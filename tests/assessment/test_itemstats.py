import random
from fractions import Fraction
from math import sqrt

import pytest
from assessment.published import LSAT_ROWS, STUDENTS, tally

from trainer.assessment.ends import ends
from trainer.assessment.itemstats import DOUBTS, Doubt, Seen, correlation, item_statistics, upper_lower
from trainer.assessment.samples import wilson
from trainer.assessment.wrongoptions import Chosen, option_statistics
from trainer.errors import UsageError

# Printed by the package ltm for LSAT section 6 (its `descript`, columns of proportions, "Included" and "Excluded").
LSAT = [
    (0.924, "0.3620", "0.1128"),
    (0.709, "0.5668", "0.1532"),
    (0.553, "0.6184", "0.1728"),
    (0.763, "0.5344", "0.1444"),
    (0.870, "0.4354", "0.1216"),
]


@pytest.mark.parametrize("item", range(5))
def test_lsat_items_have_the_published_difficulty_and_correlations(item):
    difficulty, in_total, corrected = LSAT[item]
    found = item_statistics(tally(LSAT_ROWS, item))

    assert found.answers == 1000
    assert found.difficulty == difficulty
    assert (found.low, found.high) == wilson(found.right, 1000)
    assert f"{found.corrected:.4f}" == corrected
    assert f"{correlation((row[item], sum(row), 1) for row in LSAT_ROWS):.4f}" == in_total


# Fact sheet on assessment, section 1.1: 298 perfect scores share 270 places; a sorted list gives other figures.
@pytest.mark.parametrize("item", range(5))
def test_people_who_tie_share_the_places_of_the_upper_group(item):
    averaged = ["0.1966", "0.6315", "0.8109", "0.5370", "0.3203"]
    by_file_order = [0.1333, 0.5815, 0.7704, 0.6407, 0.3704]
    shuffled = random.Random(4).sample(LSAT_ROWS, 1000)

    assert f"{upper_lower(tally(LSAT_ROWS, item)):.4f}" == averaged[item]
    assert upper_lower(tally(shuffled, item)) == upper_lower(tally(LSAT_ROWS, item))
    listed = sorted(LSAT_ROWS, key=sum, reverse=True)
    crude = (sum(row[item] for row in listed[:270]) - sum(row[item] for row in listed[-270:])) / 270
    assert crude == pytest.approx(by_file_order[item], abs=5e-5)


def test_groups_of_eleven_with_nine_and_three_right():
    # Two groups of 11, 9 and 3 right: D = 6/11 = 0.545 (same section, printed by a package's documentation).
    groups = {Seen(True, 9, 10): 9, Seen(False, 9, 10): 2, Seen(True, 2, 10): 3, Seen(False, 2, 10): 8}

    assert upper_lower(groups, Fraction(1, 2)) == pytest.approx(0.545, abs=5e-4)


# Fact sheet on assessment, section 1.4; the data are Wuensch's.
@pytest.mark.parametrize(
    ("item", "corrected"),
    list(
        enumerate(
            ["0.7059", "0.7059", "0.0000", "0.4736", "0.5839", "0.2861", "-0.0274", "0.7059", "-0.1236", "0.4759"]
        )
    ),
)
def test_ten_students_have_the_tabled_correlations(item, corrected):
    found = item_statistics(tally(STUDENTS, item))

    assert f"{found.corrected:.4f}" == corrected
    assert found.doubts == ()
    assert str(found.note) == "Too few answers to judge by: 10 of the 50 that it takes."


def test_a_negative_item_is_doubted_once_there_are_enough_answers():
    found = [item_statistics(tally(STUDENTS * 5, item)).doubts for item in range(10)]

    assert found[8] == found[6] == (Doubt.KEY,)
    assert found[2] == (Doubt.WEAK,)
    assert found[0] == ()
    assert set(DOUBTS) == set(Doubt)


def test_the_error_of_a_small_correlation_among_thirty_is_as_tabled():
    # Fact sheet, section 1.1: at n = 30 the standard error of r = .2 is about .18.
    found = item_statistics(tally((STUDENTS * 3), 5))

    assert found.error == pytest.approx((1 - found.corrected**2) / sqrt(29))
    assert (1 - 0.2**2) / sqrt(29) == pytest.approx(0.18, abs=0.005)


def test_items_that_say_nothing_have_no_figures():
    nobody = item_statistics({})
    all_right = item_statistics({Seen(True, 3, 4): 60, Seen(True, 4, 4): 20})
    alone = item_statistics({Seen(True, 1, 1): 40, Seen(False, 0, 1): 40})

    assert (nobody.difficulty, nobody.corrected, nobody.upper_lower) == (None, None, None)
    assert (nobody.low, nobody.high) == (0, 1)
    assert (all_right.corrected, all_right.doubts) == (None, ())
    assert all_right.high == 1
    assert alone.corrected is None


def test_papers_of_different_length_are_compared_by_their_shares():
    tallied = {Seen(True, 9, 10): 30, Seen(False, 1, 5): 30}

    assert item_statistics(tallied).corrected == pytest.approx(1)


@pytest.mark.parametrize("counts", [(True, 0, 5), (False, 5, 5), (True, 6, 5)])
def test_an_answer_that_its_paper_contradicts_is_refused(counts):
    with pytest.raises(UsageError):
        Seen(*counts)


def test_the_groups_never_hold_more_than_their_places():
    levels = {Fraction(i, 7): n for i, n in enumerate([3, 0, 40, 1, 2, 9, 11, 2])}
    levels = {level: n for level, n in levels.items() if n}
    for group in ends(levels):
        assert sum(part * levels[level] for level, part in group.items()) == sum(levels.values()) * Fraction(27, 100)


# Own data of the fact sheet, section 1.1: 30 people in thirds of ten; upper, middle, lower.
THIRDS = {"a": (9, 6, 3), "b": (1, 2, 4), "c": (0, 2, 3), "d": (0, 0, 0)}


def thirds(times=1):
    return {
        Chosen(option, score, 30): n * times
        for option, counts in THIRDS.items()
        for score, n in zip((25, 15, 5), counts, strict=True)
        if n
    }


def test_wrong_options_have_the_tabled_shares_and_differences():
    found = option_statistics(thirds(), list("abcd"), frozenset("a"), share=Fraction(1, 3))
    rows = {one.option: (round(one.share, 4), round(one.difference, 2)) for one in found.options}

    assert rows == {"a": (0.6, 0.6), "b": (0.2333, -0.3), "c": (0.1667, -0.3), "d": (0, 0)}
    assert str(found.note) == "Too few answers to judge by: 30 of the 50 that it takes."
    assert not any(one.doubts for one in found.options)


def test_an_option_that_nobody_chooses_and_one_that_the_better_choose_are_doubted():
    backwards = {Chosen("b", 28, 30): 8, Chosen("a", 25, 30): 1}
    found = option_statistics(thirds(2) | backwards, list("abcd"), frozenset("a"))
    doubts = {one.option: one.doubts for one in found.options}

    assert doubts == {"a": (), "b": (Doubt.BACKWARDS,), "c": (), "d": (Doubt.NEVER,)}


def test_what_is_no_option_is_refused_and_no_answers_give_no_figures():
    with pytest.raises(UsageError, match="z is not an option"):
        option_statistics({Chosen("z", 1, 2): 1}, list("ab"), frozenset("a"))

    found = option_statistics({}, list("ab"), frozenset("a"))
    assert [(one.share, one.difference) for one in found.options] == [(None, None)] * 2
    assert str(found.note) == "Nobody has answered it yet."
