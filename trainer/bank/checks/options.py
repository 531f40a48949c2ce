"""Each question has just one right option, and each wrong one shows a misconception that the bank has."""

from collections.abc import Iterator
from typing import ClassVar

from trainer.bank.draft import Draft
from trainer.bank.model import Question
from trainer.findings import Finding


class NotOneKey(Finding):
    """A question with no right option, or with several."""

    code: ClassVar[str] = "not-one-key"
    title: ClassVar[str] = "There is not exactly one right option."
    fix: ClassVar[str] = "Mark one option with right: true and no other."


class TooFewOptions(Finding):
    """A question that is easy to guess because there is little to choose from."""

    code: ClassVar[str] = "too-few-options"
    title: ClassVar[str] = "There are fewer than three options."
    fix: ClassVar[str] = "Add wrong options that people really pick."


class NoMisconception(Finding):
    """A wrong option that teaches nothing about the person who picks it."""

    code: ClassVar[str] = "no-misconception"
    title: ClassVar[str] = "The wrong option names no misconception."
    fix: ClassVar[str] = "Name the wrong idea that picking it shows."


class RightMisconception(Finding):
    """A right option that is said to show a wrong idea."""

    code: ClassVar[str] = "right-misconception"
    title: ClassVar[str] = "The right option names a misconception."
    fix: ClassVar[str] = "Take the misconception away, or the mark right: true."


class UnknownMisconception(Finding):
    """A misconception that ``misconceptions.yaml`` does not list."""

    code: ClassVar[str] = "unknown-misconception"
    title: ClassVar[str] = "The misconception is not listed."
    fix: ClassVar[str] = "Correct the id, or add it to misconceptions.yaml and its texts."


finds = (NotOneKey, TooFewOptions, NoMisconception, RightMisconception, UnknownMisconception)


def check(draft: Draft) -> Iterator[Finding]:
    """Look at the options of each question."""
    for question in draft.bank.questions.values():
        right = [option.id for option in question.options if option.right]
        if len(right) != 1:
            note = f"These are right: {', '.join(right)}." if right else "No option is right."
            yield draft.at(NotOneKey, question.id, "options", note=note)
        if len(question.options) < 3:
            yield draft.at(TooFewOptions, question.id, "options")
        yield from _options(draft, question)


def _options(draft: Draft, question: Question) -> Iterator[Finding]:
    for number, option in enumerate(question.options):
        path = ("options", number)
        if option.right and option.misconception:
            yield draft.at(RightMisconception, question.id, *path, note=f"Option {option.id} is right.")
        if not option.right and not option.misconception:
            yield draft.at(NoMisconception, question.id, *path, note=f"Option {option.id} names none.")
        name = option.misconception
        if name and not draft.knows(name, draft.bank.misconceptions):
            note = f"“{name}” is not in misconceptions.yaml."
            yield draft.at(UnknownMisconception, question.id, *path, "misconception", note=note)
