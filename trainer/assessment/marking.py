"""Marking: what one answer is worth, and which mistake it shows."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, Self

from trainer import units
from trainer.assessment import drills, judging
from trainer.assessment.amounts import unit_of
from trainer.assessment.answers import Answer
from trainer.assessment.band import Band, Verdict, nearest
from trainer.assessment.diagnosis import SlipFound, explain
from trainer.assessment.lists import outcome
from trainer.assessment.paper import Sheet
from trainer.assessment.selecting import Worth, key_of
from trainer.bank import Bank
from trainer.bank.model import ComputeDrill, JudgeDrill, Number, Question, RuleDrill, SelectDrill
from trainer.errors import UsageError
from trainer.safeguarding.problems import problem
from trainer.safeguarding.rounding import to_safe_side
from trainer.safeguarding.show import amount
from trainer.wording import say

__all__ = ["Mark", "Verdict", "mark"]

# Gaps are shown to so fine a step, and never as nothing.
GAP_STEPS = {"mm": Fraction(1, 10), "ms": Fraction(1, 10), "inch": Fraction(1, 100)}
FINE = Fraction(1, 1000)


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """What an answer is worth.

    ``slips`` name the mistakes in a number, ``misconception`` the one behind an option and ``others`` what else a list
    shows; ``gap`` is how much a number
    is short or how far beyond what is ``needed``, both with the unit that the answer was written in. ``better`` holds
    the safeguards that would be better than the usable one that was chosen.
    """

    item: str
    competency: str
    verdict: Verdict
    right: bool
    misconception: str | None = None
    others: tuple[str, ...] = ()
    slips: tuple[SlipFound, ...] = ()
    gap: str | None = None
    needed: str | None = None
    better: tuple[str, ...] = ()

    def as_data(self) -> dict[str, Any]:
        """Return it as plain data that JSON can hold."""
        data: dict[str, Any] = {
            "item": self.item,
            "competency": self.competency,
            "verdict": self.verdict.value,
            "right": self.right,
            "misconception": self.misconception,
            "slips": [slip.as_data() for slip in self.slips],
            "gap": self.gap,
            "needed": self.needed,
            "better": list(self.better),
        }
        return data | ({"others": list(self.others)} if self.others else {})

    @classmethod
    def from_data(cls, data: Mapping[str, Any]) -> Self:
        """Make it again from plain data."""
        return cls(
            item=str(data["item"]),
            competency=str(data["competency"]),
            verdict=Verdict(data["verdict"]),
            right=bool(data["right"]),
            misconception=data.get("misconception"),
            others=tuple(data.get("others") or ()),
            slips=tuple(SlipFound.from_data(slip) for slip in data.get("slips") or ()),
            gap=data.get("gap"),
            needed=data.get("needed"),
            better=tuple(data.get("better") or ()),
        )


def mark(bank: Bank, sheet: Sheet, answer: Answer) -> Mark:
    """Mark an answer to a sheet. Numbers are compared exactly; too short is never close enough."""
    item = bank.item(sheet.item)
    if isinstance(item, Number):
        return _mark_number(item.drill, sheet, answer)
    if isinstance(item, Question):
        return _mark_question(item, sheet, answer)
    if isinstance(item, ComputeDrill):
        return _mark_number(item, sheet, answer)
    if isinstance(item, SelectDrill):
        return _mark_safeguard(item, sheet, answer)
    if isinstance(item, JudgeDrill | RuleDrill):
        return _mark_judged(item, sheet, answer)
    raise UsageError(say("Sheet {number} asks nothing.", number=sheet.number))


def answered(drill: ComputeDrill, answer: Answer) -> Any:
    """Return the number of an answer as a quantity; raises :class:`UsageError` where it holds none."""
    if answer.value is None:
        raise UsageError(say("No number was given for {item}.", item=answer.item))
    return units.parse(answer.value, problem(drill.problem).answer.dimension)


def _mark_question(question: Question, sheet: Sheet, answer: Answer) -> Mark:
    found = outcome(question, sheet, answer.pressed)
    return Mark(
        item=question.id,
        competency=sheet.competency,
        verdict=Verdict.RIGHT if found.right else Verdict.WRONG,
        right=found.right,
        misconception=next(iter(found.misconceptions), None),
        others=found.misconceptions[1:],
    )


def _mark_number(drill: ComputeDrill, sheet: Sheet, answer: Answer) -> Mark:
    given = answered(drill, answer)
    accepted = drills.band_of(drill, sheet.drawn)
    number = units.magnitude(given, accepted.unit)
    unit = shown_unit(drill, given)
    verdict = accepted.verdict(number)
    slips: tuple[SlipFound, ...] = ()
    if verdict is not Verdict.RIGHT:
        numbers = drills.given(drill, sheet.drawn).numbers
        slips = explain(problem(drill.problem), numbers, given, drill.slips)
    return Mark(
        item=drill.id,
        competency=sheet.competency,
        verdict=verdict,
        right=verdict is Verdict.RIGHT,
        slips=slips,
        gap=None if verdict is Verdict.RIGHT else _gap(accepted, number, unit),
        needed=amount(units.magnitude(needed(drill, accepted, unit), unit), unit, 4),
    )


def needed(drill: ComputeDrill, accepted: Band, unit: str) -> Any:
    """Return what is needed, rounded to the safe side in a unit, as a quantity."""
    exact = units.magnitude(units.Q(accepted.exact, accepted.unit), unit)
    step = problem(drill.problem).answer.grid[unit]
    return units.Q(to_safe_side(exact, step, accepted.sense), unit)


def shown_unit(drill: ComputeDrill, given: Any) -> str:
    """Return the unit that an answer was written in, where results can be shown in it; else the drill's."""
    asked = problem(drill.problem).answer
    written = unit_of(given, asked.dimension)
    return written if written in asked.grid else drill.unit


def _gap(accepted: Band, number: Fraction, unit: str) -> str:
    gap = units.magnitude(units.Q(accepted.gap(number), accepted.unit), unit)
    step = GAP_STEPS.get(unit, FINE)
    return amount(max(step, nearest(gap, step)), unit, 3)


def _mark_safeguard(drill: SelectDrill, sheet: Sheet, answer: Answer) -> Mark:
    setting, chosen = sheet.drawn["setting"], answer.chosen or ""
    key = key_of(drill, setting)
    worth = key.worth.get(chosen, Worth.WRONG)
    right = worth is not Worth.WRONG
    return Mark(
        item=drill.id,
        competency=sheet.competency,
        verdict=Verdict.RIGHT if right else Verdict.WRONG,
        right=right,
        misconception=None if right else drill.setting(setting).tempting.get(chosen),
        better=() if worth is Worth.RIGHT else key.right,
    )


def _mark_judged(drill: JudgeDrill | RuleDrill, sheet: Sheet, answer: Answer) -> Mark:
    """Mark a choice: a wrong one shows the slip whose number it is, or the misconception behind it."""
    found = judging.chosen(drill, sheet.drawn, answer.chosen or "")
    right = found is not None and found.right
    slip = found.slip if found and not right else ""
    return Mark(
        item=drill.id,
        competency=sheet.competency,
        verdict=Verdict.RIGHT if right else Verdict.WRONG,
        right=right,
        misconception=(found.misconception or None) if found and not right else None,
        slips=(SlipFound(codes=(slip,), value=found.id),) if slip and found else (),
    )
