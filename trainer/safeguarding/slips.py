"""Slips: named changes of a problem that lead a person to a wrong figure.

A slip never holds a formula of its own. It says what stands at one or more *places* of the one formula instead of the
right thing: a term left out, another constant, the wrong table row, the number of the other unit.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any

from trainer.safeguarding.working import Change, Seen
from trainer.wording import mark

INCH = Fraction("25.4")  # mm, exact
AT_THE_END = frozenset({"answer", "rounding"})  # the places that are asked for after the sum


@dataclass(frozen=True, slots=True, kw_only=True)
class Slip:
    """One mistake that people make.

    ``title`` says it of somebody ("Leaves out …"), ``tell`` to the person ("You left out …"); ``symbol`` is the step
    of the working where it goes wrong. ``changes`` maps places to what the mistake puts there.
    """

    code: str
    title: str
    tell: str
    symbol: str
    changes: Mapping[str, Change]

    @property
    def at_the_end(self) -> bool:
        """Say whether it is made only after the sum: in the unit of the answer or in its rounding."""
        return self.changes.keys() <= AT_THE_END


def together(slips: Sequence[Slip]) -> dict[str, Change]:
    """Return the changes of several slips at once; where two meet at one place the later acts on the earlier."""
    merged: dict[str, Change] = {}
    for slip in slips:
        for place, change in slip.changes.items():
            before = merged.get(place)
            merged[place] = change if before is None else _after(before, change)
    return merged


def _after(before: Change, change: Change) -> Change:
    return lambda value, seen: change(before(value, seen), seen)


def becomes(other: Any) -> Change:
    """Put a fixed thing at a place."""
    return lambda _value, _seen: other


def times(factor: Fraction | int) -> Change:
    """Multiply what stands at a place."""
    return lambda value, _seen: value * factor


def plus(amount: Fraction | int) -> Change:
    """Add to what stands at a place."""
    return lambda value, _seen: value + amount


def swap_for(symbol: str) -> Change:
    """Put the value of another symbol there."""
    return lambda _value, seen: seen[symbol]


@dataclass(frozen=True, slots=True)
class Cut:
    """A wrong rounding: to which step for each unit (else the answer's own), down or up."""

    steps: Mapping[str, Fraction]
    up: bool = False


NO_TERM = becomes(Fraction(0))


def leaves_out(symbol: str, code: str, title: str, tell: str) -> Slip:
    """Return the slip of forgetting one term of a sum."""
    return Slip(code=code, title=title, tell=tell, symbol=symbol, changes={symbol: NO_TERM})


def time_slips(*symbols: str) -> tuple[Slip, ...]:
    """Return the slips of reading milliseconds wrongly, for the times of a problem."""
    return (
        Slip(
            code="milliseconds-as-hundredths",
            title=mark("Reads milliseconds as hundredths of a second"),
            tell=mark("You divided the milliseconds by 100. A second has 1000 milliseconds."),
            symbol=symbols[0],
            changes=dict.fromkeys(symbols, times(10)),
        ),
        Slip(
            code="milliseconds-as-seconds",
            title=mark("Takes milliseconds for seconds"),
            tell=mark("You used milliseconds as if they were seconds. Divide them by 1000 first."),
            symbol=symbols[0],
            changes=dict.fromkeys(symbols, times(1000)),
        ),
    )


UNIT_SLIPS = (
    Slip(
        code="inches-as-millimetres",
        title=mark("Writes the number of inches as millimetres"),
        tell=mark("Your number is right in inches, but you wrote it as millimetres. One inch is 25.4 mm."),
        symbol="answer",
        changes={"answer": times(1 / INCH)},
    ),
    Slip(
        code="millimetres-as-inches",
        title=mark("Writes the number of millimetres as inches"),
        tell=mark("Your number is right in millimetres, but you wrote it as inches. One inch is 25.4 mm."),
        symbol="answer",
        changes={"answer": times(INCH)},
    ),
)
ROUNDING_SLIPS = (
    Slip(
        code="rounds-down",
        title=mark("Rounds a least distance down"),
        tell=mark("You rounded down. A least distance is always rounded up."),
        symbol="answer",
        changes={"rounding": becomes(Cut({"mm": Fraction(1), "inch": Fraction(1, 4)}))},
    ),
    Slip(
        code="rounds-down-far",
        title=mark("Rounds a least distance down to a round figure"),
        tell=mark("You rounded down to a round figure. A least distance is always rounded up."),
        symbol="answer",
        changes={"rounding": becomes(Cut({"mm": Fraction(10), "inch": Fraction(1)}))},
    ),
)
# On the regulator's chart distances go by half inches.
CHART_ROUNDING_SLIPS = (
    replace(ROUNDING_SLIPS[0], changes={"rounding": becomes(Cut({"mm": Fraction(1), "inch": Fraction(1, 2)}))}),
    ROUNDING_SLIPS[1],
)
DISTANCE_SLIPS = (*UNIT_SLIPS, *ROUNDING_SLIPS)


def pick(value: Any) -> Change:
    """Return a change that is computed from what has been seen so far."""
    return lambda _value, seen: value(seen)


__all__ = [
    "CHART_ROUNDING_SLIPS",
    "DISTANCE_SLIPS",
    "INCH",
    "NO_TERM",
    "ROUNDING_SLIPS",
    "UNIT_SLIPS",
    "Change",
    "Cut",
    "Seen",
    "Slip",
    "becomes",
    "leaves_out",
    "pick",
    "plus",
    "swap_for",
    "time_slips",
    "times",
    "together",
]
