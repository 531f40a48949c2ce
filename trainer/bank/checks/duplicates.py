"""No two questions ask the same thing in the same words."""

import re
from collections.abc import Iterator
from fractions import Fraction
from itertools import combinations
from typing import ClassVar

from trainer.bank.draft import Draft
from trainer.bank.model import Question
from trainer.findings import Finding

ALIKE = Fraction(7, 10)  # of all the words in the two are in both


class NearDuplicate(Finding):
    """Two questions that share most of their words."""

    code: ClassVar[str] = "near-duplicate"
    title: ClassVar[str] = "Two questions are almost the same."
    fix: ClassVar[str] = "Change the scene of one, or delete it."


finds = (NearDuplicate,)


def check(draft: Draft) -> Iterator[Finding]:
    """Compare the words of each two questions in the first language."""
    language = draft.bank.languages[0]
    bags = [(question, _bag(question, language)) for question in draft.bank.questions.values() if _written(question)]
    for (first, one), (second, other) in combinations(bags, 2):
        shared, both = len(one & other), len(one | other)
        if both and shared > ALIKE * both:
            note = f"{second.id} shares {shared} of {both} words with {first.id}."
            yield draft.at_text(NearDuplicate, second.id, language, note=note)


def _written(question: Question) -> bool:
    """Say whether there is something to compare: skeletons are all alike until they are filled in."""
    return not (question.told.unwritten or question.asked.unwritten)


def _bag(question: Question, language: str) -> frozenset[str]:
    pressed = [option.text for option in (*question.options, *question.reasons)]
    texts = (question.told, question.asked, *pressed, *(o.partner for o in question.options if o.partner))
    joined = " ".join(text.words.get(language, "") for text in texts)
    return frozenset(re.findall(r"\w+", joined.casefold()))
