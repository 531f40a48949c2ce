"""What the sheets beside a sitting show, as data: asking somebody, an answer."""

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
