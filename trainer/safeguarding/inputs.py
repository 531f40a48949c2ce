"""What goes into a sum: one frozen class per problem, whose fields know their symbol, dimension and limits.

Everything is checked at the door, when the class is made. Behind the door a sum sees only exact fractions in the base
units of :data:`trainer.units.BASE` (mm, s, mm/s, N …), whole counts and words.
"""

import dataclasses
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from types import SimpleNamespace
from typing import Annotated, Any, get_type_hints

from trainer import units
from trainer.errors import BadQuantity, UsageError
from trainer.wording import mark, say

Numbers = SimpleNamespace  # the inputs behind the door, by name: exact fractions, counts, words
EXAMPLES = {
    "length": "14 mm",
    "time": "190 ms",
    "speed": "1600 mm/s",
    "acceleration": "500 mm/s2",
    "angle": "30 deg",
    "rate": "60 /min",
    "pressure": "450 MPa",
    "force-per-length": "1000 kN/m",
    "count": "2",
    "number": "2",
    "list": "180 ms, 184 ms, 182 ms",
}
# What this program takes for plausible, in base units: beyond it a number is a slip of the pen or of the unit. Common
# practice; no rule sets these. An input that names its own bound keeps it.
SMALLEST = {"length": Fraction(1, 100), "time": Fraction(1, 10_000), "speed": Fraction(1, 100)}
LARGEST = {
    "length": 100_000,
    "time": 60,
    "speed": 20_000,
    "acceleration": 1_000_000,
    "angle": 360,
    "rate": 50,
    "pressure": 5_000,
    "force-per-length": 100_000,
    "count": 1_000,
    "number": 1_000,
    "list": 60,
}

PLAIN = frozenset({"count", "choice", "list"})


@dataclass(frozen=True, slots=True)
class Given:
    """How an input is declared: ``stopping_time: Annotated[Any, Given("T_s", mark("…"), "time")]``.

    ``symbol`` is what the source calls it, ``label`` an English message. ``dimension`` is a key of
    :data:`trainer.units.SPELLINGS`, or ``count``, ``choice``, ``list`` (of times). ``least`` and ``most`` bound it, in
    base units; ``above`` it must be more than. ``bare_unit`` is the unit of a number written without one, where the
    key itself names the unit.
    """

    symbol: str
    label: str
    dimension: str
    choices: tuple[str, ...] = ()
    least: Fraction | int | None = None
    above: Fraction | int | None = None
    most: Fraction | int | None = None
    bare_unit: str | None = None


@dataclass(frozen=True, slots=True)
class Field(Given):
    """One input of a problem, as declared, with the ``key`` that a command calls it by."""

    key: str = ""
    optional: bool = False
    default: Any = None

    @property
    def name(self) -> str:
        """Return the name it has in Python."""
        return self.key.replace("-", "_")

    @property
    def example(self) -> str:
        """Return a value that could be given."""
        return self.choices[0] if self.choices else EXAMPLES[self.dimension]


