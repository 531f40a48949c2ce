"""Sentences that are made in one place and shown in the reader's language in another.

The layers below the doors never translate. They hand up a :class:`Sentence`: an English message with named places
and the values for them. A door looks the message up in its catalogue and fills the places; a command prints it as it
stands.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType


@dataclass(frozen=True, slots=True)
class Sentence:
    """One message.

    ``text`` is the English message with ``{named}`` places, which is also its key in the catalogues. ``values`` fills
    the places; numbers in it are already shown with their unit and a decimal point.
    """

    text: str
    values: Mapping[str, str | int] = field(default_factory=lambda: MappingProxyType({}))

    def __str__(self) -> str:
        return self.text.format(**self.values)

    def __hash__(self) -> int:
        return hash((self.text, tuple(sorted((key, str(value)) for key, value in self.values.items()))))

    def __reduce__(self) -> tuple[object, tuple[str, dict[str, str | int]]]:
        return _rebuild, (self.text, dict(self.values))


def _rebuild(text: str, values: dict[str, str | int]) -> Sentence:
    return Sentence(text, MappingProxyType(values))


def say(text: str, /, **values: str | int) -> Sentence:
    """Make a sentence; ``say("Short by {gap}.", gap="12 mm")``."""
    return Sentence(text, MappingProxyType(values))


def mark(text: str) -> str:
    """Return ``text`` unchanged; marks it for the catalogues where it is a constant."""
    return text
