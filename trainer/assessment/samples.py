"""Shares with their uncertainty, and what is said of a sample that is too small.

``wilson`` is the score interval (Wilson 1927), ``exact`` the interval of Clopper and Pearson (1934) and ``difference``
the hybrid score interval for two independent shares (Newcombe 1998, Statistics in Medicine 17:873-890, method 10).
All hold the true value in 95 cases of 100.
"""

from math import sqrt
from statistics import NormalDist

from trainer.assessment import beta
from trainer.errors import UsageError
from trainer.wording import Sentence, say

SURE = 0.95
Z = NormalDist().inv_cdf((1 + SURE) / 2)
# With 30 answers a correlation of 0.2 has a standard error of 0.18. Below so many answers no judgement is made.
FEW = 50

Interval = tuple[float, float]


def wilson(right: int, answers: int) -> Interval:
    """Return the score interval of a share; all of 0 to 1 where nothing was answered."""
    must_be_counts(right, answers)
    if answers == 0:
        return 0.0, 1.0
    share, z2 = right / answers, Z * Z
    middle = (share + z2 / (2 * answers)) / (1 + z2 / answers)
    half = Z * sqrt(share * (1 - share) / answers + z2 / (4 * answers**2)) / (1 + z2 / answers)
    return (0.0 if right == 0 else middle - half), (1.0 if right == answers else middle + half)


def exact(right: int, answers: int) -> Interval:
    """Return the interval that holds a share with at least 95 chances in 100, whatever it is; wider than the score one."""
    must_be_counts(right, answers)
    tail = (1 - SURE) / 2
    low = 0.0 if right == 0 else beta.quantile(tail, right, answers - right + 1)
    high = 1.0 if right == answers else beta.quantile(1 - tail, right + 1, answers - right)
    return low, high


def difference(right: int, answers: int, other_right: int, other_answers: int) -> Interval:
    """Return the interval of the first share less the second; -1 to 1 where one of them has no answers."""
    first, second = wilson(right, answers), wilson(other_right, other_answers)
    if 0 in {answers, other_answers}:
        return -1.0, 1.0
    p, q = right / answers, other_right / other_answers
    down = sqrt((p - first[0]) ** 2 + (second[1] - q) ** 2)
    up = sqrt((first[1] - p) ** 2 + (q - second[0]) ** 2)
    return p - q - down, p - q + up


def too_few(count: int, few: int = FEW) -> Sentence | None:
    """Return what to say of a sample that is too small to judge by; None where it is large enough."""
    if count >= few:
        return None
    if count == 0:
        return say("Nobody has answered it yet.")
    return say("Too few answers to judge by: {count} of the {few} that it takes.", count=count, few=few)


def must_be_counts(right: int, answers: int) -> None:
    """Raise :class:`UsageError` where fewer than none, or more than all, are right."""
    if not 0 <= right <= answers:
        raise UsageError(say("{right} of {answers} cannot be right.", right=right, answers=answers))
