"""Answers: what the form of a sheet holds, read into something that can be marked."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Self

from trainer.assessment import drills
from trainer.assessment.amounts import exact_text
from trainer.assessment.paper import Sheet, SheetKind
from trainer.assessment.reading import AskBack, Field, read_number, unit_named
from trainer.bank import Bank
from trainer.bank.model import ComputeDrill
from trainer.errors import UsageError
from trainer.safeguarding.problems import problem
from trainer.wording import say

__all__ = ["Answer", "AskBack", "field_of", "read_answer"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """One answer: the id of the option chosen, or the number written, exact and with its unit (``"335 mm"``)."""

    item: str
    chosen: str | None = None
    value: str | None = None

    def as_data(self) -> dict[str, Any]:
        """Return it as plain data that JSON can hold."""
        return {"item": self.item, "chosen": self.chosen, "value": self.value}

    @classmethod
    def from_data(cls, data: Mapping[str, Any]) -> Self:
        """Make it again from plain data."""
        return cls(item=str(data["item"]), chosen=data.get("chosen"), value=data.get("value"))


def read_answer(bank: Bank, sheet: Sheet, form: Mapping[str, str], language: str) -> Answer | AskBack:
    """Read the form of a sheet: ``choice`` for a question, ``number`` and ``unit`` for a number to work out.

    A unit written in ``number`` overrides the switch. What can be read in two ways is asked back and is not an answer
    yet. Raises :class:`UsageError` or :class:`~trainer.errors.BadQuantity` with one sentence; nothing given is not
    answered.
    """
    if sheet.kind is SheetKind.LESSON:
        raise UsageError(say("This sheet asks nothing."))
    item = bank.item(sheet.item)
    if not isinstance(item, ComputeDrill):
        return Answer(item=sheet.item, chosen=_chosen(sheet, form.get("choice", "")))
    field = field_of(item, form.get("unit", ""))
    read = read_number(form.get("number", ""), field, language)
    if isinstance(read, AskBack):
        return read
    return Answer(item=sheet.item, value=exact_text(read, field.dimension))


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
