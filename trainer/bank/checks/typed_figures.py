"""A figure that a text gives as an answer was told before, or was computed: none is typed from memory.

That holds for the explanation and the right answer of a question, for lengths and forces of a lesson, for every sentence
that says what is needed, and for the settings of a drill on safeguards, whose figures are its facts.
"""

import re
from collections.abc import Iterator, Mapping
from typing import ClassVar

from trainer import units
from trainer.bank.computed import amounts
from trainer.bank.draft import Draft, Origin
from trainer.bank.model import Drill, Lesson, Number, Question, SelectDrill, Shown, Text
from trainer.bank.yamlfile import File
from trainer.errors import TrainerError
from trainer.findings import Finding
from trainer.safeguarding.problems import problem

AMOUNT = re.compile(r"(\d+(?:[.,]\d+)?)\s?(mm/s|m/s|kN/m|mm|cm|ms|in|kN|m|s)\b")
TIMES = frozenset({"ms", "s"})
BARE = re.compile(r"\d+(?:\.\d+)?")
SENTENCE = re.compile(r"(?<=[.!?])\s+")
DEMAND = re.compile(
    r"\b(needs?|needed|at least|the least|necesitan?|hacen falta|hace falta|como mínimo|lo mínimo)\b", re.IGNORECASE
)


class TypedFigure(Finding):
    """A figure in a text that neither the scene, nor a fact, nor a sum gives."""

    code: ClassVar[str] = "typed-figure"
    title: ClassVar[str] = "The figure comes from nowhere."
    fix: ClassVar[str] = "Tell it in the scene, or compute it: name it under figures and write its name in braces."


finds = (TypedFigure,)


def check(draft: Draft) -> Iterator[Finding]:
    """Look at the texts in each language."""
    for language in draft.bank.languages:
        for question in draft.bank.questions.values():
            yield from _question(draft, question, language)
        for lesson in draft.bank.lessons.values():
            yield from _lesson(draft, lesson, language)
        for drill in draft.bank.drills.values():
            yield from _drill(draft, drill, language)


def _question(draft: Draft, question: Question, language: str) -> Iterator[Finding]:
    computed = {_one(text) for text in _computed(question)}
    scene = _words(language, question.told, question.asked)
    options = (*question.options, *question.reasons)
    told = _amounts(" ".join((scene, _words(language, *(option.text for option in options)))))
    yield from _typed(
        draft, question.id, language, ("why",), _amounts(_words(language, question.why)) - told - computed
    )
    yield from _typed(draft, question.id, language, ("told",), _demanded(_words(language, question.told)) - computed)
    bare = set(BARE.findall(scene.replace(",", ".")))
    for kind, listed in (("options", question.options), ("reasons", question.reasons)):
        for option in listed:
            if option.right:
                new = {one for one in _amounts(_words(language, option.text)) - computed if one[0] not in bare}
                yield from _typed(draft, question.id, language, (kind, option.id), new)


def _lesson(draft: Draft, lesson: Lesson, language: str) -> Iterator[Finding]:
    scenario = draft.bank.scenarios[lesson.scenario]
    figures = [one.figures for one in scenario.lessons]
    known = {_one(text) for named in figures for text in _figures(named, lesson.id)}
    text = _words(language, lesson.text)
    built = {one for one in _amounts(text) if one[1] not in TIMES}
    yield from _typed(draft, lesson.id, language, ("text",), (built | _demanded(text)) - known)


def _drill(draft: Draft, drill: Drill, language: str) -> Iterator[Finding]:
    yield from _typed(draft, drill.id, language, ("told",), _demanded(_words(language, drill.told)))
    if isinstance(drill, SelectDrill):
        for setting in drill.settings:
            facts = {(value, key.rpartition("_")[2]) for key, value in drill.facts_of(setting.id).items()}
            new = _amounts(_words(language, setting.told)) - facts
            yield from _typed(draft, drill.id, language, ("settings", setting.id), new)


def _typed(
    draft: Draft, item: str, language: str, path: tuple[str, ...], found: set[tuple[str, str]]
) -> Iterator[Finding]:
    for number, unit in sorted(found):
        yield draft.at_text(TypedFigure, item, language, *path, note=f"“{number} {unit}”.")


def _demanded(text: str) -> set[tuple[str, str]]:
    """Return the amounts of the sentences that say what is needed."""
    return {amount for sentence in SENTENCE.split(text) if DEMAND.search(sentence) for amount in _amounts(sentence)}


def _words(language: str, *texts: Text) -> str:
    return " ".join(text.words.get(language, "") for text in texts)


def _computed(question: Question) -> list[str]:
    """Return what the sums behind a question give, and what they are given, as amounts."""
    found = _figures(question.figures, question.id)
    if isinstance(question, Number):
        found += [*question.inputs.values(), *_answer(question.problem, question.inputs, question.unit)]
    return found


def _figures(figures: Mapping[str, Shown], item: str) -> list[str]:
    """Return what named figures come to, and what they are worked out from."""
    found = [*amounts(figures, item, Origin(File("")), []).values()]
    return found + [value for shown in figures.values() for value in shown.inputs.values()]


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
