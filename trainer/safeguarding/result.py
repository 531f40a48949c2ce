"""What every calculator returns: the value, how it came about, where that is written, and what to beware of."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from fractions import Fraction
from types import MappingProxyType
from typing import Any

from trainer.wording import Sentence


class Sense(StrEnum):
    """How the value bounds what is built: decides which way it is rounded and what "short" means."""

    AT_LEAST = "at-least"  # a distance: what is built is not less than this; rounded up
    MORE_THAN = "more-than"  # a distance: what is built is greater than this; the next step above
    AT_MOST = "at-most"  # a time or an opening: what is there is not more than this; rounded down
    LESS_THAN = "less-than"  # a time that stays below; the next step below
    VALUE = "value"  # a plain figure, such as a force; rounded up where that is the safe side


class Read(StrEnum):
    """How a source was read; shown beside every citation."""

    ORIGINAL = "original"
    STATE = "state-copy"
    SECOND_HAND = "second-hand"
    PRACTICE = "common-practice"
    MEMORY = "from-memory"


@dataclass(frozen=True, slots=True, kw_only=True)
class Citation:
    """Where a rule or figure is written: document, clause, year, and how it was read."""

    document: str
    clause: str = ""
    year: str = ""
    read: Read = Read.ORIGINAL

    def __str__(self) -> str:
        joint = " " if self.clause.startswith("(") or not self.clause else ", "
        name = f"{self.document}{joint}{self.clause}".strip()
        name = f"{name} ({self.year})" if self.year else name
        return name if self.read is Read.ORIGINAL else f"{name} [{self.read.value.replace('-', ' ')}]"


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One line of the working.

    ``label`` is an English message ("Time to stop"); ``formula`` and ``substituted`` are in the source's own symbols,
    with an index after an underscore (``T_s + T_c``), and say the same in every language. ``symbol`` names the result
    of the step, ``shown`` is its value as printed, ``value`` the exact quantity (or a word, a count). ``uses`` holds the
    quantity behind each symbol of ``formula``, so that the line can be written again in the other unit system. A given
    input is a step without a formula.
    """

    symbol: str
    label: str
    formula: str
    substituted: str
    value: Any
    shown: str
    dimension: str = "number"
    uses: Mapping[str, Any] = field(default_factory=lambda: MappingProxyType({}))


@dataclass(frozen=True, slots=True, kw_only=True)
class Worked:
    """A result with its working.

    ``value`` is exact and ``rounded`` is what to build to, on the safe side, in ``unit``; both are None where the
    answer is a refusal (``refusal`` says why) or a word (``word``). ``terms`` holds the named intermediate
    quantities that drawings and feedback read, such as ``total-time``, ``travel``, ``allowance``. ``given`` lists the
    inputs, ``symbol`` names the value, ``grid`` the step that the value is rounded to for each unit it may be shown in.
    """

    problem: str
    sense: Sense
    unit: str
    title: str = ""
    symbol: str = ""
    given: tuple[Step, ...] = ()
    grid: Mapping[str, Fraction] = field(default_factory=lambda: MappingProxyType({}))
    value: Any | None = None
    rounded: Any | None = None
    word: str | None = None
    refusal: Sentence | None = None
    steps: tuple[Step, ...] = ()
    citations: tuple[Citation, ...] = ()
    warnings: tuple[Sentence, ...] = ()
    terms: Mapping[str, Any] = field(default_factory=lambda: MappingProxyType({}))
