"""What a drill may draw are real values of its inputs: of the right dimension, in ranges that end where they say."""

from collections.abc import Iterator
from typing import Any, ClassVar

from trainer import units
from trainer.bank.draft import Draft
from trainer.bank.model import ComputeDrill, Input, Range
from trainer.errors import BadQuantity
from trainer.findings import Finding
from trainer.safeguarding.problems import PROBLEMS

MOST = 1000  # values of one input


class WrongDimension(Finding):
    """A value that its input cannot have, such as a length for a time."""

    code: ClassVar[str] = "wrong-dimension"
    title: ClassVar[str] = "The value does not fit the input."
    fix: ClassVar[str] = "Write a number with a unit of the input's dimension."


class ReversedRange(Finding):
    """A range that ends before it starts."""

    code: ClassVar[str] = "reversed-range"
    title: ClassVar[str] = "The range ends before it starts."
    fix: ClassVar[str] = "Swap from and to."


class UnevenStep(Finding):
    """A step that never lands on the end of its range."""

    code: ClassVar[str] = "uneven-step"
    title: ClassVar[str] = "The steps do not end at the end of the range."
    fix: ClassVar[str] = "Choose a step that divides the range, and more than nought."


class EndlessRange(Finding):
    """A range with more values than anybody would look through."""

    code: ClassVar[str] = "endless-range"
    title: ClassVar[str] = f"The range has more than {MOST} values."
    fix: ClassVar[str] = "Take a wider step."


finds = (WrongDimension, ReversedRange, UnevenStep, EndlessRange)


def check(draft: Draft) -> Iterator[Finding]:
    """Look at each input of each computed drill."""
    for drill in draft.bank.computed.values():
        problem = PROBLEMS.get(drill.problem)
        fields = {field.key: field for field in problem.fields} if problem else {}
        for key, given in drill.inputs.items():
            shape = list(_shape(draft, drill, key, given))
            yield from shape
            if not shape and key in fields:
                yield from _values(draft, drill, key, fields[key])
        dimension = problem.answer.dimension if problem else "length"
        if _unfit(drill.over, dimension):
            note = f"“{drill.over}” is no {dimension}."
            yield draft.at(WrongDimension, drill.id, "over", note=note)


def _shape(draft: Draft, drill: ComputeDrill, key: str, given: Input) -> Iterator[Finding]:
    if not isinstance(given, Range):
        return
    try:
        _, (first, last, step) = given.parts()
    except (ValueError, ZeroDivisionError):
        note = "from, to and step have to be plain numbers with one and the same unit."
        yield draft.at(WrongDimension, drill.id, "inputs", key, note=note)
        return
    told = f"{given.from_} to {given.to} in steps of {given.step}."
    if last < first:
        yield draft.at(ReversedRange, drill.id, "inputs", key, note=told)
    elif step <= 0 or (last - first) % step:
        yield draft.at(UnevenStep, drill.id, "inputs", key, note=told)
    elif (last - first) / step > MOST:
        yield draft.at(EndlessRange, drill.id, "inputs", key, note=told)


def _values(draft: Draft, drill: ComputeDrill, key: str, field: Any) -> Iterator[Finding]:
    for value in drill.inputs[key].values():
        if _unfit(value, field.dimension) or (field.choices and value not in field.choices):
            note = f"“{value}” is no {field.dimension} that this input takes."
            yield draft.at(WrongDimension, drill.id, "inputs", key, note=note)
            return


def _unfit(value: str, dimension: str) -> bool:
    if dimension == "count":
        return not value.isdecimal()
    if dimension not in units.SPELLINGS:
        return False
    try:
        units.parse(value, dimension)
    except BadQuantity:
        return True
    return False
