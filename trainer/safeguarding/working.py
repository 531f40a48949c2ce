"""One run of a sum.

A sum is written once, as a function that asks a :class:`Working` for everything in which a person can slip: each
input, constant, term, table reading and rounding goes through it under a name, its *place*. A slip is a set of changes
to places, so the same function gives the right value and the wrong one.

:class:`Working` only computes. :class:`WrittenWorking` also writes the steps down.
"""

import re
from collections.abc import Callable, Mapping
from fractions import Fraction
from typing import Any

from trainer.safeguarding.cautions import UNVERIFIED
from trainer.safeguarding.result import Citation, Sense, Step
from trainer.safeguarding.rounding import GRIDS
from trainer.safeguarding.written import show_value, substitute
from trainer.units import BASE, Q
from trainer.wording import Sentence

Seen = dict[str, Any]
Change = Callable[[Any, Seen], Any]


class Refused(Exception):
    """Raised inside a sum where the rule gives no figure; the reason becomes the result."""

    def __init__(self, reason: Sentence) -> None:
        self.reason = reason
        super().__init__(reason)


class Working:
    """Computes, and applies the changes of a slip where their places are asked for.

    ``seen`` holds every named value so far; ``touched`` says whether a change made any difference.
    """

    written = False

    def __init__(self, changes: Mapping[str, Change] | None = None) -> None:
        self.changes = changes or {}
        self.seen: Seen = {}
        self.touched = False
        self.word: str | None = None
        self.sense: Any = None
        self.grid: Any = None
        self.cut = False  # a slip has rounded already

    def ask(self, place: str, value: Any) -> Any:
        """Return what stands at a place: ``value``, unless a slip puts something else there."""
        change = self.changes.get(place)
        if change is not None:
            changed = change(value, self.seen)
            self.touched = self.touched or changed != value
            value = changed
        self.seen[place] = value
        return value

    def resumed(self, changes: Mapping[str, Change] | None) -> "Working":
        """Return a working that goes on from here with other changes, and leaves this one as it is."""
        other = Working(changes)
        other.seen, other.touched, other.word = dict(self.seen), self.touched, self.word
        other.sense, other.grid = self.sense, self.grid
        return other

    def given(self, symbol: str, value: Any, dimension: str, label: str = "") -> Any:  # noqa: ARG002
        """Take an input under its symbol."""
        return self.ask(symbol, value)

    def constant(self, symbol: str, value: Any, dimension: str, label: str = "") -> Any:  # noqa: ARG002
        """Take a constant of the rule."""
        return self.ask(symbol, value)

    def step(self, symbol: str, label: str, formula: str, value: Any, dimension: str = "length") -> Any:  # noqa: ARG002
        """Take the result of one line of the working."""
        return self.ask(symbol, value)

    def bounds(self, sense: Sense, grid: str) -> None:
        """Say how this run's value bounds what is built and on which grid it is rounded, where that varies."""
        self.sense, self.grid = sense, GRIDS[grid][1]

    def term(self, name: str, value: Any, dimension: str = "length") -> None:
        """Keep a named quantity for drawings and feedback."""

    def from_memory(self, reason: Sentence, asked: str) -> None:
        """Go on only where what was not read in a source was asked for with ``yes``, and say so; else refuse."""
        if asked != "yes":
            raise Refused(reason)
        self.warn(UNVERIFIED)

    def warn(self, *sentences: Sentence) -> None:
        """Keep what to beware of."""

    def cite(self, *citations: Citation) -> None:
        """Keep where the rule is written."""


class WrittenWorking(Working):
    """Computes and writes down each step with its symbols and numbers, in one unit system (``mm`` or ``inch``)."""

    written = True

    def __init__(self, changes: Mapping[str, Change] | None = None, system: str = "mm") -> None:
        super().__init__(changes)
        self.system = system
        self.inputs: list[Step] = []
        self.steps: list[Step] = []
        self.terms: dict[str, Any] = {}
        self.warnings: list[Sentence] = []
        self.citations: list[Citation] = []
        self.quantities: dict[str, Any] = {}

    def given(self, symbol: str, value: Any, dimension: str, label: str = "") -> Any:
        """Take an input under its symbol, and list it."""
        value = super().given(symbol, value, dimension, label)
        self.inputs.append(self._line(symbol, label, "", value, dimension))
        return value

    def constant(self, symbol: str, value: Any, dimension: str, label: str = "") -> Any:
        """Take a constant of the rule, and list it beside the inputs."""
        known = symbol in self.quantities
        value = super().constant(symbol, value, dimension, label)
        line = self._line(symbol, label, "", value, dimension)
        if not known:
            self.inputs.append(line)
        return value

    def step(self, symbol: str, label: str, formula: str, value: Any, dimension: str = "length") -> Any:
        """Take the result of one line of the working, and write the line."""
        value = super().step(symbol, label, formula, value, dimension)
        self.steps.append(self._line(symbol, label, formula, value, dimension))
        return value

    def term(self, name: str, value: Any, dimension: str = "length") -> None:
        """Keep a named quantity for drawings and feedback."""
        self.terms[name] = _quantity(value, dimension)

    def warn(self, *sentences: Sentence) -> None:
        """Keep what to beware of, each once."""
        self.warnings.extend(sentence for sentence in sentences if sentence not in self.warnings)

    def cite(self, *citations: Citation) -> None:
        """Keep where the rule is written, each once."""
        self.citations.extend(citation for citation in citations if citation not in self.citations)

    def _line(self, symbol: str, label: str, formula: str, value: Any, dimension: str) -> Step:
        uses = {name: self.quantities[name] for name in re.findall(r"[A-Za-zΔ]\w*", formula) if name in self.quantities}
        quantity = self.quantities[symbol] = _quantity(value, dimension)
        return Step(
            symbol=symbol,
            label=label,
            formula=formula,
            substituted=substitute(formula, uses, dimension, self.system),
            value=quantity,
            shown=show_value(quantity, dimension, self.system),
            dimension=dimension,
            uses=uses,
        )


def _quantity(value: Any, dimension: str) -> Any:
    if dimension == "list":
        return tuple(Q(part, "s") for part in value)
    return Q(value, BASE[dimension]) if isinstance(value, (Fraction, int)) and dimension in BASE else value
