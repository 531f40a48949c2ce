"""Quantities: read what people type, show what people read, round to the safe side.

The only module that knows pint. Magnitudes are exact fractions, so 8 1/2 in is 215.9 mm and never a hair less.
"""

import re
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache
from typing import Any

import pint

from trainer.errors import BadQuantity
from trainer.wording import say

registry: pint.UnitRegistry[Any] = pint.UnitRegistry(non_int_type=Fraction, cache_folder=None)
Quantity = registry.Quantity

MAX_TYPED = 60  # characters; nobody needs more for one number and its unit

# What a person may write after a number, folded to lower case, and the unit it means.
SPELLINGS = {
    "length": {
        "mm": "mm",
        "millimetre": "mm",
        "millimetres": "mm",
        "millimeter": "mm",
        "millimeters": "mm",
        "milímetro": "mm",
        "milímetros": "mm",
        "cm": "cm",
        "centimetre": "cm",
        "centimetres": "cm",
        "centimeter": "cm",
        "centimeters": "cm",
        "centímetros": "cm",
        "m": "m",
        "metre": "m",
        "metres": "m",
        "meter": "m",
        "meters": "m",
        "metro": "m",
        "metros": "m",
        "in": "inch",
        "inch": "inch",
        "inches": "inch",
        '"': "inch",
        "''": "inch",
        "″": "inch",
        "”": "inch",
        "pulgada": "inch",
        "pulgadas": "inch",
        "pulg": "inch",
        "ft": "foot",
        "foot": "foot",
        "feet": "foot",
        "'": "foot",
        "′": "foot",
    },
    "time": {
        "ms": "ms",
        "millisecond": "ms",
        "milliseconds": "ms",
        "milisegundo": "ms",
        "milisegundos": "ms",
        "s": "s",
        "sec": "s",
        "secs": "s",
        "second": "s",
        "seconds": "s",
        "segundo": "s",
        "segundos": "s",
        "min": "minute",
        "minute": "minute",
        "minutes": "minute",
    },
    "speed": {
        "mm/s": "mm/s",
        "m/s": "m/s",
        "cm/s": "cm/s",
        "in/s": "inch/s",
        "ips": "inch/s",
        "m/min": "m/minute",
        "mm/min": "mm/minute",
        "ft/min": "foot/minute",
    },
    "acceleration": {"mm/s2": "mm/s**2", "mm/s²": "mm/s**2", "m/s2": "m/s**2", "m/s²": "m/s**2"},
    "angle": {"deg": "degree", "degree": "degree", "degrees": "degree", "°": "degree", "grados": "degree"},
    "rate": {"/min": "1/minute", "spm": "1/minute", "1/min": "1/minute", "strokes/min": "1/minute"},
    "pressure": {"mpa": "MPa", "n/mm2": "N/mm**2", "n/mm²": "N/mm**2", "pa": "Pa", "psi": "psi", "ksi": "ksi"},
    "force": {"n": "N", "kn": "kN", "mn": "MN", "t": "metric_ton * 9.80665 * m/s**2"},
    "force-per-length": {"kn/m": "kN/m", "n/mm": "N/mm", "kn/mm": "kN/mm", "n/m": "N/m"},
    "number": {"": ""},
}
BASE = {
    "length": "mm",
    "time": "s",
    "speed": "mm/s",
    "acceleration": "mm/s**2",
    "angle": "degree",
    "rate": "1/s",
    "pressure": "N/mm**2",
    "force": "N",
    "force-per-length": "N/mm",
    "number": "",
}


def Q(value: int | str | Fraction | Decimal, unit: str) -> Any:
    """Make an exact quantity: ``Q("17/2", "inch")``, ``Q(190, "ms")``. Floats are refused by type, not by luck."""
    if isinstance(value, float):
        msg = say("{value} is a float; give a whole number, a fraction or text.", value=repr(value))
        raise BadQuantity(msg)
    return Quantity(Fraction(value), _unit_named(unit))


@lru_cache(maxsize=512)
def _unit_named(name: str) -> Any:
    # Parsing a unit's name takes longer than the sum it is used in.
    return Quantity(Fraction(1), name).units


@lru_cache(maxsize=512)
def factor(unit: Any, target: str) -> Fraction:
    """Return how many of ``target`` are in one ``unit``. No unit here has an offset, so a factor is all there is."""
    return Fraction(Quantity(Fraction(1), unit).to(target).magnitude)


