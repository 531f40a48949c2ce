"""Formulas of a worked solution as expressions of the standard, and what such an expression comes to.

A worked solution writes each step in its source's symbols (``D_pf = 3.4 × (O_s − 0.276 in)``). What is plain arithmetic
in that can be said in the standard's own expressions; a table, a part begun or a choice of rule cannot.
"""

import math
import operator
import re
from collections.abc import Callable, Mapping
from fractions import Fraction
from operator import itemgetter

from trainer import units
from trainer.exports.qti.node import Node, node

TOKEN = re.compile(r"\s*(?:(?P<number>\d+(?:\.\d+)?)|(?P<name>[^\W\d]\w*(?:/[a-z]+)?)|(?P<sign>[+−×÷/(),]))")
SIGNS = {"+": "qti-sum", "−": "qti-subtract", "×": "qti-product", "÷": "qti-divide", "/": "qti-divide"}
FUNCTIONS = {"max": "qti-max", "min": "qti-min"}
Reckon = Callable[[Mapping[str, float]], float]
DECIMALS = 12  # of a number written out; one that has more is written as a division


class NotPlain(ValueError):
    """A formula is more than sums, products and the larger of two."""


def variable(name: str) -> Node:
    """Return the value of a variable."""
    return node("qti-variable", identifier=name)


def number(value: Fraction) -> Node:
    """Return an exact number as a constant, or as a division where its decimals do not end."""
    scaled = value * 10**DECIMALS
    if scaled.denominator == 1:
        return node("qti-base-value", units.digits(value, DECIMALS), base_type="float")
    return node("qti-divide", number(Fraction(value.numerator)), number(Fraction(value.denominator)))


def scaled(value: Node, by: Fraction) -> Node:
    """Return a value times a number, as few steps as it takes."""
    if by == 1:
        return value
    times = value if by.numerator == 1 else node("qti-product", value, number(Fraction(by.numerator)))
    return times if by.denominator == 1 else node("qti-divide", times, number(Fraction(by.denominator)))


def expression(formula: str, symbols: Mapping[str, Node]) -> Node:
    """Return a formula as an expression in base units; :class:`NotPlain` where it is more than plain arithmetic."""
    return _Formula(formula, symbols).whole()


class _Formula:
    """A formula being read from left to right."""

    def __init__(self, formula: str, symbols: Mapping[str, Node]) -> None:
        self.symbols, self.tokens, end = symbols, list[tuple[str, str]](), 0
        while end < len(formula.rstrip()):
            found = TOKEN.match(formula, end)
            if found is None or found.lastgroup is None:
                raise NotPlain(formula)
            self.tokens.append((found.lastgroup, found[found.lastgroup]))
            end = found.end()

    def whole(self) -> Node:
        """Return all of it."""
        made = self._sum()
        if self.tokens:
            raise NotPlain(self.tokens[0][1])
        return made

    def _chain(self, signs: str, part: Callable[[], Node]) -> Node:
        made = part()
        while self.tokens and self.tokens[0][1] in signs:
            made = node(SIGNS[self.tokens.pop(0)[1]], made, part())
        return made

    def _sum(self) -> Node:
        return self._chain("+−", lambda: self._chain("×÷/", self._single))

    def _single(self) -> Node:
        kind, text = self.tokens.pop(0) if self.tokens else ("", "")
        if kind == "number":
            unit = self.tokens.pop(0)[1] if self.tokens and self.tokens[0][0] == "name" else ""
            return number(_constant(text, unit))
        if text == "(":
            return self._until_closed(self._sum())
        if text in FUNCTIONS and self._next("("):
            parts = [self._sum()]
            while self._next(","):
                parts.append(self._sum())
            return self._until_closed(node(FUNCTIONS[text], *parts))
        if kind != "name" or text not in self.symbols or (self.tokens and self.tokens[0][1] == "("):
            raise NotPlain(text)
        return self.symbols[text]

    def _next(self, sign: str) -> bool:
        found = bool(self.tokens) and self.tokens[0][1] == sign
        if found:
            self.tokens.pop(0)
        return found

    def _until_closed(self, made: Node) -> Node:
        if not self._next(")"):
            raise NotPlain(")")
        return made


def _constant(text: str, unit: str) -> Fraction:
    """Return a number of a formula in base units."""
    for dimension, spellings in units.SPELLINGS.items():
        if unit.lower() in spellings:
            return units.magnitude(units.parse(f"{text} {unit}".strip(), dimension), units.BASE[dimension])
    raise NotPlain(unit)


def compiled(one: Node) -> Reckon:
    """Return an expression as a function of its variables, reckoned as a player of the standard does: in binary floats."""
    if one.name == "qti-variable":
        return itemgetter(one.get("identifier"))
    if one.name == "qti-base-value":
        value = float(one.text())
        return lambda _values: value
    parts = [compiled(child) for child in one.children if isinstance(child, Node)]
    if one.name == "qti-round-to":
        (inner,), figures = parts, int(one.get("figures"))
        return lambda values: round(inner(values), figures)
    if len(parts) == 2 and one.name in _OF_TWO:
        (first, second), of_two = parts, _OF_TWO[one.name]
        return lambda values: of_two(first(values), second(values))
    of_all = _OF_ALL[one.name]
    return lambda values: of_all([part(values) for part in parts])


_OF_TWO: Mapping[str, Callable[[float, float], float]] = {
    "qti-sum": operator.add,
    "qti-product": operator.mul,
    "qti-subtract": operator.sub,
    "qti-divide": operator.truediv,
}
_OF_ALL: Mapping[str, Callable[[list[float]], float]] = {
    "qti-max": max,
    "qti-min": min,
    "qti-integer-to-float": lambda parts: float(parts[0]),
    "qti-truncate": lambda parts: float(math.trunc(parts[0])),
}
