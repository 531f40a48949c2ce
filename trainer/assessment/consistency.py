"""Whether a pass mark would decide the same way a second time, from one administration.

Scores are taken for beta-binomial, with the parameters that mean and KR-21 give (Huynh 1976): then the chance that two
equal papers agree on a person is an exact sum. Beside it stands the normal estimate of Peng & Subkoviak (1980) and
Livingston's coefficient. A single paper of twenty near its mark decides otherwise for one person in four.
"""

from dataclasses import dataclass
from math import asin, comb, exp, lgamma, pi, sin, sqrt
from statistics import NormalDist

from trainer.assessment.reliability import Spread, kr21
from trainer.assessment.samples import FEW, must_be_counts, too_few
from trainer.wording import Sentence, say

SERIOUS = 0.85  # Subkoviak (1988, from memory): agreement that a serious decision should have
PANELS = 200  # of Simpson's rule; even


@dataclass(frozen=True, slots=True, kw_only=True)
class Agreement:
    """The chance that two papers decide alike, and how far that is above chance (``kappa``)."""

    alike: float
    kappa: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Consistency:
    """How steady a pass mark is.

    ``exact`` comes from the beta-binomial model, ``normal`` from the bivariate normal one; both None where scores
    spread no more than chance alone spreads them. ``enough`` says whether it is so steady as a serious decision asks;
    never where it is not known. ``note`` says what is in the way.
    """

    items: int
    needed: int
    people: int
    kr21: float | None
    exact: Agreement | None
    normal: Agreement | None
    livingston: float | None
    note: Sentence | None

    @property
    def enough(self) -> bool:
        """Say whether agreement is known to be at least :data:`SERIOUS`."""
        return self.note is None and self.exact is not None and self.exact.alike >= SERIOUS


def consistency(seen: Spread, needed: int, *, few: int = FEW) -> Consistency:
    """Return how steadily ``needed`` right answers decide, for scores that lie so."""
    must_be_counts(needed, seen.items)
    value = kr21(seen.items, seen.mean, seen.variance)
    known = value is not None and 0 < value < 1
    return Consistency(
        items=seen.items,
        needed=needed,
        people=seen.people,
        kr21=value,
        exact=beta_binomial(seen, needed) if known else None,
        normal=_normal(seen, needed, value) if known and value is not None else None,
        livingston=None if value is None else _livingston(seen, needed, value),
        note=too_few(seen.people, few) or (None if known else _NO_SPREAD),
    )


_NO_SPREAD = say("Scores differ no more than by chance: how steady the pass mark is cannot be told.")


def shape(seen: Spread) -> tuple[float, float]:
    """Return the two parameters of the beta distribution of true scores; raises where KR-21 is not above 0."""
    value = kr21(seen.items, seen.mean, seen.variance)
    if value is None or value <= 0:
        raise ValueError("no spread")
    a = (-1 + 1 / value) * seen.mean
    return a, -a + seen.items / value - seen.items


def beta_binomial(seen: Spread, needed: int) -> Agreement:
    """Return agreement and kappa under the beta-binomial model, summed exactly."""
    a, b = shape(seen)
    n = seen.items
    both = [comb(n, x) for x in range(n + 1)]
    fail, fails = 0.0, 0.0
    for x in range(needed):
        fail += both[x] * _ratio(a, b, x, n)
        fails += sum(both[x] * both[y] * _ratio(a, b, x + y, 2 * n) for y in range(needed))
    return _agreement(fail, fails)


def _ratio(a: float, b: float, right: int, asked: int) -> float:
    """Return the chance of one order of so many right and wrong answers."""
    return exp(
        lgamma(a + right) + lgamma(b + asked - right) - lgamma(a + b + asked) - lgamma(a) - lgamma(b) + lgamma(a + b)
    )


def _normal(seen: Spread, needed: int, value: float) -> Agreement:
    z = (needed - 0.5 - seen.mean) / sqrt(seen.variance)
    fail = NormalDist().cdf(z)
    return _agreement(fail, fail * fail + _plackett(z, value))


def _plackett(z: float, r: float) -> float:
    """Return by how much two values correlated with r are both below z more often than two independent ones."""
    width = asin(r) / PANELS
    heights = [exp(-z * z / (1 + sin(i * width))) for i in range(PANELS + 1)]
    return (heights[0] + heights[-1] + 4 * sum(heights[1:-1:2]) + 2 * sum(heights[2:-1:2])) * width / 3 / (2 * pi)


def _agreement(fail: float, both_fail: float) -> Agreement:
    alike = 1 - 2 * fail + 2 * both_fail
    by_chance = fail * fail + (1 - fail) * (1 - fail)
    return Agreement(alike=alike, kappa=(alike - by_chance) / (1 - by_chance) if by_chance < 1 else 0.0)


def _livingston(seen: Spread, needed: int, value: float) -> float | None:
    away = (seen.mean - needed) ** 2
    whole = seen.variance + away
    return (value * seen.variance + away) / whole if whole else None


def chance_to_pass(chance: float, needed: int, items: int) -> float:
    """Return the chance of ``needed`` or more right of ``items`` for somebody right with one chance each time."""
    must_be_counts(needed, items)
    return sum(comb(items, x) * chance**x * (1 - chance) ** (items - x) for x in range(needed, items + 1))
