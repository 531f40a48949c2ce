from math import sqrt

import pytest
from assessment.published import ATTITUDE, LSAT_ROWS, STUDENTS, rights, scores

from trainer.assessment import reliability as rel
from trainer.errors import UsageError


def mixed(rows):
    """KR-20 with the trap in it: the variance of the scores divides by one less than the number of people."""
    n, k = len(rows), len(rows[0])
    mean = sum(map(sum, rows)) / n
    sample = sum((sum(row) - mean) ** 2 for row in rows) / (n - 1)
    return k / (k - 1) * (1 - sum(r / n * (1 - r / n) for r in rights(rows)) / sample)


# Fact sheet on assessment, sections 1.1, 1.2 and 1.4: ltm prints .2950 for LSAT section 6.
@pytest.mark.parametrize(
    ("rows", "right", "wrong"), [(LSAT_ROWS, "0.29500", "0.29595"), (STUDENTS, "0.69635", "0.73782")]
)
def test_kr20_keeps_to_one_kind_of_variance(rows, right, wrong):
    found = rel.kr20(rights(rows), scores(rows))

    assert f"{found:.5f}" == right
    assert f"{mixed(rows):.5f}" == wrong
    assert found == pytest.approx(rel.alpha(rows))


def test_lsat_scores_have_the_published_frequencies_and_spread():
    found = rel.spread(scores(LSAT_ROWS), 5)

    assert [scores(LSAT_ROWS)[score] for score in range(6)] == [3, 20, 85, 237, 357, 298]  # ltm prints these
    assert (found.people, found.mean) == (1000, 3.819)
    assert f"{found.variance:.6f}" == "1.070239"
    assert f"{sqrt(found.variance):.5f}" == "1.03452"
    assert f"{rel.kr21(5, found.mean, found.variance):.5f}" == "0.19644"


def test_lsat_has_the_tabled_error_and_alpha_of_what_is_left():
    found = rel.reliability(rights(LSAT_ROWS), scores(LSAT_ROWS))

    assert f"{found.error:.5f}" == "0.86863"
    assert found.note is None
    # ltm prints these to three places.
    assert [f"{one:.4f}" for one in rel.alpha_without(LSAT_ROWS)] == ["0.2754", "0.2376", "0.2168", "0.2459", "0.2663"]


def test_ten_students_have_the_tabled_figures_and_too_few_people():
    found = rel.reliability(rights(STUDENTS), scores(STUDENTS))
    seen = rel.spread(scores(STUDENTS), 10)

    assert [sum(row) for row in STUDENTS] == [8, 7, 7, 2, 2, 9, 8, 9, 7, 7]
    assert f"{seen.variance:.2f}" == "5.84"  # printed in the source
    assert f"{found.kr20:.6f}" == "0.696347"
    assert f"{found.error:.5f}" == "1.33167"
    assert str(found.note) == "Too few answers to judge by: 10 of the 50 that it takes."
    assert f"{rel.kr21(10, seen.mean, seen.variance):.5f}" == "0.68417"
    assert [f"{one:.4f}" for one in rel.alpha_without(STUDENTS)] == [
        *("0.6084", "0.6084", "0.7353", "0.6525", "0.6290"),
        *("0.6846", "0.7355", "0.6084", "0.7564", "0.6505"),
    ]


def test_a_longer_test_is_more_reliable_by_what_the_formula_says():
    value = rel.kr20(rights(STUDENTS), scores(STUDENTS))

    # Section 1.4 has .82097 and 1.745, from a value rounded on the way; by hand 2 * .696347 / 1.696347 = .820996.
    assert f"{rel.lengthened(value, 2):.6f}" == "0.820996"
    assert rel.lengthened(value, 2) == pytest.approx(0.82097, abs=5e-5)
    assert rel.length_for(value, 0.8) == pytest.approx(1.745, abs=1e-3)
    assert rel.lengthened(value, rel.length_for(value, 0.8)) == pytest.approx(0.8)
    assert rel.length_for(0, 0.8) is None


def test_seven_marks_of_thirty_departments_have_the_tabled_alpha():
    # Fact sheet, section 1.5: data of Chatterjee & Price; the package psych prints .84.
    assert f"{rel.alpha(ATTITUDE):.5f}" == "0.84314"
    assert [f"{one:.4f}" for one in rel.with_the_rest(ATTITUDE)] == [
        *("0.6713", "0.7421", "0.5607", "0.7144", "0.7863", "0.2650", "0.4608"),
    ]
    assert [f"{one:.4f}" for one in rel.alpha_without(ATTITUDE)] == [
        *("0.8098", "0.7969", "0.8278", "0.8030", "0.7954", "0.8639", "0.8405"),
    ]


def test_kr21_of_a_printed_example():
    # Section 1.6: k 50, M 43, variance 25; the text prints .78 after rounding on the way.
    assert rel.kr21(50, 43, 25) == pytest.approx(0.78, abs=0.01)
    assert f"{rel.kr21(50, 43, 25):.6f}" == "0.774694"
    assert f"{rel.sem(5, rel.kr21(50, 43, 25)):.4f}" == "2.3733"


@pytest.mark.parametrize(("right", "items", "error"), [(16, 20, "1.8353"), (18, 20, "1.3765")])
def test_lords_error_is_as_tabled(right, items, error):
    # Section 1.1, computed from the formula as remembered.
    assert f"{rel.lord_sem(right, items):.4f}" == error


def test_where_scores_do_not_differ_nothing_is_said():
    assert rel.kr20([5, 5], {2: 5}) is None
    assert rel.kr20([], {}) is None
    assert rel.alpha([]) is None
    assert rel.kr21(10, 7, 0) is None
    assert rel.reliability([0, 0], {}).error is None


def test_impossible_scores_are_refused():
    with pytest.raises(UsageError):
        rel.spread({6: 1}, 5)
    with pytest.raises(UsageError):
        rel.lord_sem(1, 1)
    with pytest.raises(UsageError):
        rel.length_for(0.5, 1)