@lru_cache(maxsize=512)
def _is_of(unit: Any, dimension: str) -> bool:
    if dimension in {"angle", "number"}:  # both are without dimension
        return bool(unit == _unit_named(BASE[dimension]))
    return bool(Quantity(Fraction(1), unit).check(Quantity(Fraction(1), BASE[dimension]).dimensionality))


def magnitude(quantity: Any, unit: str) -> Fraction:
    """Return the exact number of ``unit`` in ``quantity``."""
    return Fraction(quantity.magnitude) * factor(quantity.units, unit)


def has_dimension(quantity: Any, dimension: str) -> bool:
    """Say whether ``quantity`` is a length, a time, a speed … (a key of :data:`SPELLINGS`)."""
    return _is_of(quantity.units, dimension)


def is_quantity(value: Any) -> bool:
    """Say whether ``value`` is a quantity of this registry."""
    return isinstance(value, Quantity)


def round_up(value: Fraction, step: Fraction = Fraction(1)) -> Fraction:
    """Return the least multiple of ``step`` that is not less than ``value``: for distances."""
    return -((-value) // step) * step


def round_down(value: Fraction, step: Fraction = Fraction(1)) -> Fraction:
    """Return the greatest multiple of ``step`` that is not more than ``value``: for times and openings."""
    return (value // step) * step


def digits(value: Fraction, places: int = 1) -> str:
    """Write a number with at most ``places`` decimals, half up, no trailing zeros: ``402.2``, ``34``."""
    scale = 10**places
    scaled = (abs(value) * scale * 2 + 1) // 2
    whole, part = divmod(int(scaled), scale)
    text = str(whole) + (f".{part:0{places}d}".rstrip("0").rstrip(".") if places and part else "")
    return f"-{text}" if value < 0 and scaled else text


DECIMAL_COMMA = frozenset({"es", "de", "fr", "pl", "pt", "it", "vi"})
UNIT_SIGNS = {
    "inch": "in",
    "foot": "ft",
    "inch/s": "in/s",
    "degree": "°",
    "mm/s**2": "mm/s²",
    "m/s**2": "m/s²",
    "inch/s**2": "in/s²",
    "N/mm**2": "MPa",
    "1/minute": "/min",
    "minute": "min",
}


def show(quantity: Any, unit: str, places: int = 1) -> str:
    """Write a quantity in ``unit`` as a person reads it: ``402.2 mm``, ``15.83 in`` with two places."""
    sign = UNIT_SIGNS.get(unit, unit)
    number = digits(magnitude(quantity, unit), places)
    return f"{number}{sign}" if sign == "°" else f"{number} {sign}".rstrip()


@dataclass(frozen=True, slots=True)
class Reading:
    """What a typed text can mean.

    ``candidates`` holds each quantity it can be read as: one when it is clear, several when it has to be asked back.
    ``unit_given`` says whether the person wrote a unit.
    """

    text: str
    candidates: tuple[Any, ...]
    unit_given: bool

    @property
    def clear(self) -> bool:
        """Say whether there is just one way to read it."""
        return len(self.candidates) == 1


_FRACTION = r"(?:(?P<whole>\d+)(?:\s+|\s*-\s*))?(?P<num>\d+)\s*[/⁄]\s*(?P<den>\d+)"
_DECIMAL = r"(?P<dec>\d{1,3}(?:[ \u00a0\u202f]\d{3})+(?:[.,]\d+)?|\d*[.,]\d+|\d+[.,]?)"
_NUMBER = re.compile(rf"(?P<sign>[-−+]?)\s*(?:{_FRACTION}|{_DECIMAL})")
_VULGAR = {"½": " 1/2", "¼": " 1/4", "¾": " 3/4", "⅛": " 1/8", "⅜": " 3/8", "⅝": " 5/8", "⅞": " 7/8"}


def read_quantity(text: str, dimension: str, default_unit: str, *, allow_negative: bool = False) -> Reading:
    """Read a number with or without a unit, as typed by a person.

    Decimal points and commas, fractions (``8 1/2"``, ``8-1/2 in``) and the common spellings of units are understood.
    ``1,234`` can be two numbers, so it comes back with two candidates and is for the caller to ask about.

    Raises :class:`BadQuantity` with one sentence that says what is wrong and what would be right.
    """
    cleaned = _clean(text)
    match = _NUMBER.match(cleaned)
    if match is None:
        raise BadQuantity(
            say(
                "“{text}” does not start with a number. Type one number, such as {example}.",
                text=_short(text),
                example=_example(dimension, default_unit),
            )
        )
    numbers = _numbers(match, text)
    if match["sign"] in {"-", "−"}:
        numbers = [-number for number in numbers]
    if not allow_negative and any(number < 0 for number in numbers):
        raise BadQuantity(say("“{text}” is less than nothing. Type a number of 0 or more.", text=_short(text)))
    unit, given = _unit(cleaned[match.end() :].strip(), dimension, default_unit, text)
    return Reading(text, tuple(Quantity(number, _unit_named(unit)) for number in numbers), given)


def parse(text: str, dimension: str, *, default_unit: str | None = None) -> Any:
    """Read exactly one quantity, as a command or a content file gives it. A unit is needed unless a default is given."""
    reading = read_quantity(text, dimension, default_unit or BASE[dimension])
    if not reading.unit_given and default_unit is None and dimension != "number":
        raise BadQuantity(
            say(
                "“{text}” has no unit. Write it with one, such as {example}.",
                text=_short(text),
                example=_example(dimension, BASE[dimension]),
            )
        )
    if not reading.clear:
        raise BadQuantity(
            say("“{text}” can be read as two numbers. Write it without a thousands mark.", text=_short(text))
        )
    return reading.candidates[0]


def _clean(text: str) -> str:
    if not text.strip():
        raise BadQuantity(say("Nothing was typed. Type one number with its unit."))
    if len(text) > MAX_TYPED:
        raise BadQuantity(say("That is {count} characters long. Type one number with its unit.", count=len(text)))
    for sign, plain in _VULGAR.items():
        text = text.replace(sign, plain)
    return text.strip()


def _numbers(match: re.Match[str], text: str) -> list[Fraction]:
    if match["den"] is not None:
        if int(match["den"]) == 0:
            raise BadQuantity(say("“{text}” divides by nought. Type a number such as 8 1/2.", text=_short(text)))
        return [Fraction(int(match["whole"] or 0)) + Fraction(int(match["num"]), int(match["den"]))]
    plain = re.sub(r"[ \u00a0\u202f]", "", match["dec"])
    number = Fraction(plain.replace(",", ".").rstrip("."))
    if re.fullmatch(r"[1-9]\d{0,2},\d{3}", plain):  # a decimal comma, or an English thousands comma
        return [number, Fraction(plain.replace(",", ""))]
    return [number]


def _unit(rest: str, dimension: str, default_unit: str, text: str) -> tuple[str, bool]:
    if not rest:
        return default_unit, False
    folded = re.sub(r"\s*/\s*", "/", rest.lower().rstrip("."))
    if folded in SPELLINGS[dimension]:
        return SPELLINGS[dimension][folded], True
    if any(folded in spellings for name, spellings in SPELLINGS.items() if name != dimension):
        raise BadQuantity(
            say(
                "“{text}” is not a {dimension}. Write it as one, such as {example}.",
                text=_short(text),
                dimension=dimension,
                example=_example(dimension, default_unit),
            )
        )
    raise BadQuantity(
        say(
            "“{rest}” after the number is not understood. Type one number and its unit, such as {example}.",
            rest=_short(rest),
            example=_example(dimension, default_unit),
        )
    )


def _example(dimension: str, unit: str) -> str:
    sample = {"length": 400, "time": 190, "speed": 1600, "angle": 30, "number": 3}.get(dimension, 50)
    if unit in {"inch", "s"}:
        return "15 1/2 in" if unit == "inch" else "0.19 s"
    return f"{sample} {UNIT_SIGNS.get(unit, unit)}".strip()


def _short(text: str) -> str:
    printable = "".join(character if character.isprintable() else "?" for character in text.strip())
    return printable if len(printable) <= 24 else printable[:24] + "…"


def localised(text: str, language: str) -> str:
    """Write the decimal points of a text's numbers as a language does."""
    return re.sub(r"(?<=\d)\.(?=\d)", ",", text) if language in DECIMAL_COMMA else text
