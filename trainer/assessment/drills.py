"""Drills: draw the numbers, work them out, and refuse a draw in which a mistake could not be told from another.

A draw is refused where the value that a slip leads to would be accepted, lies within one rounding step of the right
value or of another slip's value, or where the inputs give no figure at all. What is left can be diagnosed: however a
person rounds, the number points to one slip.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from itertools import combinations, product
from random import Random
from types import MappingProxyType
from typing import Any

from trainer import units
from trainer.assessment.band import Band, Verdict, band, nearest
from trainer.assessment.slip_values import slip_values
from trainer.bank.model import ComputeDrill, Drill, Input, Range, SelectDrill
from trainer.errors import BankError, UsageError
from trainer.safeguarding.problems import Figure, Problem, problem
from trainer.safeguarding.result import Sense, Worked
from trainer.wording import say

TRIES = 400  # draws before a drill is given up
RIGHT = "right-answer"  # what a slip may be mistaken for, beside the codes of other slips
APART = (
    1  # rounding steps that two values must be apart, so that rounding to the safe side does not bring them together
)
USUAL = 5  # an answer up to so many times above or below all right answers of a drill is plausible

Drawn = Mapping[str, str]
_Key = tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Given:
    """One draw, read: the quantities by key, and the same as exact numbers in base units."""

    values: Mapping[str, Any]
    numbers: Any


@dataclass(frozen=True, slots=True)
class Clash:
    """Two things that one number could stand for: codes of slips, or :data:`RIGHT`."""

    code: str
    other: str


def draw(drill: Drill, rng: Random) -> Drawn:
    """Draw the inputs of a drill as text with units, or the setting of one that asks for a safeguard.

    Raises :class:`BankError` where no draw is found in which every slip can be told apart.
    """
    if isinstance(drill, SelectDrill):
        return MappingProxyType({"setting": rng.choice([setting.id for setting in drill.settings])})
    for _ in range(TRIES):
        drawn = {key: rng.choice(values) for key, values in _ranges(drill)}
        if not refused(drill, drawn):
            return MappingProxyType(drawn)
    raise BankError(
        say(
            "Drill {drill} gives no numbers in {tries} draws that tell its slips apart. Widen its ranges or list fewer slips.",
            drill=drill.id,
            tries=TRIES,
        )
    )


def refused(drill: Drill, drawn: Drawn) -> bool:
    """Say whether a draw may not be asked: it cannot be worked out, or a slip could not be told apart in it."""
    try:
        return next(clashes(drill, drawn), None) is not None
    except UsageError:
        return True


def worked(drill: Drill, drawn: Drawn, unit: str | None = None) -> Worked:
    """Return the worked solution of a draw, in the drill's unit or another that the answer may be given in."""
    drill = computed(drill)
    return _worked(drill.problem, unit or drill.unit, _key(drawn))


def given(drill: Drill, drawn: Drawn) -> Given:
    """Read a draw; raises :class:`UsageError` where it is outside what the problem takes."""
    return _given(computed(drill).problem, _key(drawn))


def band_of(drill: Drill, drawn: Drawn, figure: Figure | None = None) -> Band:
    """Return what is accepted for a draw, in the drill's unit; ``figure`` spares working it out again.

    Raises :class:`BankError` where the draw has no figure for an answer.
    """
    drill = computed(drill)
    sum_ = problem(drill.problem)
    figure = figure or sum_.figure(given(drill, drawn).numbers, unit=drill.unit)
    if figure is None:
        raise BankError(say("Drill {drill} has no figure for an answer with these numbers.", drill=drill.id))
    over = _length(drill.over, sum_.answer.dimension, drill.unit)
    return band(_sense(drill, drawn), drill.unit, figure.value, _step(drill), over)


def clashes(drill: Drill, drawn: Drawn) -> Iterator[Clash]:
    """Give each pair that could not be told apart in a draw; raises :class:`UsageError` for inputs it cannot take."""
    drill = computed(drill)
    sum_, numbers, step = problem(drill.problem), given(drill, drawn).numbers, _step(drill)
    known = slip_values(sum_, numbers, drill.unit, drill.slips)
    right = known.right
    if right is None:
        yield Clash(RIGHT, RIGHT)
        return
    accepted = band_of(drill, drawn, right)
    found = {codes[0]: figure for codes, figure in known.singles}
    for code, figure in found.items():
        if passes_for_right(figure, accepted, step):
            yield Clash(code, RIGHT)
    values = {code: figure.value for code, figure in found.items()}
    for (one, first), (other, second) in combinations(values.items(), 2):
        if alike(first, second, step):
            yield Clash(one, other)


def alike(first: Fraction, second: Fraction, step: Fraction) -> bool:
    """Say whether rounding may bring two values together, so that a number would not tell one from the other."""
    both_cut = cut(first, step) and cut(second, step)
    return first == second or (not both_cut and abs(first - second) < APART * step)


