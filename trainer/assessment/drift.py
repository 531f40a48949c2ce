"""Whether an item has become easier or harder from one edition of the bank to another.

Two shares are compared by the interval of their difference (:func:`trainer.assessment.samples.difference`). An item
has moved when that interval leaves nought out *and* the shares lie a tenth apart: among a hundred items that have not
moved, five leave it out by chance.
"""

from dataclasses import dataclass

from trainer.assessment.samples import FEW, difference, too_few
from trainer.wording import Sentence, say

APART = 0.10


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """How an item did in one edition: ``right`` of ``answers``."""

    edition: int
    right: int
    answers: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Drift:
    """The share of right answers later less that earlier, with its interval of 95 %.

    ``told`` says which way it moved, None where it did not or the sample is too small; the latter says ``note``.
    """

    before: Asked
    after: Asked
    difference: float | None
    low: float
    high: float
    told: Sentence | None
    note: Sentence | None


def drift(before: Asked, after: Asked, *, few: int = FEW) -> Drift:
    """Compare an item in two editions; both need enough answers."""
    low, high = difference(after.right, after.answers, before.right, before.answers)
    known = after.answers and before.answers
    gap = after.right / after.answers - before.right / before.answers if known else None
    note = too_few(min(before.answers, after.answers), few)
    moved = note is None and gap is not None and abs(gap) >= APART and not low <= 0 <= high
    return Drift(
        before=before,
        after=after,
        difference=gap,
        low=low,
        high=high,
        told=_told(gap, before, after) if moved and gap is not None else None,
        note=note,
    )


def _told(gap: float, before: Asked, after: Asked) -> Sentence:
    if gap > 0:
        return say("Easier in edition {after} than in {before}.", after=after.edition, before=before.edition)
    return say("Harder in edition {after} than in {before}.", after=after.edition, before=before.edition)
