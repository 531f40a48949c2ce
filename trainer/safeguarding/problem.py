"""A problem: its inputs, its sum, its slips, and the one way to run them."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from types import MappingProxyType
from typing import Any

from trainer.errors import Missing, UsageError
from trainer.safeguarding import inputs
from trainer.safeguarding.cautions import CAUTION, MEASURED
from trainer.safeguarding.inputs import Field, Numbers
from trainer.safeguarding.result import Sense, Worked
from trainer.safeguarding.rounding import GRIDS, cut_to, to_safe_side
from trainer.safeguarding.slips import AT_THE_END, Slip, together
from trainer.safeguarding.working import Change, Refused, Working, WrittenWorking
from trainer.units import BASE, Q, factor
from trainer.wording import say

MEASURED_INPUTS = frozenset({"stopping_time", "stopping_times", "readings"})
Sum = Callable[[Working, Numbers], Any]


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """What a problem asks for.

    ``unit`` is the unit it is given in unless another is asked for; ``grid`` says, per unit, to which step it is
    rounded (see :mod:`trainer.safeguarding.rounding`).
    """

    symbol: str
    dimension: str
    unit: str
    sense: Sense
    grid: Mapping[str, Fraction]


@dataclass(frozen=True, slots=True)
class Figure:
    """A bare result, in numbers of the unit that was asked for: the exact value, and how it is rounded.

    ``step`` is None where a slip has rounded it already.
    """

    value: Fraction
    sense: Sense
    step: Fraction | None

    @property
    def reach(self) -> float:
        """Return how far rounding may take it, roughly."""
        return self.step.numerator / self.step.denominator if self.step else 0.0

    @property
    def rounded(self) -> Fraction:
        """Return the value as it is built to: rounded to the safe side."""
        return self.value if self.step is None else to_safe_side(self.value, self.step, self.sense)


@dataclass(frozen=True, slots=True)
class Begun:
    """A sum that was run up to its value in base units; what is left is the answer's unit and rounding."""

    working: Working
    value: Any


