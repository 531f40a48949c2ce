"""Answers a paper as a person of a story would: right, but for the mistakes the story names."""

import random
from collections.abc import Iterable
from dataclasses import dataclass

from trainer.assessment import judging
from trainer.assessment.answers import Answer
from trainer.assessment.drills import worked as work_out
from trainer.assessment.marking import Mark, mark
from trainer.assessment.model_answers import right_answer, showing, shown_by
from trainer.assessment.paper import Paper, Sheet
from trainer.bank import Bank
from trainer.bank.model import ComputeDrill, JudgeDrill, Number, Question, RuleDrill, SelectDrill
from trainer.safeguarding.problems import problem
from trainer.safeguarding.selection import select
from trainer.units import show


@dataclass(frozen=True, slots=True, kw_only=True)
class Answered:
    """One sheet, how it was answered, and what that was worth."""

    sheet: Sheet
    answer: Answer
    mark: Mark
    took_ms: int


def answer_paper(bank: Bank, paper: Paper, wrong: Iterable[str], rng: random.Random) -> list[Answered]:
    """Answer every marked sheet; each mistake of ``wrong`` is made on the first sheet that it fits."""
    mistakes = list(wrong)
    answered = []
    for sheet in paper.marked:
        mistake = next((one for one in mistakes if _fits(bank, sheet, one)), None)
        if mistake is not None:
            mistakes.remove(mistake)
        answer = _answer(bank, sheet, mistake)
        answered.append(
            Answered(sheet=sheet, answer=answer, mark=mark(bank, sheet, answer), took_ms=rng.randrange(9_000, 95_000))
        )
    return answered


def _fits(bank: Bank, sheet: Sheet, mistake: str) -> bool:
    item = bank.item(sheet.item)
    if mistake.startswith("slip:"):
        return isinstance(item, ComputeDrill) and _slipped(item, sheet, mistake) is not None
    asked = isinstance(item, Question) and not isinstance(item, Number)
    return asked and sheet.critical == (mistake == "critical")


def _answer(bank: Bank, sheet: Sheet, mistake: str | None) -> Answer:
    item = bank.item(sheet.item)
    if isinstance(item, ComputeDrill):
        value = _slipped(item, sheet, mistake) if mistake else work_out(item, sheet.drawn).rounded
        return Answer(item=sheet.item, chosen=None, value=show(value, item.unit, 2))
    if isinstance(item, SelectDrill):
        return Answer(item=sheet.item, chosen=_valid_safeguard(item, sheet), value=None)
    if isinstance(item, JudgeDrill | RuleDrill):
        return Answer(item=sheet.item, chosen=judging.right_choice(item, sheet.drawn).id, value=None)
    if not isinstance(item, Question):
        raise TypeError(f"{sheet.item} is not marked")
    wrong = next(iter(shown_by(item)), None) if mistake else None
    return (showing(item, sheet, wrong) if wrong else None) or right_answer(item, sheet)


def _slipped(item: ComputeDrill, sheet: Sheet, mistake: str) -> object | None:
    code = mistake.removeprefix("slip:")
    if code not in item.slips:
        return None
    sum_ = problem(item.problem)
    wrong = sum_.wrong(sum_.read(sheet.drawn), code)
    return None if wrong is None else wrong.rounded


def _valid_safeguard(item: SelectDrill, sheet: Sheet) -> str:
    best = select(item.facts_of(sheet.drawn["setting"]), item.rule_set).best
    return next((code for code in best if code in sheet.order), "none")
