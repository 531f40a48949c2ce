"""The length of an option does not give the right one away, where one is to be picked."""

from collections.abc import Iterator
from fractions import Fraction
from typing import ClassVar

from trainer.bank.draft import Draft
from trainer.bank.model import PickOne, Question
from trainer.findings import Finding

LONGER = Fraction(13, 10)  # times the longest wrong option
SHORTER = Fraction(13, 20)  # times the shortest wrong option
ENOUGH = 12  # questions
MOST = Fraction(1, 2)  # of all questions may have the longest option as the key


class GiveawayLength(Finding):
    """A right option that stands out by its length."""

    code: ClassVar[str] = "giveaway-length"
    title: ClassVar[str] = "The right option stands out by its length."
    fix: ClassVar[str] = "Make the options of similar length."


class GiveawayPattern(Finding):
    """A bank in which picking the longest option pays."""

    code: ClassVar[str] = "giveaway-pattern"
    title: ClassVar[str] = "The longest option is right too often."
    fix: ClassVar[str] = "Shorten right options or lengthen wrong ones."


finds = (GiveawayLength, GiveawayPattern)


def check(draft: Draft) -> Iterator[Finding]:
    """Compare the options of each question in each language."""
    for language in draft.bank.languages:
        longest = 0
        questions = [q for q in draft.bank.questions.values() if isinstance(q, PickOne) and _both(q, language)]
        for question in questions:
            right, wrong = _lengths(question, language)
            longest += right > max(wrong)
            if right > LONGER * max(wrong) or right < SHORTER * min(wrong):
                note = f"It has {right} characters, the others {min(wrong)} to {max(wrong)}."
                yield draft.at_text(GiveawayLength, question.id, language, "options", note=note)
        if len(questions) >= ENOUGH and longest > MOST * len(questions):
            note = f"In {language} it is so in {longest} of {len(questions)} questions."
            yield draft.at(GiveawayPattern, "bank", note=note)


def _both(question: Question, language: str) -> bool:
    right, wrong = _lengths(question, language)
    return right > 0 and bool(wrong) and min(wrong) > 0


def _lengths(question: Question, language: str) -> tuple[int, list[int]]:
    wrong = [len(option.text.words.get(language, "")) for option in question.options if not option.right]
    right = [len(option.text.words.get(language, "")) for option in question.options if option.right]
    return (right[0] if right else 0), wrong
