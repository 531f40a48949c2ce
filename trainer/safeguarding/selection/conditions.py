"""The questions that rules ask of the facts, and how they are joined.

A question answers yes or no, or raises :class:`~trainer.safeguarding.selection.facts.Unknown` where it has to read a
fact that nobody knows. ``a & b`` reads from left to right and stops at the first no. ``a | b`` is certain as soon as
either says yes, so that a fact which condemns goes on condemning whatever else is unknown.
"""

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

from trainer.safeguarding.selection.facts import FACTS, Facts, Kind, Unknown
from trainer.safeguarding.selection.rulesets import RuleSet

Ask = Callable[[Facts, RuleSet], bool]


@dataclass(frozen=True, slots=True)
class Condition:
    """One yes/no question; ``reads`` names every fact that it may have to read."""

    ask: Ask
    reads: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        wrong = [key for key in self.reads if key not in FACTS]
        if wrong:
            raise ValueError(f"no such fact: {', '.join(wrong)}")

    def __call__(self, facts: Facts, rule_set: RuleSet) -> bool:
        """Answer, or raise :class:`Unknown` with the facts that stand in the way."""
        return self.ask(facts, rule_set)

    def __and__(self, other: "Condition") -> "Condition":
        return Condition(lambda facts, by: self(facts, by) and other(facts, by), self.reads + other.reads)

    def __or__(self, other: "Condition") -> "Condition":
        return Condition(lambda facts, by: _either(self, other, facts, by), self.reads + other.reads)

    def __invert__(self) -> "Condition":
        return Condition(lambda facts, by: not self(facts, by), self.reads)


def _either(first: Condition, second: Condition, facts: Facts, by: RuleSet) -> bool:
    try:
        if first(facts, by):
            return True
    except Unknown as gap:
        if _unless_unknown(second, facts, by, gap):
            return True
        raise
    return second(facts, by)


def _unless_unknown(condition: Condition, facts: Facts, by: RuleSet, gap: Unknown) -> bool:
    try:
        return condition(facts, by)
    except Unknown as other:
        raise Unknown(*gap.keys, *other.keys) from other


ALWAYS = Condition(lambda _facts, _by: True)


def has(key: str, *words: str) -> Condition:
    """Ask whether a fact is one of these words."""
    wrong = [word for word in words if word not in FACTS[key].choices]
    if wrong or not words:
        raise ValueError(f"{key} is never {', '.join(wrong)}")
    return Condition(lambda facts, _by: facts[key] in words, (key,))


def more_than(key: str, limit: Fraction | int) -> Condition:
    """Ask whether a number is greater than a limit (mm, or pieces and people)."""
    return _number(key, lambda number, _by: number > limit)


def within(key: str, limit: Fraction | int) -> Condition:
    """Ask whether a length is this many mm or less."""
    return _number(key, lambda number, _by: number <= limit)


def nearer_than(key: str, limit: Fraction | int) -> Condition:
    """Ask whether a length is less than this many mm."""
    return _number(key, lambda number, _by: number < limit)


def above_small_gap(key: str) -> Condition:
    """Ask whether a finger fits an opening: 6.35 mm in the US, 6 mm internationally."""
    return _number(key, lambda number, by: number > by.small_gap)


def too_coarse(key: str) -> Condition:
    """Ask whether a field with this resolution no longer sees a hand."""
    return _number(key, lambda number, by: by.too_coarse(number))


def too_near(at: str, needs: str) -> Condition:
    """Ask whether what stands ``at`` a distance stands nearer than what was worked out for it."""
    return between(at, needs, lambda have, need, by: by.too_near(have, need))


def between(first: str, second: str, ask: Callable[[Fraction, Fraction, RuleSet], bool]) -> Condition:
    """Ask a question of two numbers."""
    return Condition(lambda facts, by: ask(number(facts, first), number(facts, second), by), (first, second))


def number(facts: Facts, key: str) -> Fraction:
    """Return a fact that is a number: mm, or a count."""
    value = facts[key]
    if not isinstance(value, Fraction):
        raise TypeError(f"{key} is not a number")
    return value


def _number(key: str, ask: Callable[[Fraction, RuleSet], bool]) -> Condition:
    if FACTS[key].kind is Kind.CHOICE:
        raise ValueError(f"{key} is not a number")
    return Condition(lambda facts, by: ask(number(facts, key), by), (key,))
