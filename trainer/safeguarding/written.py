"""How the values in a working are written: in which unit, with how many places, in formulas and beside them."""

import re
from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from trainer import units

# dimension -> (unit, places) for each of the two unit systems; a time is in ms by itself and in s inside a product.
SYSTEMS: Mapping[str, Mapping[str, tuple[str, int]]] = {
    "mm": {"length": ("mm", 2), "speed": ("mm/s", 1), "acceleration": ("mm/s**2", 1)},
    "inch": {"length": ("inch", 3), "speed": ("inch/s", 2), "acceleration": ("inch/s**2", 2)},
}
EITHER: Mapping[str, tuple[str, int]] = {
    "time": ("ms", 2),
    "seconds": ("s", 4),
    "angle": ("degree", 1),
    "rate": ("1/minute", 1),
    "pressure": ("N/mm**2", 1),
    "force": ("kN", 1),
    "force-per-length": ("kN/m", 1),
    "number": ("", 4),
}
LISTED = 4  # values of a list that a formula still shows one by one
SYSTEM_NAMES = {"mm": "mm", "in": "inch", "inch": "inch"}
_LITERAL = re.compile(r"(\d+(?:\.\d+)?) (mm/s|in/s|mm|in|ms|s)\b")
_TOKEN = re.compile(r"[A-Za-zΔ]\w*")
_SPELT = {"in": "inch", "in/s": "inch/s"}
_DIMENSION = {"mm": "length", "in": "length", "mm/s": "speed", "in/s": "speed", "ms": "time", "s": "time"}


def unit_and_places(dimension: str, system: str) -> tuple[str, int]:
    """Return the unit and the number of places for a dimension."""
    return SYSTEMS[system].get(dimension) or EITHER[dimension]


def show_value(value: Any, dimension: str, system: str) -> str:
    """Write a value of a working: ``388.6 mm``, ``194 ms``, ``2``, ``yes``, ``180 ms, 184 ms``."""
    if isinstance(value, tuple):
        return ", ".join(show_value(part, "time", system) for part in value)
    if not units.is_quantity(value):
        return str(value)
    unit, places = unit_and_places(dimension, system)
    return units.show(value, unit, places)


def substitute(formula: str, uses: Mapping[str, Any], dimension: str, system: str) -> str:
    """Put numbers for the symbols of a formula. Times are in ms where the line gives a time, else in s."""

    def number(match: re.Match[str]) -> str:
        value = uses.get(match[0], match[0])
        return _show_symbol(value, dimension, system) if match[0] in uses else match[0]

    return _TOKEN.sub(number, _LITERAL.sub(lambda match: _literal(match, system), formula)) if uses else ""


def _show_symbol(value: Any, line: str, system: str) -> str:
    if isinstance(value, tuple) and len(value) > LISTED:
        return f"{show_value(value[:2], line, system)}, …, {show_value(value[-1:], line, system)}"
    if not units.is_quantity(value):
        return show_value(value, line, system)
    name = dimension_of(value)
    return show_value(value, "seconds" if name == "time" and line != "time" else name, system)


def dimension_of(quantity: Any) -> str:
    """Return the name of a quantity's dimension."""
    return next(name for name in units.BASE if units.has_dimension(quantity, name))


def _literal(match: re.Match[str], system: str) -> str:
    number, sign = match.groups()
    dimension = _DIMENSION[sign]
    if dimension == "time":
        return match[0]
    unit, _ = unit_and_places(dimension, system)
    return units.show(units.Q(Fraction(number), _SPELT.get(sign, sign)), unit, 4)
