"""What may be known about a machine, a set-up, a part and a crew; and what is known of one job."""

import difflib
from collections.abc import Iterator, Mapping
from types import MappingProxyType

from trainer.errors import UsageError
from trainer.safeguarding.inputs import short
from trainer.safeguarding.selection.facts.fact import UNKNOWN, Fact, Kind, Value
from trainer.safeguarding.selection.facts.fields import FIELDS
from trainer.safeguarding.selection.facts.guards import GUARDS
from trainer.safeguarding.selection.facts.job import JOB
from trainer.safeguarding.selection.facts.machine import MACHINE
from trainer.wording import say

__all__ = ["FACTS", "UNKNOWN", "Fact", "Facts", "Kind", "Unknown", "Value", "read_facts"]

FACTS: Mapping[str, Fact] = MappingProxyType({fact.key: fact for fact in (*MACHINE, *FIELDS, *GUARDS, *JOB)})


class Unknown(KeyError):
    """A fact was asked for that nobody knows. ``keys`` names it, or each of several that would have answered."""

    def __init__(self, *keys: str) -> None:
        super().__init__(*keys)
        self.keys = keys


class Facts(Mapping[str, Value]):
    """What is known of one job. Asking for what is not known raises :class:`Unknown`; nothing is ever assumed."""

    def __init__(self, known: Mapping[str, Value]) -> None:
        self._known = dict(known)

    def __getitem__(self, key: str) -> Value:
        if key not in self._known:
            raise Unknown(key)
        return self._known[key]

    def __iter__(self) -> Iterator[str]:
        return (key for key in FACTS if key in self._known)

    def __len__(self) -> int:
        return len(self._known)

    def without(self, *keys: str) -> "Facts":
        """Return the same facts with these no longer known."""
        return Facts({key: value for key, value in self._known.items() if key not in keys})


def read_facts(texts: Mapping[str, str]) -> Facts:
    """Read facts as typed: the sheet's keys with a word, a number of mm, a count, or ``unknown``.

    Raises :class:`UsageError` with one sentence for the first key or value that does not exist.
    """
    read = {key: _fact(key).read(str(text)) for key, text in texts.items()}
    return Facts({key: value for key, value in read.items() if value is not None})


def _fact(key: str) -> Fact:
    if key in FACTS:
        return FACTS[key]
    near = difflib.get_close_matches(key, FACTS, n=1)
    raise UsageError(
        say(
            "There is no fact “{key}”{hint}; the facts are: {known}.",
            key=short(key),
            hint=f" (nearest: {near[0]})" if near else "",
            known=", ".join(FACTS),
        )
    )
