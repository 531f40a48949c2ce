"""How far a test's score can be relied on.

KR-20 (Kuder & Richardson 1937) is ``k/(k-1) * (1 - sum(pq)/var)``. The share of right answers times that of wrong ones
is a variance that divides by n, so the variance of the scores divides by n too; mixing in the one that divides by n-1
makes a test look better than it is. KR-20 is alpha (Cronbach 1951) for right and wrong. KR-21 needs only mean and
variance and takes all items for equally hard, so it is never above KR-20. A short test of sound items has a low
value: nothing is to be gated on it alone.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import sqrt

from trainer.assessment.itemstats import correlation
from trainer.assessment.samples import FEW, too_few
from trainer.errors import UsageError
from trainer.wording import Sentence, say

Rows = Sequence[Sequence[float]]  # a row for each person, an entry for each item


@dataclass(frozen=True, slots=True, kw_only=True)
class Spread:
    """How the scores of people on one test of ``items`` items lie. ``variance`` divides by the number of people."""

    people: int
    items: int
    mean: float
    variance: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Reliability:
    """KR-20 and the standard error of measurement in items; None where scores do not differ. ``note``: too few people."""

    people: int
    items: int
    kr20: float | None
    error: float | None
    note: Sentence | None


def spread(scores: Mapping[int, int], items: int) -> Spread:
    """Return mean and variance of scores, counted as ``{score: people}``."""
    if any(not 0 <= score <= items for score in scores):
        raise UsageError(say("A score is not between 0 and {items}.", items=items))
    people = sum(scores.values())
    mean = sum(score * n for score, n in scores.items()) / people if people else 0.0
    variance = sum((score - mean) ** 2 * n for score, n in scores.items()) / people if people else 0.0
    return Spread(people=people, items=items, mean=mean, variance=variance)


def reliability(rights: Sequence[int], scores: Mapping[int, int], *, few: int = FEW) -> Reliability:
    """Return KR-20 of a test that everybody took whole.

    ``rights`` says of each item how many had it right, ``scores`` how many people had which score.
    """
    seen = spread(scores, len(rights))
    value = kr20(rights, scores)
    return Reliability(
        people=seen.people,
        items=seen.items,
        kr20=value,
        error=None if value is None else sem(sqrt(seen.variance), value),
        note=too_few(seen.people, few),
    )


def kr20(rights: Sequence[int], scores: Mapping[int, int]) -> float | None:
    """Return KR-20; None for fewer than two items, nobody, or scores that do not differ."""
    seen = spread(scores, len(rights))
    if seen.items < 2 or seen.variance == 0:
        return None
    within = sum(right / seen.people * (1 - right / seen.people) for right in rights)
    return seen.items / (seen.items - 1) * (1 - within / seen.variance)


def kr21(items: int, mean: float, variance: float) -> float | None:
    """Return KR-21; None where it is not defined."""
    if items < 2 or variance <= 0:
        return None
    return items / (items - 1) * (1 - mean * (items - mean) / (items * variance))


def alpha(rows: Rows) -> float | None:
    """Return alpha for scores of any size; None where the totals do not differ."""
    items = len(rows[0]) if rows else 0
    whole = _variance([sum(row) for row in rows])
    if items < 2 or whole == 0:
        return None
    return items / (items - 1) * (1 - sum(_variance(column) for column in zip(*rows, strict=True)) / whole)


def alpha_without(rows: Rows) -> tuple[float | None, ...]:
    """Return for each item the alpha of the others."""
    items = range(len(rows[0]) if rows else 0)
    return tuple(alpha([[*row[:i], *row[i + 1 :]] for row in rows]) for i in items)


def with_the_rest(rows: Rows) -> tuple[float | None, ...]:
    """Return for each item its correlation with the sum of the others."""
    items = range(len(rows[0]) if rows else 0)
    return tuple(correlation((row[i], sum(row) - row[i], 1) for row in rows) for i in items)


def sem(deviation: float, value: float) -> float:
    """Return the standard error of measurement, in the unit of the standard deviation of the scores."""
    return deviation * sqrt(1 - value)


def lord_sem(right: int, items: int) -> float:
    """Return Lord's binomial standard error of one score (from memory), in items; raises for fewer than two items."""
    if items < 2 or not 0 <= right <= items:
        raise UsageError(say("{right} of {answers} cannot be right.", right=right, answers=items))
    return sqrt(right * (items - right) / (items - 1))


def lengthened(value: float, times: float) -> float:
    """Return the reliability of a test made so many times as long with items of the same kind (Spearman-Brown)."""
    return times * value / (1 + (times - 1) * value)


def length_for(value: float, wanted: float) -> float | None:
    """Return how many times as long a test has to be for the reliability wanted; None where no length will do."""
    if not 0 < wanted < 1:
        raise UsageError(say("A reliability that is wanted lies between 0 and 1."))
    return wanted * (1 - value) / (value * (1 - wanted)) if 0 < value < 1 else None


def _variance(values: Sequence[float]) -> float:
    mean = sum(values) / len(values) if values else 0.0
    return sum((value - mean) ** 2 for value in values) / len(values) if values else 0.0
