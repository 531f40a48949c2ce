"""Answers: what the form of a sheet holds, read into something that can be marked."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Self

from trainer.assessment import drills
from trainer.assessment.amounts import exact_text
from trainer.assessment.paper import Sheet, SheetKind
from trainer.assessment.pressing import Pressed, known, takes_presses
from trainer.assessment.reading import AskBack, Field, read_number, unit_named
from trainer.bank import Bank
from trainer.bank.model import ComputeDrill, Number, Question
from trainer.errors import UsageError
from trainer.safeguarding.problems import problem
from trainer.wording import say

__all__ = ["Answer", "AskBack", "field_of", "read_answer"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """One answer: the id of the option chosen, what was pressed in a list, or the number written.

    The number is exact and has its unit (``"335 mm"``); what ``given`` holds says :mod:`trainer.assessment.pressing`.
    """

    item: str
    chosen: str | None = None
    value: str | None = None
    given: tuple[str, ...] = ()

    @property
    def pressed(self) -> Pressed:
        """Return what was pressed."""
        return Pressed(self.chosen, self.given)

    def as_data(self) -> dict[str, Any]:
        """Return it as plain data that JSON can hold."""
        data: dict[str, Any] = {"item": self.item, "chosen": self.chosen, "value": self.value}
        return data | ({"given": list(self.given)} if self.given else {})

    @classmethod
    def from_data(cls, data: Mapping[str, Any]) -> Self:
        """Make it again from plain data."""
        given = tuple(data.get("given") or ())
        return cls(item=str(data["item"]), chosen=data.get("chosen"), value=data.get("value"), given=given)


def read_answer(bank: Bank, sheet: Sheet, form: Mapping[str, str], language: str) -> Answer | AskBack:
    """Read the form of a sheet: ``choice`` for one option, ``number`` and ``unit`` for a number to work out.

    What is pressed in a list stands in ``given``, ids with a blank between them, and beside a ``choice`` that has a
    reason. It may be a part of an answer: :func:`trainer.assessment.pressing.whole` tells.

    A unit written in ``number`` overrides the switch. What can be read in two ways is asked back and is not an answer
    yet. Raises :class:`UsageError` or :class:`~trainer.errors.BadQuantity` with one sentence; nothing given is not
    answered.
    """
    if sheet.kind is SheetKind.LESSON:
        raise UsageError(say("This sheet asks nothing."))
    item = bank.item(sheet.item)
    drill = item.drill if isinstance(item, Number) else item
    if isinstance(drill, ComputeDrill):
        return _number(drill, sheet, form, language)
    if isinstance(item, Question) and takes_presses(item):
        return _pressed(item, sheet, form)
    return Answer(item=sheet.item, chosen=_chosen(sheet, form.get("choice", "")))


def _number(drill: ComputeDrill, sheet: Sheet, form: Mapping[str, str], language: str) -> Answer | AskBack:
    field = field_of(drill, form.get("unit", ""))
    read = read_number(form.get("number", ""), field, language)
    if isinstance(read, AskBack):
        return read
    return Answer(item=sheet.item, value=exact_text(read, field.dimension))


def _pressed(question: Question, sheet: Sheet, form: Mapping[str, str]) -> Answer:
    answer = Answer(item=sheet.item, chosen=form.get("choice") or None, given=tuple(form.get("given", "").split()))
    if not known(sheet, question, answer.pressed):
        raise UsageError(say("That is not one of the answers on this sheet. Choose one of those shown."))
    return answer


def field_of(drill: ComputeDrill, switch: str = "") -> Field:
    """Return what the field of a drill is for; ``switch`` is the unit chosen beside it, else the drill's own."""
    dimension = problem(drill.problem).answer.dimension
    unit = unit_named(switch, dimension) if switch.strip() else drill.unit
    return Field(dimension=dimension, unit=unit, plausible=drills.plausible(drill))


def _chosen(sheet: Sheet, choice: str) -> str:
    if not choice:
        raise UsageError(say("Nothing is chosen. Choose one of the answers."))
    if choice not in sheet.order:
        raise UsageError(say("That is not one of the answers on this sheet. Choose one of those shown."))
    return choice