def answer(symbol: str, sense: Sense, grid: str = "distance") -> Answer:
    """Return an answer rounded on one of the named grids."""
    dimension, steps = GRIDS[grid]
    return Answer(symbol=symbol, dimension=dimension, unit=next(iter(steps)), sense=sense, grid=steps)


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """One calculation of the trade under its name."""

    name: str
    title: str
    inputs: Any
    sum: Sum
    answer: Answer
    slips: tuple[Slip, ...] = ()
    by_code: Mapping[str, Slip] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "by_code", MappingProxyType({slip.code: slip for slip in self.slips}))

    @property
    def fields(self) -> tuple[Field, ...]:
        """Return its inputs."""
        return inputs.fields_of(self.inputs)

    def slip(self, code: str) -> Slip:
        """Return a slip by its code; raises :class:`Missing` with the codes that there are."""
        if code in self.by_code:
            return self.by_code[code]
        known = ", ".join(self.by_code)
        raise Missing(say("{problem} has no slip {code}. It has {known}.", problem=self.name, code=code, known=known))

    def read(self, texts: Mapping[str, str]) -> dict[str, Any]:
        """Read ``{"stopping-time": "190 ms"}`` into quantities, checked; raises :class:`UsageError`."""
        return inputs.read(self.inputs, texts)

    def numbers(self, values: Mapping[str, Any]) -> Numbers:
        """Check quantities by key and return them as exact numbers in base units, for :meth:`figure`."""
        numbers: Numbers = inputs.make(self.inputs, values).numbers()
        return numbers

    def solve(self, values: Mapping[str, Any], *, unit: str | None = None) -> Worked:
        """Work the problem out, with every step. ``unit`` is that of the answer and decides the unit system."""
        return self._write(self.numbers(values), {}, self._unit(unit))[0]

    def wrong(self, values: Mapping[str, Any], code: str, *, unit: str | None = None) -> Worked | None:
        """Return the result that a slip leads to; None where it changes nothing here or leads to no figure."""
        return self.wrong_many(values, (code,), unit=unit)

    def wrong_many(self, values: Mapping[str, Any], codes: Sequence[str], *, unit: str | None = None) -> Worked | None:
        """Return the result of several slips at once; None as for one."""
        changes = together(tuple(self.slip(code) for code in codes))
        worked, working = self._write(self.numbers(values), changes, self._unit(unit))
        return worked if _leads_somewhere(working, worked.value) else None

    def figure(self, numbers: Numbers, codes: Sequence[str] = (), *, unit: str | None = None) -> Figure | None:
        """Return the bare result, right or with slips, without writing the steps down: for comparing many."""
        slips = tuple(self.slip(code) for code in codes)
        begun = self.begin(numbers, slips)
        return self.end(begun, slips, unit=unit) if begun else None

    def begin(self, numbers: Numbers, slips: Sequence[Slip]) -> Begun | None:
        """Run the sum, right or with slips, for :meth:`end`; None where the rule gives no figure."""
        working = Working(together(slips) if slips else None)
        try:
            value = self.sum(working, numbers)
        except Refused:
            return None
        return None if value is None else Begun(working, value)

    def end(self, begun: Begun, slips: Sequence[Slip], *, unit: str | None = None) -> Figure | None:
        """Bring a sum to its figure with ``slips``, which may differ from those it was begun with at the end only."""
        unit, last = self._unit(unit), tuple(slip for slip in slips if slip.changes.keys() & AT_THE_END)
        working = begun.working.resumed(together(last)) if last else begun.working
        value = self._end(working, begun.value, unit) if last else self._in(begun.value, unit)
        if (slips or working.changes) and not _leads_somewhere(working, value):
            return None
        return Figure(value, working.sense or self.answer.sense, None if working.cut else self._grid(working)[unit])

    def _rounded(self, working: Working, value: Fraction, unit: str) -> Fraction:
        """Return a value as it is built to; what a slip has rounded already is left as it is."""
        if working.cut:
            return value
        return to_safe_side(value, self._grid(working)[unit], working.sense or self.answer.sense)

    def _unit(self, unit: str | None) -> str:
        unit = unit or self.answer.unit
        if unit not in self.answer.grid:
            known = ", ".join(self.answer.grid)
            raise UsageError(say("{problem} is answered in {known}.", problem=self.name, known=known))
        return unit

    def _grid(self, working: Working) -> Mapping[str, Fraction]:
        return working.grid or self.answer.grid

    def _run(self, working: Working, numbers: Numbers, unit: str) -> Fraction | None:
        """Return the exact value as a number of ``unit``."""
        value = self.sum(working, numbers)
        return None if value is None else self._end(working, value, unit)

    def _end(self, working: Working, value: Any, unit: str) -> Fraction:
        exact = self._in(working.ask("answer", value), unit)
        cut = working.ask("rounding", None)
        if cut is None:
            return exact
        rounded = cut_to(exact, cut.steps[unit] if unit in cut.steps else self._grid(working)[unit], up=cut.up)
        working.touched = working.touched and rounded != exact
        working.cut = True
        return rounded

    def _in(self, value: Any, unit: str) -> Fraction:
        """Return a value in base units as an exact number of ``unit``."""
        base = BASE[self.answer.dimension]
        return Fraction(value) if unit == base else Fraction(value * factor(base, unit))

    def _write(self, numbers: Numbers, changes: Mapping[str, Change], unit: str) -> tuple[Worked, WrittenWorking]:
        working = WrittenWorking(changes, "inch" if unit == "inch" else "mm")
        value, refusal = None, None
        try:
            value = self._run(working, numbers, unit)
        except Refused as refused:
            refusal = refused.reason
        if MEASURED_INPUTS & vars(numbers).keys():
            working.warn(MEASURED)
        working.warn(CAUTION)
        return self._worked(working, value, refusal, unit), working

    def _worked(self, working: WrittenWorking, value: Fraction | None, refusal: Any, unit: str) -> Worked:
        sense = working.sense or self.answer.sense
        shown = value is not None and refusal is None
        return Worked(
            problem=self.name,
            title=self.title,
            symbol=_symbol(self.answer.symbol, working),
            sense=sense,
            unit=unit,
            grid=self._grid(working),
            value=Q(value, unit) if shown and value is not None else None,
            rounded=Q(self._rounded(working, value, unit), unit) if shown and value is not None else None,
            word=working.word,
            refusal=refusal,
            given=tuple(working.inputs),
            steps=tuple(working.steps),
            citations=tuple(working.citations),
            warnings=tuple(working.warnings),
            terms=MappingProxyType(working.terms),
        )


def _symbol(wanted: str, working: WrittenWorking) -> str:
    """Return the symbol of the result: the problem's own if a step gave it, never that of an input."""
    given = {step.symbol for step in working.inputs}
    if wanted in working.seen and wanted not in given:
        return wanted
    return working.steps[-1].symbol if working.steps else ""


def _leads_somewhere(working: Working, value: Any) -> bool:
    if value is None or not working.touched:
        return False
    number: Fraction = getattr(value, "magnitude", value)
    return number.numerator > 0 or working.word is not None
