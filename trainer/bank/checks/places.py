"""What is pressed in a drawing lies somewhere in it, and nothing else claims to."""

from collections.abc import Iterator
from typing import ClassVar

from trainer.bank.draft import Draft
from trainer.bank.model import OnDrawing
from trainer.findings import Finding


class NoPlace(Finding):
    """An option of a drawing that lies nowhere in it, or a place where nothing is pressed."""

    code: ClassVar[str] = "no-place"
    title: ClassVar[str] = "The option does not say where it lies in the drawing, or says so for nothing."
    fix: ClassVar[str] = "Give each option of point and spot its at, a named place or millimetres; and no other one."


finds = (NoPlace,)


def check(draft: Draft) -> Iterator[Finding]:
    """Look at the options of each question."""
    for question in draft.bank.questions.values():
        on_drawing = isinstance(question, OnDrawing)
        for number, option in enumerate(question.options):
            if on_drawing != (option.at is not None):
                yield draft.at(NoPlace, question.id, "options", number, note=f"Option {option.id}.")
