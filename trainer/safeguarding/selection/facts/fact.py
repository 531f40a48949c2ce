"""One fact about a machine, a set-up, a part or a crew: what it asks, and what it may be."""

import difflib
import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from fractions import Fraction
from types import MappingProxyType

from trainer import units
from trainer.errors import UsageError
from trainer.safeguarding.inputs import short
from trainer.wording import Sentence, mark, say

UNKNOWN = "unknown"
Value = str | Fraction

_PLAIN = re.compile(r"[0-9]{1,7}(\.[0-9]{1,6})?")
_WHOLE = re.compile(r"[0-9]{1,6}")
_LONGEST = Fraction(100_000)  # mm; no press brake is 100 m long


class Kind(StrEnum):
    """How a fact is given: one of a few words, a length in mm, or a whole number."""

    CHOICE = "choice"
    LENGTH = "mm"
    COUNT = "count"


@dataclass(frozen=True, slots=True, kw_only=True)
class Fact:
    """What may be known about the job.

    ``meaning`` (message) names it; ``choices`` maps each allowed word to the message that says it in the shop's words;
    ``find_out`` (message) says that it is not known and by which check it becomes known.
    """

    key: str
    meaning: str
    find_out: str
    kind: Kind = Kind.CHOICE
    choices: Mapping[str, str] = field(default_factory=lambda: MappingProxyType({}))
    least: int = 0

    @property
    def allowed(self) -> tuple[str, ...]:
        """Return what may be written for the fact, ``unknown`` last."""
        words = tuple(self.choices) or (f"<{self.kind.value}>",)
        return (*words, UNKNOWN)

    def read(self, text: str) -> Value | None:
        """Read a value as typed: the word, the number of mm or the count; None where it is unknown.

        Raises :class:`UsageError` with one sentence that names the fact and what may be written.
        """
        text = text.strip()
        if text == UNKNOWN:
            return None
        if self.kind is Kind.CHOICE:
            return self._choice(text)
        return self._length(text) if self.kind is Kind.LENGTH else self._count(text)

    def told(self, value: Value | None) -> Sentence:
        """Say a value in the shop's words; the number keeps its unit."""
        if value is None:
            return say("not known")
        if isinstance(value, str):
            return say(self.choices[value])
        number = units.digits(value, 2)
        return say("{number} mm", number=number) if self.kind is Kind.LENGTH else say("{number}", number=number)

    def _choice(self, text: str) -> str:
        if text in self.choices:
            return text
        near = difflib.get_close_matches(text, self.allowed, n=1)
        raise UsageError(
            say(
                "{key} cannot be “{text}”{hint}; it is one of: {allowed}.",
                key=self.key,
                text=short(text),
                hint=f" (nearest: {near[0]})" if near else "",
                allowed=", ".join(self.allowed),
            )
        )

    def _length(self, text: str) -> Fraction:
        try:
            number = Fraction(text) if _PLAIN.fullmatch(text) else _with_unit(text)
        except UsageError as error:
            raise self._refused(text) from error
        if number > _LONGEST:
            raise self._refused(text)
        return number

    def _count(self, text: str) -> Fraction:
        if not _WHOLE.fullmatch(text) or int(text) < self.least:
            raise self._refused(text)
        return Fraction(int(text))

    def _refused(self, text: str) -> UsageError:
        if self.kind is Kind.LENGTH:
            message = mark("{key} cannot be “{text}”; it is a number of millimetres such as 350, or unknown.")
        else:
            message = mark("{key} cannot be “{text}”; it is a whole number from {least} to 999999, or unknown.")
        return UsageError(say(message, key=self.key, text=short(text), least=self.least))


def _with_unit(text: str) -> Fraction:
    return units.magnitude(units.parse(text, "length", default_unit="mm"), "mm")


def choice(key: str, meaning: str, find_out: str, **choices: str) -> Fact:
    """Make a fact that is one of a few words."""
    return Fact(key=key, meaning=meaning, find_out=find_out, choices=MappingProxyType(choices))


def length(key: str, meaning: str, find_out: str) -> Fact:
    """Make a fact that is a number of millimetres."""
    return Fact(key=key, meaning=meaning, find_out=find_out, kind=Kind.LENGTH)


def count(key: str, meaning: str, find_out: str) -> Fact:
    """Make a fact that is a whole number of at least one."""
    return Fact(key=key, meaning=meaning, find_out=find_out, kind=Kind.COUNT, least=1)
