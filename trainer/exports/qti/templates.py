"""Computed drills as items whose numbers are drawn by the player: ranges and plain arithmetic, checked draw by draw.

The sum of a drill is translated from the formulas of its worked solution, and then worked out for every draw beside the
sum itself. A drill goes into a package only where both agree in each draw on what is right, what is short and what is
too far. Otherwise it is left out, and it is said why.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from itertools import product

from trainer import units
from trainer.assessment.band import CEILINGS, STRICT, Band, Verdict
from trainer.assessment.drills import band_of, given, worked
from trainer.bank.drill_model import split_amount
from trainer.bank.model import ComputeDrill, Fixed, Range
from trainer.errors import TrainerError
from trainer.exports.qti.arithmetic import NotPlain, compiled, expression, number, scaled, variable
from trainer.exports.qti.bodies import FIRST
from trainer.exports.qti.node import Node, node
from trainer.safeguarding.inputs import Numbers
from trainer.safeguarding.problems import problem
from trainer.safeguarding.result import Sense, Step, Worked

EXACT, NEEDED, LOW, HIGH = "EXACT", "NEEDED", "LOW", "HIGH"
FIGURES = 6  # decimals that a bound is rounded to, so that the noise of floating point decides nothing
HALF = Fraction(
    49, 10**8
)  # added before, so that a bound is rounded to the safe side (all but 0.01 of the last decimal)
TABLE = "Its sum reads a table or begins whole parts, which the standard’s arithmetic cannot say."
WORDS = "It draws words, or lists, and not only numbers."
BRANCH = "Its rule takes other steps for some of the numbers, which one formula cannot say."
NO_FIGURE = "For some of its numbers the rule gives no figure."


class Left(ValueError):
    """A drill that cannot be said in the standard; the text says why."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Template:
    """A drill as the standard says it: variables with how each is set, in order, and the test of an answer."""

    drill: ComputeDrill
    given: tuple[tuple[Step, str], ...]
    declared: tuple[tuple[str, str], ...]
    set: tuple[tuple[str, Node], ...]
    test: Node

    @property
    def drawn(self) -> frozenset[str]:
        """Return the inputs that are drawn."""
        return frozenset(key for key, entry in self.drill.inputs.items() if not isinstance(entry, Fixed))


def template(drill: ComputeDrill) -> Template:
    """Return a drill as a template; :class:`Left` with the reason where it cannot be one."""
    first = {key: entry.values()[0] for key, entry in drill.inputs.items()}
    try:
        solved = worked(drill, first)
        made = _translated(drill, solved)
        _agree(drill, made)
    except TrainerError as error:
        raise Left(NO_FIGURE) from error
    return made


def _translated(drill: ComputeDrill, solved: Worked) -> Template:
    keys = {field.symbol: field.key for field in problem(drill.problem).fields if field.key in drill.inputs}
    drawn = {key: entry for key, entry in drill.inputs.items() if not isinstance(entry, Fixed)}
    draws = {key: _draw(entry.values(), entry if isinstance(entry, Range) else None) for key, entry in drawn.items()}
    set_ = [(key, how) for key, (_type, how) in draws.items()]
    symbols: dict[str, Node] = {}
    for step in solved.given:
        key = keys.get(step.symbol, "")
        symbols |= _given(step, key if key in drawn else "", drill)
    for step in solved.steps:
        try:
            set_.append((f"step.{step.symbol}", expression(step.formula, symbols)))
        except NotPlain as error:
            raise Left(TABLE) from error
        symbols[step.symbol] = variable(f"step.{step.symbol}")
    answer = problem(drill.problem).answer
    names = [name for name, _how in set_]
    last = variable(f"step.{solved.symbol}" if f"step.{solved.symbol}" in names else names[-1])
    factor = units.magnitude(units.Q(1, units.BASE[answer.dimension]), drill.unit)
    set_ += [(EXACT, scaled(last, factor)), *_bounds(drill, solved.sense, answer.grid[drill.unit])]
    types = {key: kind for key, (kind, _how) in draws.items()}
    return Template(
        drill=drill,
        given=tuple((step, key if (key := keys.get(step.symbol, "")) in drawn else "") for step in solved.given),
        declared=tuple((name, types.get(name, "float")) for name, _how in set_),
        set=tuple(set_),
        test=_test(solved.sense),
    )


def _given(step: Step, key: str, drill: ComputeDrill) -> Mapping[str, Node]:
    """Return the value of something given, in base units; a word has none, and no formula may ask for it."""
    if key:
        found = next(field for field in problem(drill.problem).fields if field.key == key)
        amounts = [_amount(text) for text in drill.inputs[key].values()]
        if found.dimension not in {*units.BASE, "count"}:
            raise Left(WORDS)
        base = units.BASE.get(found.dimension, "")
        one = units.magnitude(units.parse(f"1 {amounts[0][1]}", found.dimension), base) if base else Fraction(1)
        whole = all(value.denominator == 1 for value, _unit in amounts)
        value = variable(key)
        return {step.symbol: scaled(node("qti-integer-to-float", value) if whole else value, one)}
    if isinstance(step.value, int | Fraction) and not isinstance(step.value, bool):
        return {step.symbol: number(Fraction(step.value))}
    if not units.is_quantity(step.value):
        return {}
    dimension = next(name for name in units.BASE if units.has_dimension(step.value, name))
    return {step.symbol: number(units.magnitude(step.value, units.BASE[dimension]))}


