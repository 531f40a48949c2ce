"""The blanks of an act, and what was typed into them."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from typing import Literal

from trainer.errors import UsageError
from trainer.web.days import read_day, read_last_day
from trainer.wording import Sentence, say

LONGEST = 500  # characters of one blank
Kind = Literal["day", "text", "long", "choice", "ticks"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Blank:
    """One blank: its name in the form, its label, how it is drawn, what stands in it."""

    name: str
    label: str
    kind: Kind
    choices: tuple[tuple[str, str], ...] = ()
    hint: str = ""
    value: str = ""
    ticked: frozenset[str] = frozenset()

    def filled(self, given: "Given") -> "Blank":
        """Return the blank with what was typed or ticked."""
        if self.kind == "ticks":
            return replace(self, ticked=frozenset(given.many(self.name)))
        return replace(self, value=given.raw(self.name) or self.value)


@dataclass(frozen=True, slots=True, kw_only=True)
class Given:
    """What was typed and ticked so far, by the names of the blanks."""

    texts: Mapping[str, str]
    lists: Mapping[str, Sequence[str]] = field(default_factory=dict)

    def raw(self, name: str) -> str:
        """Return a text as it was typed, none longer than a person would type."""
        return self.texts.get(name, "")[: 2 * LONGEST]

    def text(self, name: str, missing: Sentence) -> str:
        """Return a text on one line; :class:`UsageError` with ``missing`` for none, or for one that is too long."""
        plain = " ".join(self.raw(name).split())
        if not plain:
            raise UsageError(missing)
        if len(plain) > LONGEST:
            raise UsageError(
                say("That is {count} characters long. Use at most {most}.", count=len(plain), most=LONGEST)
            )
        return plain

    def reason(self) -> str:
        """Return why it is done."""
        return self.text("reason", say("Say why; the reason stays on the record."))

    def day(self, name: str, today: date) -> date:
        """Return a day that has come; nothing typed means today."""
        return read_last_day(self.raw(name), today=today)

    def later(self, name: str, today: date, missing: Sentence) -> date:
        """Return a day that may lie ahead; :class:`UsageError` with ``missing`` for none."""
        if not self.raw(name).strip():
            raise UsageError(missing)
        return read_day(self.raw(name), today=today)

    def one_of(self, name: str, allowed: Iterable[str], missing: Sentence) -> str:
        """Return what was chosen of a list."""
        found = self.raw(name)
        if found not in set(allowed):
            raise UsageError(missing)
        return found

    def many(self, name: str) -> list[str]:
        """Return what was ticked."""
        return [str(value)[:LONGEST] for value in self.lists.get(name, ())]

    def some(self, name: str, allowed: Iterable[str], missing: Sentence) -> list[str]:
        """Return what was ticked of a list, at least one."""
        found = [one for one in allowed if one in set(self.many(name))]
        if not found:
            raise UsageError(missing)
        return found
