"""Where a number lies against what is needed: on the unsafe side, right, or safe but further than it has to be.

The comparison is exact: a number on the unsafe side is short by however little, however it was rounded or printed.
"""

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from trainer.safeguarding.result import Sense
from trainer.safeguarding.rounding import to_safe_side

CEILINGS = frozenset({Sense.AT_MOST, Sense.LESS_THAN})  # what is there must not be above the value
STRICT = frozenset({Sense.MORE_THAN, Sense.LESS_THAN})  # the value itself is not enough


class Verdict(StrEnum):
    """What an answer is worth. SHORT is the unsafe side, whichever that is; FAR is safe but not useful."""

    RIGHT = "right"
    WRONG = "wrong"
    SHORT = "short"
    FAR = "far"


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """What is accepted, in numbers of ``unit``.

    ``exact`` is the value of the sum, ``needed`` what it is rounded to on the safe side, ``over`` how far beyond
    ``needed`` is still called right.
    """

    sense: Sense
    unit: str
    exact: Fraction
    needed: Fraction
    over: Fraction

    def verdict(self, number: Fraction) -> Verdict:
        """Say where a number lies."""
        if self.unsafe(number):
            return Verdict.SHORT
        return Verdict.FAR if self._beyond(number) > self.over else Verdict.RIGHT

    def gap(self, number: Fraction) -> Fraction:
        """Return how much is missing to the exact value, or how far the number lies beyond what is needed."""
        return abs(self.exact - number) if self.unsafe(number) else max(Fraction(0), self._beyond(number))

    def unsafe(self, number: Fraction) -> bool:
        """Say whether a number is on the unsafe side; where the rule is strict the value itself is."""
        if number == self.exact:
            return self.sense in STRICT
        return (number > self.exact) is (self.sense in CEILINGS)

    def _beyond(self, number: Fraction) -> Fraction:
        return self.needed - number if self.sense in CEILINGS else number - self.needed


def band(sense: Sense, unit: str, exact: Fraction, step: Fraction, over: Fraction) -> Band:
    """Return the band round an exact value that is rounded to ``step``."""
    return Band(sense=sense, unit=unit, exact=exact, needed=to_safe_side(exact, step, sense), over=over)


def nearest(value: Fraction, step: Fraction) -> Fraction:
    """Return the multiple of ``step`` nearest to ``value``, the upper one of two."""
    return (value / step + Fraction(1, 2)) // 1 * step
