"""What the desk's sheets about events show, as data."""

from dataclasses import dataclass

from trainer.web.desk.pages import Candidate, Choices, Count
from trainer.web.entries import HistoryRow
from trainer.web.sheet import Frame, Link, Named
from trainer.wording import Sentence


@dataclass(frozen=True, slots=True, kw_only=True)
class EventFields:
    """What was typed or chosen so far. ``number`` is that of the person whom it is about."""

    what: str = ""
    machine: str = ""
    number: str = ""
    on: str = ""
    note: str = ""
    scope: str = ""
    programme: str = ""
    due: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class EventPage:
    """What happened, and everybody whom it concerns, before anything is entered.

    ``seen`` stands for the list as shown: what is entered has to be what was looked at.
    """

    frame: Frame
    fields: EventFields
    whats: Choices
    machines: Choices
    scopes: Choices
    programmes: Choices
    asked: bool
    answer: str
    told: tuple[str, ...]
    rows: tuple[Candidate, ...]
    seen: str
    refusal: Sentence | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """The entries that an event made about one person."""

    person: Named
    rows: tuple[HistoryRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class EventMadePage:
    """The entries that an event made."""

    frame: Frame
    answer: str
    counts: tuple[Count, ...]
    rows: tuple[Made, ...]
    acts: tuple[Link, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Happened:
    """One event at a machine: how many it was entered for, and how many have had the re-brief by now."""

    day: str
    what: str
    note: str
    people: str
    done: str
