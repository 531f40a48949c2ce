"""What each sheet of the office shows, as data. A template is given one of these and nothing else."""

from dataclasses import dataclass
from typing import Any

from trainer.records.standing import Reason
from trainer.web.entries import HistoryRow
from trainer.web.facts import Fact
from trainer.web.listing import Listing
from trainer.web.office.clocks import Clocks
from trainer.web.sheet import Frame, Link, Named, Pages
from trainer.web.standings import StandingRow
from trainer.wording import Sentence

Choices = tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Ledger:
    """How long the ledger is, in words beside its number."""

    number: str
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Deadline:
    """Something that the office itself has to do, or did last."""

    title: str
    words: str
    act: Link


@dataclass(frozen=True, slots=True, kw_only=True)
class QuestionsPage:
    """The questions that auditors ask."""

    frame: Frame
    ledger: Ledger
    machines: Choices
    machine: str
    any_machine: Choices
    shifts: Choices
    today: str
    first: str
    refusal: Sentence | None
    deadlines: tuple[Deadline, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class RowNote:
    """A revision flag on a line: this entry came late."""

    number: int
    short: str


@dataclass(frozen=True, slots=True, kw_only=True)
class AsofRow:
    """One person on the list of a day."""

    person: Named
    role: str
    reasons: tuple[Reason, ...]
    notes: tuple[RowNote, ...]
    held_to: str


@dataclass(frozen=True, slots=True, kw_only=True)
class AsofGroup:
    """People with one kind of standing."""

    mark: str
    title: str
    note: str
    rows: tuple[AsofRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class LateNote:
    """The note to a revision flag: both days of an entry."""

    number: int
    words: str
    entry: int


@dataclass(frozen=True, slots=True, kw_only=True)
class LateBlock:
    """What came into the ledger after the day asked about, and what the answer was then."""

    title: str
    strip: Clocks
    notes: tuple[LateNote, ...]
    then: str
    url: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Checked:
    """What reading the entries behind an answer again came to."""

    title: str
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PaperLink:
    """A paper that can be had as PDF."""

    label: str
    url: str


@dataclass(frozen=True, slots=True, kw_only=True)
class AsofPage:
    """Who was allowed to run a machine on a day, as known on another."""

    frame: Frame
    title: str
    heading: str
    known_note: str
    answer: tuple[str, ...]
    refusal: Sentence | None
    machines: Choices
    machine: str
    day: str
    known: str
    groups: tuple[AsofGroup, ...]
    csv: str
    papers: tuple[PaperLink, ...]
    file_note: str
    checked: Checked
    late: LateBlock | None
    machine_name: str
    facts: tuple[Fact, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """Somebody who fits a search, with the time they belonged to the plant."""

    person: Named
    span: str


@dataclass(frozen=True, slots=True, kw_only=True)
class RightRow:
    """A right that somebody holds on the day asked about."""

    what: Sentence
    entry: int
    days: str
    act: Link | None


@dataclass(frozen=True, slots=True, kw_only=True)
class AboutPage:
    """What is held about one person."""

    frame: Frame
    heading: str
    note: str
    answer: str
    refusal: Sentence | None
    who: str
    day: str
    found: tuple[Found, ...]
    person: Named | None
    standings: tuple[StandingRow, ...]
    history: tuple[HistoryRow, ...]
    history_note: str
    pages: Pages | None
    csv: str
    papers: tuple[PaperLink, ...]
    rights: tuple[RightRow, ...] = ()
    ways: tuple[Link, ...] = ()
    done: Sentence | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class FindingRow:
    """One thing that does not hold in the ledger."""

    where: str
    what: str
    code: str
    fix: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckpointRow:
    """A checkpoint as it is read to somebody who checks a pack."""

    reference: str
    at: str
    entries: int
    digest: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ChangedPage:
    """Whether anybody changed the record."""

    frame: Frame
    heading: str
    note: str
    answer: str
    findings: tuple[FindingRow, ...]
    late: tuple[HistoryRow, ...]
    late_note: str
    corrected: tuple[HistoryRow, ...]
    checkpoints: tuple[CheckpointRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class OverdueRow:
    """One machine that somebody may not run, since when and why."""

    person: Named
    machine: str
    role: str
    reasons: tuple[Reason, ...]
    since: str


@dataclass(frozen=True, slots=True, kw_only=True)
class OverdueGroup:
    """People who lack the same thing."""

    mark: str
    title: str
    note: str
    rows: tuple[OverdueRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class OverduePage:
    """What is overdue, and since when."""

    frame: Frame
    heading: str
    note: str
    answer: str
    refusal: Sentence | None
    day: str
    shifts: Choices
    shift: str
    machines: Choices
    machine: str
    groups: tuple[OverdueGroup, ...]
    listing: Listing[Any]