YES_NO = ("yes", "no")
StoppingTime = Annotated[Any, Given("T_s", mark("Stopping time of the machine, as measured"), "time", above=0)]
Unverified = Annotated[
    Any, Given("unverified", mark("Use figures that were not read in a source"), "choice", choices=YES_NO)
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Inputs:
    """Base of the inputs of a problem; making one checks each field and then how they go together."""

    def __post_init__(self) -> None:
        kind: Any = type(self)
        for field in fields_of(kind):
            _check(field, getattr(self, field.name))
        self.agree()

    def agree(self) -> None:
        """Refuse inputs that do not go together; raises :class:`UsageError`."""

    def numbers(self) -> Numbers:
        """Return the inputs as exact numbers in base units."""
        kind: Any = type(self)
        return Numbers(**{field.name: _number(field, getattr(self, field.name)) for field in fields_of(kind)})


@cache
def fields_of(kind: Any) -> tuple[Field, ...]:
    """Return the inputs that a problem's class declares, in the order of the source."""
    hints = get_type_hints(kind, include_extras=True)
    return tuple(_field(field, hints[field.name].__metadata__[0]) for field in dataclasses.fields(kind))


def _field(field: dataclasses.Field[Any], declared: Given) -> Field:
    optional = field.default is not dataclasses.MISSING
    return Field(
        **{slot.name: getattr(declared, slot.name) for slot in dataclasses.fields(Given)},
        key=field.name.replace("_", "-"),
        optional=optional,
        default=field.default if optional else None,
    )


def make(kind: Any, values: Mapping[str, Any]) -> Any:
    """Make the inputs of a problem from values by key; a key that is missing or not known is a usage error."""
    fields = fields_of(kind)
    for key in values:
        if key not in {field.key for field in fields}:
            raise UsageError(
                say("“{key}” is not an input here. The inputs are {known}.", key=short(key), known=_keys(fields))
            )
    for field in fields:
        if not field.optional and field.key not in values:
            raise UsageError(
                say("{key} is missing. Give it, such as {key}={example}.", key=field.key, example=field.example)
            )
    return kind(**{key.replace("-", "_"): value for key, value in values.items()})


def read(kind: Any, texts: Mapping[str, str]) -> dict[str, Any]:
    """Read what a person or a file wrote for each key; raises with one sentence that names the key."""
    by_key = {field.key: field for field in fields_of(kind)}
    values: dict[str, Any] = {}
    for key, text in texts.items():
        if key not in by_key:
            known = _keys(tuple(by_key.values()))
            raise UsageError(say("“{key}” is not an input here. The inputs are {known}.", key=short(key), known=known))
        try:
            values[key] = _read_one(by_key[key], text)
        except UsageError as error:
            raise type(error)(say("{key}: {reason}", key=key, reason=str(error))) from error
    make(kind, values)
    return values


def short(text: str) -> str:
    """Return what was typed, printable and not too long, to be quoted in a sentence."""
    printable = "".join(character if character.isprintable() else "?" for character in text.strip())
    return printable if len(printable) <= 24 else printable[:24] + "…"


def _keys(fields: tuple[Field, ...]) -> str:
    return ", ".join(f"[{field.key}]" if field.optional else field.key for field in fields)


def _read_one(field: Field, text: str) -> Any:
    if field.dimension == "choice":
        return text.strip().lower()
    if field.dimension == "count":
        return _read_count(text)
    if field.dimension == "list":
        return tuple(units.parse(part, "time") for part in text.split(","))
    return units.parse(text, field.dimension, default_unit=field.bare_unit)


def _read_count(text: str) -> int:
    cleaned = text.strip()
    if not cleaned.isascii() or not cleaned.isdigit() or len(cleaned) > 6:
        raise BadQuantity(say("“{text}” is not a count. Type a whole number such as 2.", text=short(text)))
    return int(cleaned)


def _check(field: Field, value: Any) -> None:
    if value is None and field.optional:
        return
    if field.dimension == "choice":
        if value not in field.choices:
            _refuse(field, say("write one of {choices}.", choices=", ".join(field.choices)))
        return
    for number in _checked_numbers(field, value):
        if field.least is not None and number < field.least:
            _refuse(field, say("it must be {bound} or more.", bound=_bound(field, field.least)))
        if field.above is not None and number <= field.above:
            _refuse(field, say("it must be more than {bound}.", bound=_bound(field, field.above)))
        _check_plausible(field, number)


def _check_plausible(field: Field, number: Fraction | int) -> None:
    most = LARGEST.get(field.dimension) if field.most is None else field.most
    if most is not None and number > most:
        _refuse(field, say("it must be {bound} or less.", bound=_bound(field, most)))
    smallest = SMALLEST.get("time" if field.dimension == "list" else field.dimension)
    if smallest is not None and 0 < number < smallest:
        _refuse(field, say("it must be {bound} or more, or nought.", bound=_bound(field, smallest)))


def _checked_numbers(field: Field, value: Any) -> tuple[Fraction | int, ...]:
    if field.dimension == "count":
        if isinstance(value, bool) or not isinstance(value, int) or value < 0:
            _refuse(field, say("give a whole number such as 2."))
        return (value,)
    parts = value if field.dimension == "list" and isinstance(value, (list, tuple)) else (value,)
    dimension = "time" if field.dimension == "list" else field.dimension
    for part in parts:
        _check_quantity(field, part, dimension)
    return tuple(units.magnitude(part, units.BASE[dimension]) for part in parts)


def _check_quantity(field: Field, value: Any, dimension: str) -> None:
    if not units.is_quantity(value) or isinstance(value.magnitude, float):
        _refuse(field, say("give an exact quantity such as {example}.", example=field.example))
    if not units.has_dimension(value, dimension):
        _refuse(field, say("give a {dimension}, such as {example}.", dimension=dimension, example=field.example))
    if value.magnitude < 0:
        _refuse(field, say("it is less than nothing. Give 0 or more."))


def _refuse(field: Field, reason: Any) -> None:
    raise BadQuantity(say("{key}: {reason}", key=field.key, reason=str(reason)))


def _bound(field: Field, bound: Fraction | int) -> str:
    if field.dimension in {"count", "number"}:
        return str(bound)
    dimension = "time" if field.dimension == "list" else field.dimension
    return units.show(units.Q(bound, units.BASE[dimension]), units.BASE[dimension], 4)


def _number(field: Field, value: Any) -> Any:
    if value is None or field.dimension in {"choice", "count"}:
        return value
    if field.dimension == "list":
        return tuple(units.magnitude(part, "s") for part in value)
    return units.magnitude(value, units.BASE[field.dimension])
