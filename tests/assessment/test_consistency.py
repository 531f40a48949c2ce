import random

import pytest

from trainer.assessment.consistency import beta_binomial, chance_to_pass, consistency, shape
from trainer.assessment.reliability import Spread

# Fact sheet on assessment, section 2, computed: items, mean, SD, mark; KR-21; the two parameters; agreement and kappa
# by the beta-binomial (Huynh 1976) and by the normal (Peng & Subkoviak 1980) model; Livingston's coefficient.
TABLE = [
    (20, 16.5, 2.5, 16, "0.5663", ("12.636", "2.680"), ("0.7442", "0.3951"), ("0.7173", "0.3741"), "0.5830"),
    (20, 17, 2.0, 16, "0.3816", ("27.552", "4.862"), ("0.7479", "0.2434"), ("0.7270", "0.2212"), "0.5053"),
    (10, 7, 2, 8, "0.5278", ("6.263", "2.684"), ("0.6877", "0.3688"), ("0.6878", "0.3504"), "0.6222"),
    (50, 43, 5, 40, "0.7747", ("12.506", "2.036"), ("0.8516", "0.5636"), ("0.8311", "0.5397"), "0.8343"),
]


def spread(items, mean, deviation, people=200):
    return Spread(people=people, items=items, mean=mean, variance=deviation**2)


@pytest.mark.parametrize("row", TABLE)
def test_pass_marks_are_as_steady_as_tabled(row):
    items, mean, deviation, needed, kr21, parameters, exact, normal, livingston = row
    seen = spread(items, mean, deviation)
    found = consistency(seen, needed)

    assert f"{found.kr21:.4f}" == kr21
    assert tuple(f"{one:.3f}" for one in shape(seen)) == parameters
    assert (f"{found.exact.alike:.4f}", f"{found.exact.kappa:.4f}") == exact
    assert (f"{found.normal.alike:.4f}", f"{found.normal.kappa:.4f}") == normal
    assert f"{found.livingston:.4f}" == livingston
    assert found.note is None


def test_agreement_is_what_two_papers_of_drawn_people_come_to():
    seen, rng, alike, people = spread(20, 16.5, 2.5), random.Random(20260309), 0, 8000
    a, b = shape(seen)
    for _ in range(people):
        theta = rng.betavariate(a, b)
        first, second = (sum(rng.uniform(0, 1) < theta for _ in range(20)) >= 16 for _ in range(2))
        alike += first == second

    assert alike / people == pytest.approx(beta_binomial(seen, 16).alike, abs=0.015)


def test_only_what_is_known_to_be_steady_is_called_so():
    assert consistency(spread(50, 43, 5), 40).enough
    assert not consistency(spread(20, 16.5, 2.5), 16).enough
    few = consistency(spread(50, 43, 5, people=12), 40)
    assert not few.enough
    assert str(few.note) == "Too few answers to judge by: 12 of the 50 that it takes."


@pytest.mark.parametrize("deviation", [0, 0.5, 1.7])
def test_scores_that_differ_by_chance_alone_say_nothing(deviation):
    found = consistency(spread(20, 16, deviation), 16)

    assert (found.exact, found.normal, found.enough) == (None, None, False)
    assert "no more than by chance" in str(found.note)


def test_the_mark_at_either_end_decides_alike():
    assert beta_binomial(spread(10, 7, 2), 0).alike == 1
    assert consistency(spread(10, 7, 2), 0).exact.kappa == 0


# Section 2, computed: a mark of 16 of 20 for those who guess among four, and for p = .60, .85 and .90.
def test_the_chance_to_pass_is_as_tabled():
    assert chance_to_pass(0.25, 16, 20) == pytest.approx(3.87e-7, rel=2e-3)
    assert f"{chance_to_pass(0.6, 16, 20):.4f}" == "0.0510"
    assert f"{1 - chance_to_pass(0.85, 16, 20):.4f}" == "0.1702"
    assert f"{1 - chance_to_pass(0.9, 16, 20):.4f}" == "0.0432"


@pytest.mark.parametrize(("p", "items", "chance"), [(0.95, 5, "0.7738"), (0.95, 10, "0.5987"), (0.98, 5, "0.9039")])
def test_the_chance_to_have_every_critical_item_right_is_as_tabled(p, items, chance):
    assert f"{chance_to_pass(p, items, items):.4f}" == chance
