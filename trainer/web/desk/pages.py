"""What each sheet of the desk shows, as data. A template is given one of these and nothing else."""

from dataclasses import dataclass
from datetime import date
from typing import Any

from trainer.records.standing import Reason
from trainer.web.entries import HistoryRow
from trainer.web.listing import Listing
from trainer.web.sheet import Frame, Link, Named
from trainer.wording import Sentence

Choices = tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Count:
    """A number and the words that go with it; ``mark`` is the standing mark before it, where there is one."""

    number: int
    words: str
    mark: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One line of the week: who or what, why, and the one act."""

    number: int
    clock: str
    kind: str
    subject: str
    subject_note: str
    warning: bool
    people: tuple[Named, ...]
    reasons: tuple[Reason, ...]
    act: Link


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """Rows under one heading."""

    title: str
    note: str
    rows: tuple[Any, ...]
    mark: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class WeekPage:
    """The sheet of the week: who needs me."""

    frame: Frame
    span: str
    counts: tuple[Count, ...]
    groups: tuple[Group, ...]
    more: Link | None
    strip: Any


@dataclass(frozen=True, slots=True, kw_only=True)
class Hold:
    """The machines that a person has one standing for."""

    mark: str
    label: str
    machines: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PersonLine:
    """One person in the list."""

    person: Named
    ends: date | None
    holds: tuple[Hold, ...]
    lacks: tuple[str, ...]
    act: Link | None


@dataclass(frozen=True, slots=True, kw_only=True)
class PeoplePage:
    """Everybody, with standing and what each lacks."""

    frame: Frame
    span: str
    shifts: Choices
    shift: str
    machines: Choices
    machine: str
    words: Choices
    word: str
    rows: tuple[PersonLine, ...]
    listing: Listing[Any]


@dataclass(frozen=True, slots=True, kw_only=True)
class StandingLine:
    """One machine and role of a person."""

    machine: str
    role: str
    mark: str
    label: str
    reasons: tuple[Reason, ...]
    lacks: tuple[Sentence, ...]
    until: str
    days: str
    act: Link | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Skill:
    """One competency of a person: evidence, ticks and interval."""

    name: str
    count: str
    newest: str
    ticks: Any
    bar: Any
    chance: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SlipLine:
    """A mistake that a person made, and what was answered last."""

    title: str
    when: str
    entries: tuple[int, ...]
    answered: str


@dataclass(frozen=True, slots=True, kw_only=True)
class DueLine:
    """One due day of a person."""

    day: str
    what: str
    reason: Sentence


@dataclass(frozen=True, slots=True, kw_only=True)
class PersonPage:
    """Where one person stands, and why."""

    frame: Frame
    key: str
    person: Named
    about: str
    verdict: tuple[str, ...]
    act: Link | None
    done: Sentence | None
    standings: tuple[StandingLine, ...]
    skills: tuple[Group, ...]
    since: str
    slips: tuple[SlipLine, ...]
    dues: tuple[DueLine, ...]
    history: tuple[HistoryRow, ...]
    history_note: str
    all_history: Link | None
    events: Choices
    machines: Choices
    to_coach: tuple[Any, ...]
    ways: tuple[Link, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class HistoryPage:
    """Every entry of one person."""

    frame: Frame
    person: Named
    note: str
    listing: Listing[HistoryRow]


@dataclass(frozen=True, slots=True, kw_only=True)
class Waiting:
    """One person who waits for a practical."""

    person: Named
    machine: str
    role: str
    reasons: tuple[Reason, ...]
    judges: str
    act: Link


@dataclass(frozen=True, slots=True, kw_only=True)
class Right:
    """What the one who is signed in may sign, and the entry that says so."""

    words: str
    entry: int


@dataclass(frozen=True, slots=True, kw_only=True)
class PracticalsPage:
    """Who waits for a practical."""

    frame: Frame
    lede: str
    machines: Choices
    machine: str
    rows: tuple[Waiting, ...]
    listing: Listing[Any]
    mine: tuple[Right, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Judge:
    """Somebody who may judge this practical today."""

    key: str
    name: str
    words: str
    entry: int


@dataclass(frozen=True, slots=True, kw_only=True)
class StepLine:
    """One step of the checklist, with what is marked so far."""

    id: str
    title: str
    detail: str
    critical: bool
    seen: str
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SignOffPage:
    """May I sign? Held at the machine."""

    frame: Frame
    person: Named
    machine: str
    machine_name: str
    role: str
    reasons: tuple[Reason, ...]
    judges: tuple[Judge, ...]
    steps: tuple[StepLine, ...]
    form: Any
    refusal: Sentence | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidate:
    """Somebody a programme can be given to, and what there is so far."""

    key: str
    ticked: bool
    person: Named
    mark: str
    label: str
    reasons: tuple[Reason, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class AssignPage:
    """Give a programme to people: first who is concerned, then do it."""

    frame: Frame
    programmes: Choices
    programme: str
    machines: Choices
    machine: str
    shifts: Choices
    shift: str
    find: str
    picked: str
    asked: bool
    answer: str
    rows: tuple[Candidate, ...]
    reasons: Choices
    reason: str
    refusal: Sentence | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Assigned:
    """One assignment that was entered."""

    person: Named
    programme: str
    entry: int


@dataclass(frozen=True, slots=True, kw_only=True)
class AssignedPage:
    """What was just assigned."""

    frame: Frame
    answer: str
    rows: tuple[Assigned, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class DueRowLine:
    """One line of the due list."""

    due: date | None
    person: Named
    programme: str
    machines: str
    reason: Sentence
    entry: int | None
    act: Link | None


@dataclass(frozen=True, slots=True, kw_only=True)
class DuesPage:
    """What is due within 90 days."""

    frame: Frame
    span: str
    lede: str
    shifts: Choices
    shift: str
    machines: Choices
    machine: str
    groups: tuple[Group, ...]
    listing: Listing[Any]


@dataclass(frozen=True, slots=True, kw_only=True)
class Answered:
    """What somebody wrote about a report or question, and when; ``closes``: the report, or that it was read."""

    by: str
    at: str
    words: str
    closes: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class HazardPage:
    """One report of a hazard, with what was done about it."""

    frame: Frame
    reference: str
    suggestion: bool
    machine: str
    place: str
    who: str
    at: str
    kiosk: str
    words: str
    is_open: bool
    answers: tuple[Answered, ...]
    typed: str
    closes: bool
    refusal: Sentence | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Reported:
    """One row of what was asked or reported."""

    reference: str
    clock: str
    who: str
    about: str
    words: str
    act: Link


@dataclass(frozen=True, slots=True, kw_only=True)
class ReportsPage:
    """What was asked and reported at the kiosks."""

    frame: Frame
    questions: Listing[Reported]
    reports: Listing[Reported]
    answered: Listing[Reported]


@dataclass(frozen=True, slots=True, kw_only=True)
class AskedPage:
    """One question; an answer that ``closes`` was read by who asked."""

    frame: Frame
    reference: str
    who: str
    to: str
    at: str
    kiosk: str
    item: str
    about: str
    words: str
    answers: tuple[Answered, ...]
    typed: str
    refusal: Sentence | None
