"""What the answers say about an item: how hard it is, and whether it tells those who know from those who do not.

Difficulty is the share of right answers, with its interval. The corrected point-biserial is the correlation (Pearson)
of being right here with the share of right answers in the rest of the same paper; people do not all get the same
paper, so shares are compared. The upper-lower difference is the share of right answers in the best 27 % less that in
the weakest 27 %, by the whole paper, ties averaged. Formulas as in the textbooks of classical item analysis; an easy
item is no fault, because in this trade everybody should know.

Readings of both (Ebel: below .20 poor, negative: look at the key) are given only from :data:`samples.FEW` answers on.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from math import sqrt

from trainer.assessment.ends import SHARE, ends, held
from trainer.assessment.samples import FEW, too_few, wilson
from trainer.errors import UsageError
from trainer.wording import Sentence, mark, say

WEAK = 0.20


@dataclass(frozen=True, slots=True)
class Seen:
    """One answer to an item in the light of its paper: ``score`` of ``out_of`` were right, this answer counted in."""

    right: bool
    score: int
    out_of: int

    def __post_init__(self) -> None:
        if not self.right <= self.score <= self.out_of - (not self.right):
            raise UsageError(say("{right} of {answers} cannot be right.", right=self.score, answers=self.out_of))

    @property
    def level(self) -> Fraction:
        """Return the share of the whole paper that was right."""
        return Fraction(self.score, self.out_of)

    @property
    def rest(self) -> Fraction | None:
        """Return the share of the rest of the paper that was right; None where there is no rest."""
        return None if self.out_of < 2 else Fraction(self.score - self.right, self.out_of - 1)


Tally = Mapping[Seen, int]


class Doubt(StrEnum):
    """Why somebody should look at an item or an option again."""

    KEY = "check-the-key"
    WEAK = "tells-little"
    NEVER = "hardly-ever-chosen"
    BACKWARDS = "chosen-by-the-better"


DOUBTS: Mapping[Doubt, Sentence] = {
    Doubt.KEY: say(mark("Who does well otherwise gets this wrong more often. Check the key and the wording.")),
    Doubt.WEAK: say(mark("It hardly tells those who know from those who do not.")),
    Doubt.NEVER: say(mark("Hardly anybody chooses this. Put a mistake there that people do make.")),
    Doubt.BACKWARDS: say(
        mark("The better people choose this more often than the weaker. Check whether it is right as well.")
    ),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class ItemStatistics:
    """What is known of an item.

    ``low`` to ``high`` hold the difficulty in 95 cases of 100. ``corrected`` and ``error`` are the corrected
    point-biserial and its standard error, None where all were right, all wrong or all did equally well elsewhere.
    ``upper_lower`` is None where everybody has the same score. ``note`` says that the sample is too small; then there
    are no ``doubts``.
    """

    answers: int
    right: int
    difficulty: float | None
    low: float
    high: float
    corrected: float | None
    error: float | None
    upper_lower: float | None
    doubts: tuple[Doubt, ...]
    note: Sentence | None


def item_statistics(tally: Tally, *, share: Fraction = SHARE, few: int = FEW) -> ItemStatistics:
    """Return the statistics of an item from its counted answers."""
    answers = sum(tally.values())
    right = sum(count for seen, count in tally.items() if seen.right)
    corrected = correlation((float(seen.right), seen.rest, n) for seen, n in tally.items() if seen.rest is not None)
    note = too_few(answers, few)
    low, high = wilson(right, answers)
    return ItemStatistics(
        answers=answers,
        right=right,
        difficulty=right / answers if answers else None,
        low=low,
        high=high,
        corrected=corrected,
        error=None if corrected is None or answers < 2 else (1 - corrected**2) / sqrt(answers - 1),
        upper_lower=upper_lower(tally, share),
        doubts=() if note or corrected is None else _doubts(corrected),
        note=note,
    )


def _doubts(corrected: float) -> tuple[Doubt, ...]:
    if corrected < 0:
        return (Doubt.KEY,)
    return (Doubt.WEAK,) if corrected < WEAK else ()


def upper_lower(tally: Tally, share: Fraction = SHARE) -> float | None:
    """Return the share of right answers in the upper group less that in the lower; None where all have one score."""
    levels, rights = _levels(tally, only_right=False), _levels(tally, only_right=True)
    if len(levels) < 2:
        return None
    upper, lower = ends(levels, share)
    return float((held(upper, rights) - held(lower, rights)) / (sum(levels.values()) * share))


def _levels(tally: Tally, *, only_right: bool) -> dict[Fraction, int]:
    levels: dict[Fraction, int] = {}
    for seen, count in tally.items():
        if seen.right or not only_right:
            levels[seen.level] = levels.get(seen.level, 0) + count
    return levels


def correlation(pairs: Iterable[tuple[float | Fraction, float | Fraction, int]]) -> float | None:
    """Return Pearson's r of counted pairs ``(x, y, how many)``; None where one of both does not vary."""
    rows = [(Fraction(x), Fraction(y), n) for x, y, n in pairs]
    count = sum(n for _, _, n in rows)
    if count == 0:
        return None
    mean_x, mean_y = (sum(row[i] * row[2] for row in rows) / Fraction(count) for i in (0, 1))
    xx = sum((x - mean_x) ** 2 * n for x, _, n in rows)
    yy = sum((y - mean_y) ** 2 * n for _, y, n in rows)
    xy = sum((x - mean_x) * (y - mean_y) * n for x, y, n in rows)
    return float(xy) / sqrt(float(xx) * float(yy)) if xx and yy else None
