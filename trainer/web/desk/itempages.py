"""What the sheets on questions and papers show, as data."""

from dataclasses import dataclass

from trainer.web.listing import Listing
from trainer.web.sheet import Frame


@dataclass(frozen=True, slots=True, kw_only=True)
class ItemLine:
    """One question or drill in the list."""

    id: str
    url: str
    asked: str
    competency: str
    right: str
    share: float  # of right answers
    interval: str
    rest: str
    told: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PaperLine:
    """The first papers of one programme."""

    name: str
    passed: str
    mark: str
    alike: str
    reliability: str
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ItemsPage:
    """What answers show about the questions, those in doubt first, and about the papers."""

    frame: Frame
    lede: str
    listing: Listing[ItemLine]
    papers: tuple[PaperLine, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class OptionLine:
    """One option of a question."""

    text: str
    right: bool
    chosen: str
    upper: str
    lower: str
    told: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ItemPage:
    """All that answers show about one question or drill."""

    frame: Frame
    id: str
    asked: str
    told: tuple[str, ...]
    figures: tuple[tuple[str, str], ...]
    options: tuple[OptionLine, ...]
    mistakes: tuple[tuple[str, str], ...]
