"""How figures write lengths: in the unit asked for, on the safe side where they are a demand."""

from collections.abc import Callable
from fractions import Fraction

from trainer.units import Q, digits, round_up, show
from trainer.wording import Sentence

Translate = Callable[[Sentence | str], str]
PLACES = {"mm": 1, "inch": 2}


def length(mm: Fraction, unit: str, *, up: bool = False) -> str:
    """Write a length; ``up`` rounds the last decimal up, for what is needed or too much."""
    places = PLACES.get(unit, 1)
    quantity = Q(mm, "mm").to(unit)
    number = Fraction(quantity.magnitude)
    if up:
        number = round_up(number, Fraction(1, 10**places))
    return show(Q(number, unit), unit, places)


def plain(number: float, places: int = 1) -> str:
    """Write a bare number with at most so many decimals."""
    return digits(Fraction(number).limit_denominator(10_000), places)
