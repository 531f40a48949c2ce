"""Which questions go into a paper: what must be passed first, then each scenario's share, the least recent ones first."""

from collections.abc import Sequence
from dataclasses import dataclass
from random import Random

from trainer.bank import Bank
from trainer.bank.model import Programme, Question
from trainer.errors import BankError
from trainer.wording import say


@dataclass(frozen=True, slots=True)
class Pick:
    """A question that is in, and whether it has to be right for the paper to be passed."""

    question: Question
    critical: bool


def choose(bank: Bank, programme: Programme, rng: Random, past: Sequence[frozenset[str]]) -> list[Pick]:
    """Choose the questions of a paper. ``past`` holds the items of the person's last papers, newest first.

    Raises :class:`BankError` where a scenario has too few questions or a competency that must be passed cannot be
    asked.
    """
    pools = _pools(bank, programme, rng, past)
    seats = dict(programme.blueprint.questions)
    drilled = {bank.drills[name].competency for name in programme.blueprint.drills}
    needed = [name for name in programme.blueprint.must_pass if name not in drilled]
    must = _must_pass(programme, pools, seats, needed)
    picks = [Pick(question, critical=True) for question in must]
    taken = {question.id for question in must}
    for scenario, count in seats.items():
        left = [question for question in pools[scenario] if question.id not in taken]
        if count > len(left):
            raise BankError(
                say(
                    "{programme} asks more questions of {scenario} than it has.",
                    programme=programme.id,
                    scenario=scenario,
                )
            )
        picks += [Pick(question, critical=question.critical) for question in left[:count]]
    return picks


def _pools(bank: Bank, programme: Programme, rng: Random, past: Sequence[frozenset[str]]) -> dict[str, list[Question]]:
    """Return each scenario's questions: those not asked lately first, those asked last at the end, else by chance."""
    pools: dict[str, list[Question]] = {}
    for scenario in programme.blueprint.questions:
        pool: list[Question] = list(bank.scenarios[scenario].questions)
        rng.shuffle(pool)
        pool.sort(key=lambda question: _staleness(question.id, past))
        pools[scenario] = pool
    return pools


def _staleness(item: str, past: Sequence[frozenset[str]]) -> int:
    return next((len(past) - age for age, paper in enumerate(past) if item in paper), 0)


def _must_pass(
    programme: Programme, pools: dict[str, list[Question]], seats: dict[str, int], needed: Sequence[str]
) -> list[Question]:
    """Take one question for each competency that must be passed and use up the seats they take."""
    chosen = _seated(needed, pools, seats)
    if chosen is None:
        raise BankError(
            say(
                "The paper of {programme} has no room for each competency that must be passed: {names}.",
                programme=programme.id,
                names=", ".join(needed),
            )
        )
    for question in chosen:
        seats[question.scenario] -= 1
    return chosen


def _seated(needed: Sequence[str], pools: dict[str, list[Question]], seats: dict[str, int]) -> list[Question] | None:
    """Return a question for each competency, all of them finding a seat; None where that cannot be."""
    if not needed:
        return []
    for question in _candidates(needed[0], pools, seats):
        left = {**seats, question.scenario: seats[question.scenario] - 1}
        others = _seated(needed[1:], pools, left)
        if others is not None:
            return [question, *others]
    return None


def _candidates(competency: str, pools: dict[str, list[Question]], seats: dict[str, int]) -> list[Question]:
    """Return the best question on a competency in each scenario with a seat left."""
    best = []
    for scenario, pool in pools.items():
        fits = [question for question in pool if question.competency == competency]
        if seats[scenario] > 0 and fits:
            # A question that its author calls critical shows best that the competency is there.
            best.append(min(fits, key=lambda question: not question.critical))
    return sorted(best, key=lambda question: not question.critical)
