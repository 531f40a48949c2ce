"""Rounding to the safe side, and to which step.

Distances go up to the next whole millimetre or sixteenth of an inch (the next half inch where the regulator's chart
steps by half inches); times and openings go down to the next tenth of a millisecond or millimetre, a stopping time
to be used goes up. Where a rule says "more than", the rounded value is more than the exact one even when that falls
on a step. The exact value is always shown beside it.
"""

from collections.abc import Mapping
from fractions import Fraction
from types import MappingProxyType

from trainer.safeguarding.result import Sense, Worked
from trainer.units import magnitude

TENTH = Fraction(1, 10)
# name -> (dimension, {unit: step}); the first unit is the one an answer is given in unless another is asked for.
GRIDS: Mapping[str, tuple[str, Mapping[str, Fraction]]] = {
    "distance": ("length", MappingProxyType({"mm": Fraction(1), "inch": Fraction(1, 16)})),
    "chart-distance": ("length", MappingProxyType({"mm": Fraction(1), "inch": Fraction(1, 2)})),
    "fine-length": ("length", MappingProxyType({"mm": TENTH, "inch": Fraction(1, 1000)})),
    "time": ("time", MappingProxyType({"ms": TENTH, "s": Fraction(1, 10000)})),
    "force": ("force", MappingProxyType({"kN": TENTH})),
    "force-per-length": ("force-per-length", MappingProxyType({"kN/m": TENTH})),
    "number": ("number", MappingProxyType({"": Fraction(1, 1000)})),
}


def to_safe_side(value: Fraction, step: Fraction, sense: Sense) -> Fraction:
    """Round ``value`` to a multiple of ``step`` so that the rule still holds."""
    below = value // step * step
    if sense is Sense.LESS_THAN:
        return below if below < value else below - step
    if sense is Sense.AT_MOST:
        return below
    if sense is Sense.MORE_THAN:
        return below + step
    return below if below == value else below + step


def cut_to(value: Fraction, step: Fraction, *, up: bool) -> Fraction:
    """Round to the wrong side, as a slip does."""
    return -(-value // step) * step if up else value // step * step


def round_in(worked: Worked, unit: str) -> Fraction:
    """Return the rounded value of a result as a number of another unit, from its exact value."""
    return to_safe_side(magnitude(worked.value, unit), worked.grid[unit], worked.sense)


def exact_in(worked: Worked, unit: str) -> Fraction:
    """Return the exact value of a result as a number of a unit."""
    return magnitude(worked.value, unit)
