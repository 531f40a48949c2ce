"""What the sheets beside a sitting show, as data: asking somebody, an answer, one's own record."""

from dataclasses import dataclass
from typing import Any

from trainer.web.kiosk.pages import Frame
from trainer.wording import Sentence


@dataclass(frozen=True, slots=True, kw_only=True)
class AskPage:
    """Ask somebody: what is wanted, in one's own words where there is a keyboard, and who answers."""

    frame: Frame
    form: Any
    who: str
    about: str
    refusal: Sentence | str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class AnswerPage:
    """An answer to a question: what was asked and when, who answered what and when."""

    frame: Frame
    number: int
    asked: str
    asked_at: str
    answers: tuple[tuple[str, str, str], ...]
    more: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """One machine and role: since when each part is passed, until when it holds, and what one may do."""

    machine: str
    role: str
    state: str
    theory: str
    practical: str
    until: str
    may: bool
    url: str


@dataclass(frozen=True, slots=True, kw_only=True)
class RecordPage:
    """My record: where one stands at each machine with its dates, and what is open."""

    frame: Frame
    rows: tuple[Held, ...]
    more: int
    open: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class WrittenPage:
    """What is written about one: entries, the newest first, and the neighbouring sheets; 0 where there is none."""

    frame: Frame
    rows: tuple[tuple[str, str, Sentence], ...]
    before: int
    after: int
