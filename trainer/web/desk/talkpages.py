"""What the desk's sheets about talks show, as data."""

from dataclasses import dataclass
from typing import Any

from markupsafe import Markup

from trainer.web.desk.pages import Choices
from trainer.web.listing import Listing
from trainer.web.sheet import Frame, Named
from trainer.wording import Sentence


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """One talk that was held."""

    day: str
    topic: str
    presenter: str
    people: str
    late: str


@dataclass(frozen=True, slots=True, kw_only=True)
class TalksPage:
    """Prepare a talk, and those that were held."""

    frame: Frame
    topics: Choices
    topic: str
    drills: Choices
    going_on: str
    listing: Listing[Held]


@dataclass(frozen=True, slots=True, kw_only=True)
class Came:
    """Somebody who is at a talk."""

    number: int
    person: Named
    at: str
    late: str
    entry: int


@dataclass(frozen=True, slots=True, kw_only=True)
class DoorPage:
    """Badge in, one after another."""

    frame: Frame
    topic: str
    begun: str
    last: str
    rows: tuple[Came, ...]
    typed: str
    refusal: Sentence | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Offered:
    """One answer that can be talked about; ``right`` only once the answer is shown."""

    letter: str
    words: str
    right: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class ShownPage:
    """One sheet on the wall: something to read, a question to talk about, or a distance to work out together."""

    frame: Frame
    topic: str
    number: int
    count: int
    heading: str
    drawing: Markup | None
    text: Markup | None
    told: tuple[str, ...]
    asked: str
    options: tuple[Offered, ...]
    why: str
    revealed: bool
    given: tuple[tuple[str, str], ...]
    says: str
    race: Any | None
    needed: str
    refusal: Sentence | None
    here: str
    is_drill: bool
