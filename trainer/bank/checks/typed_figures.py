"""A figure that an explanation gives was told before, or was computed: none is typed from memory."""

import re
from collections.abc import Iterator, Mapping
from typing import ClassVar

from trainer import units
from trainer.bank.computed import amounts
from trainer.bank.draft import Draft, Origin
from trainer.bank.model import Number, Question
from trainer.bank.yamlfile import File
from trainer.errors import TrainerError
from trainer.findings import Finding
from trainer.safeguarding.problems import problem

AMOUNT = re.compile(r"(\d+(?:[.,]\d+)?)\s?(mm/s|m/s|kN/m|mm|cm|ms|in|kN|m|s)\b")


class TypedFigure(Finding):
    """A figure in an explanation that neither the scene nor a sum gives."""

    code: ClassVar[str] = "typed-figure"
    title: ClassVar[str] = "The figure comes from nowhere."
    fix: ClassVar[str] = "Tell it in the scene, or compute it: name it under figures and write its name in braces."


finds = (TypedFigure,)


def check(draft: Draft) -> Iterator[Finding]:
    """Look at the explanation of each question in each language."""
    for question in draft.bank.questions.values():
        computed = _computed(question)
        for language in draft.bank.languages:
            known = _amounts(_told(question, language)) | {_one(text) for text in computed}
            for number, unit in sorted(_amounts(question.why.words.get(language, "")) - known):
                yield draft.at_text(TypedFigure, question.id, language, "why", note=f"“{number} {unit}”.")


def _told(question: Question, language: str) -> str:
    texts = (question.told, question.asked, *(option.text for option in (*question.options, *question.reasons)))
    return " ".join(text.words.get(language, "") for text in texts)


def _computed(question: Question) -> list[str]:
    """Return what the sums behind a question give, and what they are given, as amounts."""
    found = [*amounts(question.figures, question.id, Origin(File("")), []).values()]
    found += [value for shown in question.figures.values() for value in shown.inputs.values()]
    if isinstance(question, Number):
        found += [*question.inputs.values(), *_answer(question.problem, question.inputs, question.unit)]
    return found


def _answer(name: str, inputs: Mapping[str, str], unit: str) -> list[str]:
    try:
        worked = problem(name).solve(problem(name).read(inputs), unit=unit)
    except TrainerError:
        return []  # told by the check of the problems
    return [] if worked.rounded is None else [units.show(worked.rounded, worked.unit, 4)]


def _amounts(text: str) -> set[tuple[str, str]]:
    return {(number.replace(",", "."), unit) for number, unit in AMOUNT.findall(text)}


def _one(text: str) -> tuple[str, str]:
    number, _, unit = text.partition(" ")
    return number, unit
