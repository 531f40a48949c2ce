"""Every question, drill, misconception and scenario belongs to a competency that the bank has."""

from collections.abc import Iterator
from typing import ClassVar

from trainer.bank.draft import Draft
from trainer.bank.model import Drill, Misconception, Question
from trainer.findings import Finding


class UnknownCompetency(Finding):
    """A competency that ``competencies.yaml`` does not list."""

    code: ClassVar[str] = "unknown-competency"
    title: ClassVar[str] = "The competency is not listed."
    fix: ClassVar[str] = "Correct the id, or add the competency to competencies.yaml and its texts."


finds = (UnknownCompetency,)


def check(draft: Draft) -> Iterator[Finding]:
    """Look at each competency that something names."""
    bank = draft.bank
    items: tuple[Question | Drill | Misconception, ...]
    items = (*bank.questions.values(), *bank.drills.values(), *bank.misconceptions.values())
    for item in items:
        if not draft.knows(item.competency, bank.competencies):
            yield draft.at(UnknownCompetency, item.id, "competency", note=_note(item.competency))
    for scenario in bank.scenarios.values():
        for number, name in enumerate(scenario.competencies):
            if not draft.knows(name, bank.competencies):
                yield draft.at(UnknownCompetency, scenario.id, "competencies", number, note=_note(name))


def _note(name: str) -> str:
    return f"“{name}” is not in competencies.yaml."
