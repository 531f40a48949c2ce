"""Invented trainees: one who knows everything, and ones who each make one slip."""

from fractions import Fraction

from trainer.assessment import drills, judging
from trainer.assessment.amounts import exact_text
from trainer.assessment.answers import Answer
from trainer.assessment.model_answers import right_answer
from trainer.assessment.paper import Sheet
from trainer.assessment.selecting import key_of
from trainer.bank import Bank
from trainer.bank.model import ComputeDrill, JudgeDrill, RuleDrill, SelectDrill
from trainer.safeguarding.problems import problem
from trainer.units import Q, digits, round_down


def perfect(bank: Bank, sheet: Sheet) -> Answer:
    item = bank.item(sheet.item)
    if isinstance(item, ComputeDrill):
        worked = drills.worked(item, sheet.drawn)
        return Answer(item=item.id, value=exact_text(worked.rounded, problem(item.problem).answer.dimension))
    if isinstance(item, SelectDrill):
        return Answer(item=item.id, chosen=key_of(item, sheet.drawn["setting"]).right[0])
    if isinstance(item, JudgeDrill | RuleDrill):
        return Answer(item=item.id, chosen=judging.right_choice(item, sheet.drawn).id)
    return right_answer(item, sheet)


HABITS = {  # how people write a number down: (unit, rounding), the first one as the drills teach it
    "up": ("mm", lambda figure: figure.rounded),
    "exact": ("mm", lambda figure: figure.value),
    "tenth": ("mm", lambda figure: Fraction(digits(figure.value, 1))),
    "nearest": ("mm", lambda figure: Fraction(digits(figure.value, 0))),
    "cut": ("mm", lambda figure: round_down(figure.value)),
    "sixteenth": ("inch", lambda figure: figure.rounded),
    "hundredth of an inch": ("inch", lambda figure: Fraction(digits(figure.value, 2))),
}


def slipped(drill: ComputeDrill, drawn, code: str, habit: str = "up") -> Answer | None:
    """What a trainee with one slip writes, by one of :data:`HABITS`. None where the slip does nothing."""
    sum_, (unit, rounding) = problem(drill.problem), HABITS[habit]
    unit = unit if unit in sum_.answer.grid else drill.unit
    numbers = drills.given(drill, drawn).numbers
    figure = sum_.figure(numbers, (code,), unit=unit)
    if figure is None or figure == sum_.figure(numbers, unit=unit):
        return None
    number = rounding(figure)
    if unit == "mm" and figure.value < 30:  # the number of inches in a field for millimetres has decimals
        number = Fraction(digits(figure.value, 2))
    return Answer(item=drill.id, value=exact_text(Q(number, unit), sum_.answer.dimension))
