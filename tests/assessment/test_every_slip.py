"""Simulated trainees over every problem and every slip that it knows: the slip is named first, no wrong answer is right.

The inputs are drawn as a drill draws them, and a draw is refused as drills refuse it: where the slip's figure would pass
for right, or cannot be told from that of another slip of the problem. What is refused is counted and printed.
"""

import sys
from collections import Counter
from collections.abc import Iterator
from fractions import Fraction
from functools import cache
from random import Random

import pytest
from assessment.situations import SITUATIONS, drawn

from trainer.assessment.band import CEILINGS, STRICT, Verdict, band
from trainer.assessment.diagnosis import explain
from trainer.assessment.drills import alike, passes_for_right
from trainer.assessment.slip_values import SlipValues
from trainer.errors import UsageError
from trainer.safeguarding.problems import PROBLEMS
from trainer.units import Q, digits

ENOUGH = 0.97
TRIES = 150  # draws for one answer; a slip that none of so many tells apart is as good as never told
PAIRS = [(name, slip.code) for name, asked in PROBLEMS.items() for slip in asked.slips]
# How people write the figure they came to: most round it as they were taught.
HABITS = {
    "rounded": lambda figure, _places: figure.rounded,
    "as printed": lambda figure, places: Fraction(digits(figure.value, places)),
}
WRITTEN = ("rounded", "rounded", "rounded", "as printed")
PLACES = {"mm": 1, "inch": 2, "ms": 1, "s": 4, "kN": 1, "kN/m": 1, "": 3}


@cache
def codes(name: str) -> tuple[str, ...]:
    return tuple(slip.code for slip in PROBLEMS[name].slips)


def values(name: str, unit: str, texts: dict[str, str]) -> SlipValues | None:
    """The figures of one draw; None where the problem does not take it or gives no figure."""
    asked = PROBLEMS[name]
    try:
        numbers = asked.numbers(asked.read(texts))
    except UsageError:
        return None
    found = SlipValues(asked, numbers, unit, codes(name))
    return found if found.right is not None else None


def accepted(found: SlipValues):
    return band(found.right.sense, found.unit, found.right.value, found.problem.answer.grid[found.unit], Fraction(0))


def tells(found: SlipValues, code: str) -> bool:
    """Say whether a drill that lists all slips of the problem would ask this draw, as far as this slip goes."""
    figures = {names[0]: figure for names, figure in found.singles}
    step = found.problem.answer.grid[found.unit]
    if code not in figures or passes_for_right(figures[code], accepted(found), step):
        return False
    return not any(alike(figures[code].value, other.value, step) for name, other in figures.items() if name != code)


def became(found: SlipValues, code: str, habit: str) -> Iterator[str]:
    figure = next(figure for names, figure in found.singles if names[0] == code)
    typed = HABITS[habit](figure, PLACES[found.unit])
    verdict = accepted(found).verdict(typed)
    named = explain(found.problem, found.numbers, Q(typed, found.unit), codes(found.problem.name))
    yield "answers"
    if verdict is Verdict.RIGHT:
        yield "called right"
    if not named:
        yield "not named"
    elif named[0].codes == (code,):
        yield "tied" if named[0].tied else "named first"
    else:
        yield "another first"


def simulate(draws: int, seed: int) -> dict[tuple[str, str], Counter[str]]:
    rng, figures = Random(seed), {pair: Counter() for pair in PAIRS}
    for number in range(draws):
        name, code = PAIRS[number % len(PAIRS)]
        count, unit = figures[name, code], rng.choice(list(PROBLEMS[name].answer.grid))
        for _ in range(TRIES):
            found = values(name, unit, drawn(name, rng))
            if found is not None and tells(found, code):
                count.update(became(found, code, rng.choice(WRITTEN)))
                break
            count["refused"] += 1
    return figures


def judge(figures: dict[tuple[str, str], Counter[str]]) -> None:
    columns = ("answers", "named first", "tied", "another first", "not named", "called right", "refused")
    lines = [" " * 68 + "".join(f"{column:>14}" for column in columns)]
    lines += [f"{name:30}{code:38}" + "".join(f"{row[c]:14}" for c in columns) for (name, code), row in figures.items()]
    total = sum(figures.values(), Counter())
    lines.append(f"named first: {total['named first'] / total['answers']:.4f} of {total['answers']}")
    sys.stdout.write("\n" + "\n".join(lines) + "\n")
    assert total["called right"] == 0
    assert total["named first"] / total["answers"] >= ENOUGH
    assert [pair for pair, row in figures.items() if not row["answers"]] == []


def test_every_problem_has_situations_to_draw_from():
    assert set(SITUATIONS) == set(PROBLEMS)


def test_each_slip_of_each_problem_is_named_on_1000_draws_and_each_can_be_told():
    judge(simulate(1000, seed=1))


@pytest.mark.slow
def test_each_slip_of_each_problem_is_named_on_10000_draws_and_each_can_be_told():
    judge(simulate(10_000, seed=2))


@pytest.mark.parametrize("name", list(PROBLEMS))
def test_what_a_worked_solution_prints_rounded_is_right_and_a_hair_to_the_unsafe_side_is_short(name):
    asked, rng = PROBLEMS[name], Random(4)
    for _ in range(12):
        for unit in asked.answer.grid:
            texts = drawn(name, rng)
            found = values(name, unit, texts)
            if found is None:
                continue
            right, judged = found.right, accepted(found)
            worked = asked.solve(asked.read(texts), unit=unit)
            a_hair = Fraction(1, 10**9) * (-1 if right.sense in CEILINGS else 1)
            assert judged.verdict(worked.rounded.magnitude) is Verdict.RIGHT
            assert judged.verdict(right.value - a_hair) is Verdict.SHORT
            assert judged.verdict(right.value) is (Verdict.SHORT if right.sense in STRICT else Verdict.RIGHT)
