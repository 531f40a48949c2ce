"""Which mistake leads to a number that somebody wrote.

The number is compared with what each slip gives, as people round: exactly, to the safe side, as printed or as finely
as it was written, to the nearest step, up or down to any usual step. One slip explains a number better than two at
once, an exact meeting better than a rounded one. Two that explain it equally well are a tie and are reported as one.
What the right value explains is never called a slip.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import IntEnum
from fractions import Fraction
from functools import lru_cache
from typing import Any

from trainer import units
from trainer.assessment import band
from trainer.assessment.amounts import unit_of
from trainer.assessment.mixed_units import BY_CODE, MIXED
from trainer.assessment.slip_values import Explained, SlipValues, slip_values
from trainer.safeguarding.problems import Figure, Problem, problem
from trainer.safeguarding.show import amount
from trainer.safeguarding.slips import Slip

MOST = 6  # explanations that are handed on
# How people round in each unit, from fine to coarse. Decimal and common fractions of an inch both occur.
STEPS: Mapping[str, tuple[Fraction, ...]] = {
    "mm": (Fraction(1, 100), Fraction(1, 10), Fraction(1)),
    "inch": (Fraction(1, 100), Fraction(1, 16), Fraction(1, 10), Fraction(1, 8), Fraction(1, 4)),
    "ms": (Fraction(1, 10), Fraction(1)),
    "s": (Fraction(1, 1000), Fraction(1, 100)),
    "cm": (Fraction(1, 100), Fraction(1, 10)),
    "m": (Fraction(1, 1000),),
    "kN": (Fraction(1, 10), Fraction(1)),
    "kN/m": (Fraction(1, 10), Fraction(1)),
}
PRINTED = {"mm": Fraction(1, 10), "ms": Fraction(1, 10), "inch": Fraction(1, 100), "kN": Fraction(1, 10)}
FINEST = 6  # decimals that a number is taken to have been written with, at most
A_HAIR = 1e-6  # by so much two numbers may differ that are compared as floats, before they are compared exactly
EQUAL = "equal-is-enough"
ROUNDINGS = ("rounds-down", "rounds-up", "rounds-down-far")


class Meeting(IntEnum):
    """How a typed number meets a value; the smaller, the closer."""

    EXACT = 0
    ROUNDED = 1
    PRINTED = 2
    NEAREST = 3
    ROUGH = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class SlipFound:
    """One explanation: the slips, the value they give (``"334.2 mm"``), and whether another explains as well."""

    codes: tuple[str, ...]
    value: str
    tied: bool = False

    def as_data(self) -> dict[str, Any]:
        """Return it as plain data that JSON can hold."""
        return {"codes": list(self.codes), "value": self.value, "tied": self.tied}

    @classmethod
    def from_data(cls, data: Mapping[str, Any]) -> "SlipFound":
        """Make it again from plain data."""
        return cls(codes=tuple(data["codes"]), value=str(data["value"]), tied=bool(data["tied"]))


@dataclass(frozen=True, slots=True)
class _Met:
    codes: tuple[str, ...]
    value: Fraction
    meeting: Meeting


@dataclass(frozen=True, slots=True)
class _Search:
    """One typed number, in numbers of ``unit``, and the values that it is compared with."""

    known: SlipValues
    unit: str
    typed: Fraction

    def among(self, groups: Iterable[Explained], most: Meeting) -> list[_Met]:
        """Return the groups of slips that lead to the number, the closest meeting first."""
        found = []
        for codes, figure in groups:
            met = meeting(self.typed, figure, self.unit)
            if met is not None and met <= most:
                found.append(_Met(codes, figure.value, met))
        return sorted(found, key=lambda one: (one.meeting, abs(one.value - self.typed)))


def diagnose(sum_: Problem, values: Mapping[str, Any], answer: Any, codes: Sequence[str]) -> tuple[SlipFound, ...]:
    """Name the slips that lead to a wrong ``answer`` (a quantity), the best explanation first; empty where none does.

    ``values`` are the inputs as :meth:`Problem.read` gives them. Pairs of slips are looked at only where no single one
    explains the number.
    """
    return explain(sum_, sum_.numbers(values), answer, codes)


def explain(sum_: Problem, numbers: Any, answer: Any, codes: Sequence[str]) -> tuple[SlipFound, ...]:
    """Do as :func:`diagnose` does, for inputs that are exact numbers already."""
    written = unit_of(answer, sum_.answer.dimension)
    unit = written if written in sum_.answer.grid else sum_.answer.unit
    search = _Search(slip_values(sum_, numbers, unit, codes), unit, units.magnitude(answer, unit))
    right = search.known.right
    found = search.among(search.known.singles, Meeting.ROUGH)
    if right is None:
        return _reported(found, unit)
    near = meeting(search.typed, right, unit, sum_.answer.grid[unit])
    if near is not None and _on_safe_side(search.typed, right):
        closer = near > Meeting.ROUNDED and found and found[0].meeting <= Meeting.ROUNDED
        return _reported(found, unit) if closer else ()
    if found and (near is None or found[0].meeting < near or _cuts(found, near)):
        return _reported(found, unit)
    if near is not None:
        return _rounded_wrongly(search, right)
    return _otherwise(search, right, answer, written)


def _otherwise(search: _Search, right: Figure, answer: Any, written: str) -> tuple[SlipFound, ...]:
    """Explain what no single slip does: the right number in other units, rounded in other units, or two slips at once."""
    return (
        _mixed_up(units.Q(right.value, search.unit), answer, written)
        or _rounded_elsewhere(search)
        or _reported(search.among(search.known.pairs, Meeting.PRINTED), search.unit)
    )


def _on_safe_side(typed: Fraction, right: Figure) -> bool:
    """Say whether a number near the right value is right itself; equal is not where the rule asks for more."""
    if typed == right.value:
        return right.sense not in band.STRICT
    return (typed > right.value) is not (right.sense in band.CEILINGS)


def _cuts(found: Sequence[_Met], near: Meeting) -> bool:
    return found[0].meeting == near and found[0].codes[0] in ROUNDINGS


def _rounded_wrongly(search: _Search, right: Figure) -> tuple[SlipFound, ...]:
    """Name the rounding, or taking equal as enough: the number is the right one but for that."""
    known = search.known.problem.by_code
    value = amount(search.typed, search.unit, 4)
    wanted = (EQUAL,) if search.typed == right.value and EQUAL in known else ROUNDINGS
    return tuple(SlipFound(codes=(code,), value=value) for code in wanted if code in known)[:1]


def _rounded_elsewhere(search: _Search) -> tuple[SlipFound, ...]:
    """Look whether the right value was rounded to the wrong side in another unit, and only then brought to this one."""
    sum_, numbers = search.known.problem, search.known.numbers
    codes = [code for code in ROUNDINGS if code in sum_.by_code]
    for other in (unit for unit in sum_.answer.grid if unit != search.unit):
        for code in codes:
            figure = sum_.figure(numbers, (code,), unit=other)
            if figure and _meets_here(search, figure, other):
                return (SlipFound(codes=(code,), value=amount(search.typed, search.unit, 4)),)
    return ()


def _meets_here(search: _Search, figure: Figure, other: str) -> bool:
    value = figure.value * units.factor(other, search.unit)
    met = meeting(search.typed, Figure(value, figure.sense, None), search.unit)
    return met is not None and met <= Meeting.PRINTED


def meeting(typed: Fraction, figure: Figure, unit: str, step: Fraction | None = None) -> Meeting | None:
    """Say how a typed number meets a figure; None where it does not. ``step`` is one more that people round to."""
    value, steps = figure.value, _steps(unit, step)
    if _far_apart(typed, value, max(_widest(unit, step), figure.reach)):
        return None
    if typed == value:
        return Meeting.EXACT
    if typed == figure.rounded:
        return Meeting.ROUNDED
    if not steps or abs(typed - value) > steps[-1]:
        return None
    fine, written = PRINTED.get(unit, steps[0]), _written(typed.denominator)
    if typed == band.nearest(value, fine) or (written < fine and typed == band.nearest(value, written)):
        return Meeting.PRINTED if unit in PRINTED else Meeting.NEAREST
    if any(typed == band.nearest(value, step) for step in steps):
        return Meeting.NEAREST
    steps = (*steps, written) if written < fine else steps
    rough = any(typed in (units.round_down(value, step), units.round_up(value, step)) for step in steps)
    return Meeting.ROUGH if rough else None


def _far_apart(one: Fraction, other: Fraction, reach: float) -> bool:
    """Say whether two numbers are further apart than ``reach`` for certain; quick, because most are."""
    first, second = one.numerator / one.denominator, other.numerator / other.denominator
    return abs(first - second) > reach + A_HAIR * abs(second)


@lru_cache(maxsize=64)
def _widest(unit: str, step: Fraction | None) -> float:
    return float(max(_steps(unit, step), default=0))


@lru_cache(maxsize=64)
def _steps(unit: str, step: Fraction | None) -> tuple[Fraction, ...]:
    """Return the steps that people round to in a unit, the largest last."""
    return tuple(sorted({*STEPS.get(unit, ()), *((step,) if step else ())}))


@lru_cache(maxsize=256)
def _written(denominator: int) -> Fraction:
    """Return the step of the last decimal that a number with this denominator needs; 1 where decimals do not give it."""
    places = (10**places for places in range(FINEST + 1))
    return next((Fraction(1, scale) for scale in places if scale % denominator == 0), Fraction(1))


def slip_of(problem_name: str, code: str) -> Slip:
    """Return a slip by its code, of the problem or of mixed units; raises :class:`~trainer.errors.Missing`."""
    return BY_CODE[code] if code in BY_CODE else problem(problem_name).slip(code)


def _reported(found: Sequence[_Met], unit: str) -> tuple[SlipFound, ...]:
    if not found:
        return ()
    best = [one for one in found if one.meeting == found[0].meeting]
    return tuple(
        SlipFound(codes=one.codes, value=amount(one.value, unit, 2), tied=len(best) > 1 and one in best)
        for one in found[:MOST]
    )


def _mixed_up(right: Any, answer: Any, written: str) -> tuple[SlipFound, ...]:
    """Look whether the number is right in another unit than the one it was written in."""
    typed = units.magnitude(answer, written)
    values = ((units.magnitude(right, meant), meant, slip) for meant, slip in _others(written))
    return tuple(
        SlipFound(codes=(slip.code,), value=amount(value, meant, 3))
        for value, meant, slip in values
        if _meets(typed, value, meant)
    )


def _others(written: str) -> Iterator[tuple[str, Slip]]:
    return ((meant, slip) for (unit, meant), slip in MIXED.items() if unit == written)


def _meets(typed: Fraction, value: Fraction, unit: str) -> bool:
    return any(typed in (value, band.nearest(value, step), units.round_up(value, step)) for step in STEPS[unit])