def _amount(text: str) -> tuple[Fraction, str]:
    """Return the number and the unit of a drawn amount."""
    try:
        value, unit = split_amount(text)
    except ValueError as error:
        raise Left(WORDS) from error
    if "," in unit:
        raise Left(WORDS)
    return value, unit


def _draw(values: tuple[str, ...], range_: Range | None) -> tuple[str, Node]:
    """Return the type of a drawn number and how the player draws it, as a number of the unit it is written in."""
    amounts = [_amount(text) for text in values]
    if len({unit for _number, unit in amounts}) > 1:
        raise Left(WORDS)
    numbers = [value for value, _unit in amounts]
    whole = all(one.denominator == 1 for one in numbers)
    kind = "integer" if whole else "float"
    if range_ is not None and whole and len(numbers) > 1:
        low, high, step = (str(one) for one in (numbers[0], numbers[-1], numbers[1] - numbers[0]))
        return kind, node("qti-random-integer", min=low, max=high, step=step)
    listed = (node("qti-base-value", units.digits(one, FIGURES), base_type=kind) for one in numbers)
    return kind, node("qti-random", node("qti-multiple", *listed))


def _rounded(value: Node) -> Node:
    return node("qti-round-to", value, rounding_mode="decimalPlaces", figures=str(FIGURES))


def _bounds(drill: ComputeDrill, sense: Sense, step: Fraction) -> Iterator[tuple[str, Node]]:
    """Give how the bounds of a right answer are set: on the one side the sum itself, on the other how far is too far."""
    over = units.magnitude(units.parse(drill.over, problem(drill.problem).answer.dimension), drill.unit)
    ceiling = sense in CEILINGS
    safe, far = (HIGH, LOW) if ceiling else (LOW, HIGH)
    sign = "qti-subtract" if ceiling else "qti-sum"
    away = "qti-subtract" if ceiling else "qti-sum"
    yield safe, _rounded(node(sign, variable(EXACT), number(HALF)))
    yield NEEDED, _rounded(_grid(variable(safe), step, sense))
    yield far, _rounded(node(away, variable(NEEDED), number(over)))


def _grid(bound: Node, step: Fraction, sense: Sense) -> Node:
    """Return a bound on the grid that answers are built to, as :func:`trainer.safeguarding.rounding.to_safe_side` does."""
    steps = _rounded(scaled(bound, 1 / step))
    tiny = Fraction(5, 10**7)
    lift = {Sense.AT_MOST: tiny, Sense.MORE_THAN: 1 + tiny, Sense.LESS_THAN: -tiny}.get(sense, 1 - tiny)
    return scaled(node("qti-truncate", node("qti-sum", steps, number(lift))), step)


def _test(sense: Sense) -> Node:
    strict = sense in STRICT
    below = "qti-gt" if strict and sense not in CEILINGS else "qti-gte"
    above = "qti-lt" if strict and sense in CEILINGS else "qti-lte"
    return node("qti-and", node(below, variable(FIRST), variable(LOW)), node(above, variable(FIRST), variable(HIGH)))


def _agree(drill: ComputeDrill, made: Template) -> None:
    """See that the template judges every draw as the drill does."""
    sum_ = problem(drill.problem)
    step = sum_.answer.grid[drill.unit]
    reckoned = reckoning(made)
    keys, first = list(drill.inputs), {key: entry.values()[0] for key, entry in drill.inputs.items()}
    read = {  # each value is read once: reading takes far longer than the sum
        (key, value): getattr(given(drill, {**first, key: value}).numbers, key.replace("-", "_"))
        for key, entry in drill.inputs.items()
        for value in entry.values()
    }
    same = vars(given(drill, first).numbers)
    for values in product(*(entry.values() for entry in drill.inputs.values())):
        drawn = dict(zip(keys, values, strict=True))
        numbers = Numbers(**same | {key.replace("-", "_"): read[key, value] for key, value in drawn.items()})
        figure = sum_.figure(numbers, unit=drill.unit)
        if figure is None:
            raise Left(NO_FIGURE)
        accepted = band_of(drill, drawn, figure)
        found = reckoned(drawn)
        for answer in _tried(accepted, step):
            if right(made, found, float(answer)) is not (accepted.verdict(answer) is Verdict.RIGHT):
                raise Left(BRANCH)


def reckoning(made: Template) -> Callable[[Mapping[str, str]], Mapping[str, float]]:
    """Return what gives every variable of a template for a draw."""
    steps = [(name, compiled(how)) for name, how in made.set if name not in made.drawn]

    def reckoned(drawn: Mapping[str, str]) -> Mapping[str, float]:
        values = {name: float(_amount(drawn[name])[0]) for name in made.drawn}
        for name, how in steps:
            values[name] = how(values)
        return values

    return reckoned


def right(made: Template, values: Mapping[str, float], answer: float) -> bool:
    """Say whether the template's own test takes an answer."""
    low, high = (one.name for one in made.test.children if isinstance(one, Node))
    above = answer > values[LOW] if low == "qti-gt" else answer >= values[LOW]
    below = answer < values[HIGH] if high == "qti-lt" else answer <= values[HIGH]
    return above and below


def _tried(accepted: Band, step: Fraction) -> Iterator[Fraction]:
    """Give the answers at which a wrong bound would show: at both ends of what is right, and a step beyond."""
    out = -1 if accepted.sense in CEILINGS else 1
    yield accepted.needed
    yield accepted.needed - out * step
    yield accepted.needed + out * accepted.over
    yield accepted.needed + out * (accepted.over + step)
