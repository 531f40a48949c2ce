"""Questions that a file leaves open, each with the readings that are possible, and the answers given so far."""

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

from trainer.findings import Finding
from trainer.wording import Sentence


@dataclass(frozen=True, slots=True)
class Choice:
    """One possible reading; ``value`` is the answer that picks it."""

    value: str
    sentence: Sentence


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """Something only a person can settle. With ``takes_day`` a day such as 2026-03-09 is an answer too."""

    id: str
    sentence: Sentence
    choices: tuple[Choice, ...]
    line: int = 0
    takes_day: bool = False

    def accepts(self, answer: str) -> bool:
        """Say whether an answer picks one of the readings."""
        return any(answer == choice.value for choice in self.choices) or (self.takes_day and as_day(answer) is not None)


@dataclass(slots=True)
class Asked:
    """Collects the questions of one run. ``answers`` are by question id."""

    answers: Mapping[str, str] = field(default_factory=dict)
    open: list[Question] = field(default_factory=list)
    settled: dict[str, str] = field(default_factory=dict)

    def ask(self, question: Question) -> str | None:
        """Return the answer, or None after noting that the question is open; an answer it does not know is none."""
        given = self.answers.get(question.id, "").strip()
        if question.accepts(given):
            self.settled[question.id] = given
            return given
        self.open.append(question)
        return None


class Stop(Exception):
    """Reading cannot go on: a question has to be answered first, or the file cannot be used."""

    def __init__(self, *findings: Finding) -> None:
        super().__init__(*findings)
        self.findings = findings


def as_day(text: str) -> date | None:
    """Return the day that an answer such as 2026-03-09 names, else None."""
    if not re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", text):
        return None
    try:
        return date.fromisoformat(text)
    except ValueError:
        return None
