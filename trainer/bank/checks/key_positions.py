"""The right option does not stand at one place too often."""

from collections import Counter
from collections.abc import Iterator
from fractions import Fraction
from typing import ClassVar

from trainer.bank.draft import Draft
from trainer.bank.model import PickOne
from trainer.findings import Finding

ENOUGH = 12  # questions; with fewer, chance alone makes a pattern
MOST = Fraction(2, 5)  # of all questions may have the key at one place


class KeyPosition(Finding):
    """The key stands at one place in too many questions."""

    code: ClassVar[str] = "key-position"
    title: ClassVar[str] = "The right option stands at one place too often."
    fix: ClassVar[str] = "Change the order of the options in some questions."


finds = (KeyPosition,)


def check(draft: Draft) -> Iterator[Finding]:
    """Count where the key stands."""
    questions = [q for q in draft.bank.questions.values() if isinstance(q, PickOne) and q.right]
    places = Counter([option.right for option in q.options].index(True) for q in questions)
    for place, count in places.items():
        if len(questions) >= ENOUGH and count > MOST * len(questions):
            note = f"It is number {place + 1} in {count} of {len(questions)} questions."
            yield draft.at(KeyPosition, "bank", note=note)
