"""Which mistake leads to a number that somebody wrote.

The number is compared with what each slip gives, as people round: exactly, to the safe side, as printed, to the
nearest step, up or down to any usual step. One slip explains a number better than two at once, an exact meeting better than a rounded one. Two
that explain it equally well are a tie and are reported as one. What the right value explains is never called a slip.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import IntEnum
from fractions import Fraction
from itertools import combinations
from typing import Any

from trainer import units
from trainer.assessment import band
from trainer.assessment.amounts import unit_of
from trainer.assessment.mixed_units import BY_CODE, MIXED
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
class _Explained:
    codes: tuple[str, ...]
    value: Fraction
    meeting: Meeting


@dataclass(frozen=True, slots=True)
class _Search:
    """One typed number, in numbers of ``unit``, and the problem that it answers."""

    problem: Problem
    numbers: Any
    unit: str
    typed: Fraction

    def among(self, groups: Iterable[tuple[str, ...]], most: Meeting) -> list[_Explained]:
        """Return the groups of slips that lead to the number, the closest meeting first."""
        found = []
        for group in groups:
            figure = self.problem.figure(self.numbers, group, unit=self.unit)
            met = meeting(self.typed, figure, self.unit) if figure else None
            if figure and met is not None and met <= most:
                found.append(_Explained(group, figure.value, met))
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
    search = _Search(sum_, numbers, unit, units.magnitude(answer, unit))
    right = sum_.figure(numbers, unit=unit)
    near = meeting(search.typed, right, unit, sum_.answer.grid[unit]) if right else None
    if right and near is not None and _on_safe_side(search, right):
        return ()
    found = search.among(((code,) for code in codes), Meeting.ROUGH)
    if found and (near is None or found[0].meeting < near or _cuts(found, near)):
        return _reported(found, unit)
    if near is not None:
        return _rounded_wrongly(search)
    if right is None:
        return ()
    mixed = _mixed_up(units.Q(right.value, unit), answer, written)
    return mixed or _reported(search.among(combinations(codes, 2), Meeting.PRINTED), unit)


def _on_safe_side(search: _Search, right: Figure) -> bool:
    """Say whether a number near the right value is right itself; equal is not where the rule asks for more."""
    sense = search.problem.sense_of(search.numbers)
    if search.typed == right.value:
        return sense not in band.STRICT
    return (search.typed > right.value) is not (sense in band.CEILINGS)


def _cuts(found: Sequence[_Explained], near: Meeting) -> bool:
    return found[0].meeting == near and found[0].codes[0] in ROUNDINGS


def _rounded_wrongly(search: _Search) -> tuple[SlipFound, ...]:
    """Name the rounding, or taking equal as enough: the number is the right one but for that."""
    known = [slip.code for slip in search.problem.slips]
    value = amount(search.typed, search.unit, 4)
    right = search.problem.figure(search.numbers, unit=search.unit)
    exact = right is not None and search.typed == right.value
    wanted = (EQUAL,) if exact and EQUAL in known else ROUNDINGS
    return tuple(SlipFound(codes=(code,), value=value) for code in wanted if code in known)[:1]


def meeting(typed: Fraction, figure: Figure, unit: str, step: Fraction | None = None) -> Meeting | None:
    """Say how a typed number meets a figure; None where it does not. ``step`` is one more that people round to."""
    if typed == figure.value:
        return Meeting.EXACT
    if typed == figure.rounded:
        return Meeting.ROUNDED
    steps = (*STEPS.get(unit, ()), *((step,) if step else ()))
    if not steps or abs(typed - figure.value) > max(steps):
        return None
    printed = PRINTED.get(unit)
    if printed is not None and typed == band.nearest(figure.value, printed):
        return Meeting.PRINTED
    if any(typed == band.nearest(figure.value, step) for step in steps):
        return Meeting.NEAREST
    rough = any(typed in (units.round_down(figure.value, step), units.round_up(figure.value, step)) for step in steps)
    return Meeting.ROUGH if rough else None


def slip_of(problem_name: str, code: str) -> Slip:
    """Return a slip by its code, of the problem or of mixed units; raises :class:`~trainer.errors.Missing`."""
    return BY_CODE[code] if code in BY_CODE else problem(problem_name).slip(code)


def _reported(found: Sequence[_Explained], unit: str) -> tuple[SlipFound, ...]:
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
