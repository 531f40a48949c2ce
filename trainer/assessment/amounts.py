"""Exact quantities as text, and the unit that a quantity is written in."""

from fractions import Fraction
from functools import lru_cache
from typing import Any

from trainer.units import SPELLINGS, UNIT_SIGNS, Q, magnitude

PLACES = 6  # decimals that a typed number may need to be written exactly; else it is written as a fraction


@lru_cache(maxsize=256)
def _unit_of(unit: Any, dimension: str) -> str:
    names = dict.fromkeys(SPELLINGS[dimension].values())
    return next(name for name in names if Q(1, name).units == unit)


def unit_of(quantity: Any, dimension: str) -> str:
    """Return the name of the unit that a quantity is written in: ``mm``, ``inch``, ``ms``."""
    return _unit_of(quantity.units, dimension)


def exact_text(quantity: Any, dimension: str) -> str:
    """Write a quantity so that reading it gives the same again: ``335 mm``, ``8.5 in``, ``25/3 in``."""
    unit = unit_of(quantity, dimension)
    return f"{_number_text(magnitude(quantity, unit))} {UNIT_SIGNS.get(unit, unit)}".rstrip()


def _number_text(number: Fraction) -> str:
    scaled = number * 10**PLACES
    if scaled.denominator != 1:
        return f"{number.numerator}/{number.denominator}"
    whole, part = divmod(abs(int(scaled)), 10**PLACES)
    decimals = f".{part:0{PLACES}d}".rstrip("0").rstrip(".")
    return f"{'-' if number < 0 else ''}{whole}{decimals}"
