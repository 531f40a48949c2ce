"""What the desk's sheets about machines show, as data."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from trainer.web.desk.eventpages import Happened
from trainer.web.desk.pages import Choices, Count
from trainer.web.listing import Listing
from trainer.web.sheet import Frame, Link
from trainer.wording import Sentence


@dataclass(frozen=True, slots=True, kw_only=True)
class MachineLine:
    """One machine with what is on file and who may run it."""

    id: str
    name: str
    kind: str
    in_use: bool
    facts: tuple[Any, ...]
    counts: tuple[Count, ...]
    first_end: str
    act: Link
    url: str
    verdict: str
    danger: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """One stopping time that was measured, and who entered it when."""

    day: str
    time: str
    note: str
    by: str
    at: str


@dataclass(frozen=True, slots=True, kw_only=True)
class NotedFact:
    """One fact as it came to be known."""

    day: str
    label: str
    value: str
    by: str


@dataclass(frozen=True, slots=True, kw_only=True)
class MachinePage:
    """One machine: whether its safeguard stands far enough, why, and the forms for what is found out."""

    frame: Frame
    id: str
    name: str
    kind: str
    in_use: bool
    verdict: str
    danger: bool
    told: tuple[Any, ...]
    missing: tuple[str, ...]
    figure: Any | None
    facts: tuple[Any, ...]
    readings: tuple[Measured, ...]
    changes: tuple[NotedFact, ...]
    keys: Choices
    events: Choices
    happened: tuple[Happened, ...]
    fields: Mapping[str, str]
    refusal: Sentence | None
    act: Link


@dataclass(frozen=True, slots=True, kw_only=True)
class MachinesPage:
    """The machines, with facts and how many may run each."""

    frame: Frame
    span: str
    lede: str
    listing: Listing[Any]
    rows: tuple[MachineLine, ...]