def passes_for_right(figure: Figure, accepted: Band, step: Fraction) -> bool:
    """Say whether the figure of a slip would be accepted, in one of the ways it may be written, or is next to the right one."""
    value = figure.value
    if value == accepted.exact:  # the value itself, where the rule asks for more: what is told apart is the rounding
        return accepted.verdict(value) is Verdict.RIGHT or figure.rounded != value
    near = not cut(value, step) and abs(value - accepted.exact) < APART * step
    written = (*forms(value, step), figure.rounded)
    return near or any(accepted.verdict(form) is Verdict.RIGHT for form in written)


def forms(value: Fraction, step: Fraction) -> tuple[Fraction, ...]:
    """Return the numbers that a person may write for a value: cut, up, to the nearest step, to a tenth of a step."""
    below = units.round_down(value, step)
    return tuple(dict.fromkeys((value, below, below if cut(value, step) else below + step, nearest(value, step / 10))))


def cut(value: Fraction, step: Fraction) -> bool:
    """Say whether a value already lies on a step, so that rounding leaves it as it is."""
    return bool(value % step == 0)


def sweep(drill: Drill) -> Iterator[Drawn]:
    """Give every draw of a drill's whole range, refused or not."""
    keys = [key for key, _ in _ranges(computed(drill))]
    for values in product(*(values for _, values in _ranges(computed(drill)))):
        yield dict(zip(keys, values, strict=True))


def size(drill: Drill) -> int:
    """Return how many draws the whole range holds."""
    count = 1
    for _, values in _ranges(computed(drill)):
        count *= len(values)
    return count


def plausible(drill: Drill) -> tuple[Any, Any]:
    """Return the least and the greatest answer that are not out of the way for a drill, as quantities.

    Taken from the drill's whole range and not from the draw, so that asking back gives nothing away.
    """
    drill = computed(drill)
    return _plausible(drill.problem, drill.unit, _ranges(drill))


def computed(drill: Any) -> ComputeDrill:
    """Return the drill where a number is asked for; raises :class:`UsageError` where it is of another kind."""
    if not isinstance(drill, ComputeDrill):
        raise UsageError(say("{item} asks for no number.", item=getattr(drill, "id", "This")))
    return drill


def _ranges(drill: Drill) -> tuple[tuple[str, tuple[str, ...]], ...]:
    return tuple((key, entry.values()) for key, entry in computed(drill).inputs.items())


def _key(drawn: Drawn) -> _Key:
    return tuple(drawn.items())


def _step(drill: ComputeDrill) -> Fraction:
    return problem(drill.problem).answer.grid[drill.unit]


@lru_cache(maxsize=1024)
def _given(name: str, drawn: _Key) -> Given:
    values = problem(name).read(dict(drawn))
    return Given(MappingProxyType(values), problem(name).numbers(values))


@lru_cache(maxsize=256)
def _worked(name: str, unit: str, drawn: _Key) -> Worked:
    return problem(name).solve(_given(name, drawn).values, unit=unit)


def _sense(drill: ComputeDrill, drawn: Drawn) -> Sense:
    # Which side is the safe one depends on the words that are given, never on the numbers: one sample tells.
    words = {field.key for field in problem(drill.problem).fields if field.dimension == "choice"}
    sample = ((key, drawn[key] if key in words else _first(entry)) for key, entry in drill.inputs.items())
    try:
        return _sense_of(drill.problem, drill.unit, tuple(sample))
    except UsageError:
        return worked(drill, drawn).sense


def _first(entry: Input) -> str:
    return entry.from_ if isinstance(entry, Range) else entry.values()[0]


@lru_cache(maxsize=64)
def _sense_of(name: str, unit: str, sample: _Key) -> Sense:
    return problem(name).solve(_given(name, sample).values, unit=unit).sense


@lru_cache(maxsize=256)
def _length(text: str, dimension: str, unit: str) -> Fraction:
    return units.magnitude(units.parse(text, dimension), unit)


@lru_cache(maxsize=64)
def _plausible(name: str, unit: str, ranges: tuple[tuple[str, tuple[str, ...]], ...]) -> tuple[Any, Any]:
    corners = product(*(dict.fromkeys((values[0], values[-1])) for _, values in ranges))
    found = [figure.value for corner in corners if (figure := _figure(problem(name), unit, ranges, corner))]
    if not found:
        raise BankError(say("No number of {problem} can be worked out over the drill's range.", problem=name))
    return units.Q(min(found) / USUAL, unit), units.Q(max(found) * USUAL, unit)


def _figure(sum_: Problem, unit: str, ranges: Any, corner: tuple[str, ...]) -> Figure | None:
    drawn = tuple((key, value) for (key, _), value in zip(ranges, corner, strict=True))
    try:
        return sum_.figure(_given(sum_.name, drawn).numbers, unit=unit)
    except UsageError:
        return None
