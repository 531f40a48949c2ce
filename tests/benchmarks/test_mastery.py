"""Mastery of many people beside one numpy pass over the same answers: run with ``--slow -s``; nothing fails on time."""

import random
from datetime import date, timedelta

import numpy as np
import pytest
from benchmarks.measuring import seconds, tell

from trainer.assessment.mastery import HALF_LIFE, SLIP, Evidence, gaps, posterior
from trainer.bank.model import Competency, Text

pytestmark = pytest.mark.slow

TODAY = date(2026, 3, 9)
NAME = Text(words={"en": "—"})
COMPETENCIES = 40


@pytest.fixture(scope="module")
def answers(rows: int) -> list[list[Evidence]]:
    """Return the evidence about each of a hundredth as many people as there are answers, 100 each."""
    chance = random.Random(rows)
    days = [TODAY - timedelta(days=back) for back in range(900)]
    return [
        [
            Evidence(
                competency=f"c{chance.randrange(COMPETENCIES)}",
                right=chance.random() < 0.8,
                guess=chance.choice([0.0, 0.25, 0.2]),
                on=days[int(chance.random() * 900)],
            )
            for _ in range(100)
        ]
        for _ in range(max(rows // 100, 1))
    ]


def one_pass(answers: list[list[Evidence]]):
    """Return a closure that reckons every posterior in numpy, from columns that are there already."""
    flat = [(who, each) for who, mine in enumerate(answers) for each in mine]
    cell = np.array([who * COMPETENCIES + int(each.competency[1:]) for who, each in flat])
    right = np.array([each.right for _who, each in flat])
    guess = np.array([each.guess for _who, each in flat])
    age = np.array([(TODAY - each.on).days for _who, each in flat])
    size = len(answers) * COMPETENCIES

    def work():
        credit = np.where(right, (1 - SLIP) / (1 - SLIP + guess), (1 - guess) / (1 - guess + SLIP))
        weight = credit * 0.5 ** (age / HALF_LIFE)
        a = 1 + np.bincount(cell[right], weight[right], size)
        return a, 1 + np.bincount(cell[~right], weight[~right], size)

    return work


def test_mastery_of_everybody(answers):
    listed = [
        Competency(id=f"c{number}", kind="knowledge", critical=False, level=0.8, roles=(), name=NAME, can_do=NAME)
        for number in range(COMPETENCIES)
    ]
    *floor_took, (a, _b) = seconds(one_pass(answers))
    *summed, sums = seconds(lambda: [posterior(mine, TODAY) for mine in answers])
    *took, found = seconds(lambda: [gaps(listed, mine, TODAY) for mine in answers])
    count = sum(map(len, answers))
    told = f"{len(answers)} people x {COMPETENCIES} competencies, {count} answers"
    for what, spent in (("Mastery, summing the evidence", summed), ("Mastery with its intervals", took)):
        tell(
            what,
            took=tuple(spent),
            floor="one numpy pass that sums the evidence only",
            floor_took=tuple(floor_took),
            rows=told,
            aim="3 x",
        )

    assert sum(gap.answers for mine in found for gap in mine) == count
    assert sum(left - 1 for left, _right in sums) == pytest.approx(float((a - 1).sum()))
