"""How figures write lengths: in the unit asked for, on the safe side where they are a demand."""

from collections.abc import Callable
from datetime import date
from fractions import Fraction

from trainer.errors import UsageError
from trainer.safeguarding.result import Worked
from trainer.units import Q, digits, magnitude, round_up, show
from trainer.wording import Sentence, say

Translate = Callable[[Sentence | str], str]
WriteDay = Callable[[date], str]
PLACES = {"mm": 1, "inch": 2}


def length(mm: Fraction, unit: str, *, up: bool = False) -> str:
    """Write a length; ``up`` rounds the last decimal up, for what is needed or too much."""
    places = PLACES.get(unit, 1)
    quantity = Q(mm, "mm").to(unit)
    number = Fraction(quantity.magnitude)
    if up:
        number = round_up(number, Fraction(1, 10**places))
    return show(Q(number, unit), unit, places)


def figure(text: str, translate: Translate) -> str:
    """Return a measure that stands alone, with the decimal mark of the reader's language."""
    return translate(Sentence("{figure}", {"figure": text}))


def gap(mm: Fraction, unit: str) -> str:
    """Write how much is missing: to the nearest last decimal, and never as nothing."""
    step = Fraction(1, 10 ** PLACES.get(unit, 1))
    number = max(step, (magnitude(Q(mm, "mm"), unit) / step + Fraction(1, 2)) // 1 * step)
    return show(Q(number, unit), unit, PLACES.get(unit, 1))


def built_to(worked: Worked) -> Fraction:
    """Return the length in mm that a worked solution says to build to; :class:`UsageError` with its words where it refuses."""
    if worked.rounded is None:
        raise UsageError(worked.refusal or say("There is no length to draw here."))
    return magnitude(worked.rounded, "mm")


def plain(number: float, places: int = 1) -> str:
    """Write a bare number with at most so many decimals."""
    return digits(Fraction(number).limit_denominator(10_000), places)
