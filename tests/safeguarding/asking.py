"""Asking a problem in one line, as on a command line, and comparing with figures as a sheet prints them."""

from decimal import ROUND_DOWN, ROUND_HALF_UP, Decimal
from fractions import Fraction

from trainer.safeguarding.problems import problem
from trainer.units import magnitude


def split(line: str) -> tuple[str, dict[str, str]]:
    """``"closing-time gap=6mm speed=10mm/s"`` → name and inputs; several readings are joined by ``;``."""
    name, *pairs = line.split()
    return name, {key: value.replace(";", ", ") for key, value in (pair.split("=", 1) for pair in pairs)}


def solve(line: str, unit: str | None = None):
    name, texts = split(line)
    asked = problem(name)
    return asked.solve(asked.read(texts), unit=unit)


def wrong(line: str, code: str, unit: str | None = None):
    name, texts = split(line)
    asked = problem(name)
    return asked.wrong(asked.read(texts), code, unit=unit)


def value(worked, unit: str | None = None) -> Fraction:
    return magnitude(worked.value, unit or worked.unit)


def as_printed(exact: Fraction, text: str, *, cut: bool = False) -> str:
    """Write ``exact`` with as many places as ``text`` has: rounded half up, or cut off where a source cuts."""
    places = Decimal(1).scaleb(-len(text.partition(".")[2]))
    wide = Decimal(exact.numerator) / Decimal(exact.denominator)
    return str(wide.quantize(places, ROUND_DOWN if cut else ROUND_HALF_UP))
