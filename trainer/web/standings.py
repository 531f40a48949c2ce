"""How a standing looks and is called: the same four marks and words on every sheet of desk and office."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from trainer.exports import words
from trainer.records.standing import Reason, Standing, StandingWord
from trainer.web.words import _, _l
from trainer.wording import Sentence

ROLES = MappingProxyType({key: _l(text) for key, text in words.ROLES.items()})


@dataclass(frozen=True, slots=True, kw_only=True)
class Shape:
    """The mark of a standing (``solid``, ``hatched``, ``struck``, ``broken``) and its words."""

    mark: str
    words: object


# In the order of words.STANDINGS: from what lets a person run the machine to what nobody knows anything of.
SHAPES: Mapping[StandingWord, Shape] = MappingProxyType(
    {word: Shape(mark=words.MARKS[word], words=_l(text)) for word, text in words.STANDINGS.items()}
)
ORDER = {word: place for place, word in enumerate(SHAPES)}
BLOCKED_FIRST = {word: -place for word, place in ORDER.items()} | {StandingWord.NO_EVIDENCE: 1}


def role_name(role: str) -> str:
    """Return the name of a role at a machine."""
    return str(ROLES.get(role, role))


@dataclass(frozen=True, slots=True, kw_only=True)
class StandingRow:
    """One machine and role of a person, as the sheets about one person show it."""

    machine: str
    role: str
    mark: str
    label: str
    reasons: tuple[Reason, ...]
    lacks: tuple[Sentence, ...]
    until: str
    days: str


def told_standings(standings: Iterable[Standing]) -> list[Standing]:
    """Put a person's standings in the order they are told: what blocks first, what nobody knows last."""
    return sorted(standings, key=lambda one: (BLOCKED_FIRST[one.word], one.machine, one.role))


def any_of(choices: Iterable[tuple[str, object]], words: str = "") -> tuple[tuple[str, str], ...]:
    """Return the choices of a blank with "any" before them."""
    return (("", words or _("any")), *((value, str(label)) for value, label in choices))


KINDS = MappingProxyType({key: _l(text) for key, text in words.MACHINES.items()})


def kind_name(kind: str) -> str:
    """Return the name of a kind of machine."""
    return str(KINDS.get(kind, kind))
