"""What the bank holds: frozen models, each with its id, and every text in every language.

A text is never stored in one language alone: :class:`Text` maps a language code to words. Structure (ids, keys,
ranges, which option is right) is the same in each language and is written once.
"""

from collections.abc import Mapping
from datetime import timedelta
from enum import StrEnum
from fractions import Fraction
from typing import Annotated, Any, Literal

from pydantic import Field, StringConstraints, model_validator

from trainer.bank.basis import FALLBACK, PRACTICE, Frozen, Id, Language, MachineKind, Role, Text
from trainer.bank.drill_model import (
    ComputeDrill,
    Drill,
    Fixed,
    Input,
    JudgeDrill,
    OneOf,
    Range,
    RuleDrill,
    SelectDrill,
    Setting,
    Situation,
)
from trainer.bank.question_model import (
    KINDS,
    AnyQuestion,
    Match,
    Mistake,
    Number,
    OnDrawing,
    Option,
    Order,
    PickAll,
    PickOne,
    Question,
    Reasoned,
    Shown,
)
from trainer.safeguarding.result import Citation, Read

__all__ = [
    "FALLBACK",
    "KINDS",
    "PRACTICE",
    "Blueprint",
    "Checklist",
    "ChecklistStep",
    "Competency",
    "CompetencyKind",
    "ComputeDrill",
    "Drill",
    "Fixed",
    "Frozen",
    "Id",
    "Input",
    "JudgeDrill",
    "Language",
    "Lesson",
    "MachineKind",
    "Match",
    "Misconception",
    "Mistake",
    "Number",
    "OnDrawing",
    "OneOf",
    "Option",
    "Order",
    "PickAll",
    "PickOne",
    "Programme",
    "ProgrammeKind",
    "Question",
    "Range",
    "Reading",
    "Reasoned",
    "Role",
    "RuleDrill",
    "Scenario",
    "SelectDrill",
    "Setting",
    "Shown",
    "Situation",
    "Source",
    "StopRule",
    "Text",
    "Theme",
]


class CompetencyKind(StrEnum):
    """How a competency is shown: by knowing, by working out, or at the machine."""

    KNOWLEDGE = "knowledge"
    CALCULATION = "calculation"
    PRACTICE = "practice"


class ProgrammeKind(StrEnum):
    """What a programme is for.

    The first one, a repeated one, one for somebody who comes back; a short probe of what is still known, a re-brief
    after an incident or a change, a talk at the machine. The last three show something and renew nothing.
    """

    INDUCTION = "induction"
    REFRESHER = "refresher"
    RETURN = "return"
    PROBE = "probe"
    REBRIEF = "rebrief"
    TALK = "talk"

    @property
    def renews(self) -> bool:
        """Say whether passing it makes the theory good for another interval."""
        return self in {ProgrammeKind.INDUCTION, ProgrammeKind.REFRESHER, ProgrammeKind.RETURN}


class Theme(StrEnum):
    """What a scenario is mainly about. The bank's weights by theme follow the distribution of accidents."""

    HOLDING_AND_PEDAL = "holding-and-pedal"
    SAFEGUARD_STATE = "safeguard-state"
    SETTING_UP = "setting-up"
    CLEARING_AND_ISOLATION = "clearing-and-isolation"
    OTHERS_AND_ACCESS = "others-and-access"
    EJECTION_AND_MATERIAL = "ejection-and-material"
    PEOPLE_AND_AUTHORISATION = "people-and-authorisation"


class Source(Frozen):
    """A document that the bank cites, with how it was read."""

    key: Id
    document: str
    clause: str = ""
    year: str = ""
    read: Read

    def citation(self) -> Citation:
        """Return it in the form that results and sheets show."""
        return Citation(document=self.document, clause=self.clause, year=self.year, read=self.read)


class Competency(Frozen):
    """One thing that a person can do. ``level`` is the chance of mastery that counts as shown."""

    id: Id
    kind: CompetencyKind
    critical: bool
    level: Annotated[float, Field(ge=0.5, le=0.99)]
    roles: tuple[Role, ...]
    name: Text
    can_do: Text


class Misconception(Frozen):
    """A wrong idea that a wrong option stands for. ``tell`` refutes it in one or two short sentences."""

    id: Id
    competency: Id
    name: Text
    tell: Text


class Lesson(Frozen):
    """One sheet of a lesson: a drawing and a short text in Markdown. ``figures`` holds its computed numbers."""

    id: Id
    scenario: Id
    drawing: Id | None = None
    figures: Mapping[Id, Shown] = Field(default_factory=dict)
    heading: Text
    text: Text


class Scenario(Frozen):
    """A hazard: lessons, questions and drawings that belong to one place and one way of getting hurt.

    ``drawings`` maps a name to the drawing as written for the drawing room; ``drawing_texts`` is what a person who
    cannot see it is told.
    """

    id: Id
    slug: Id
    theme: Theme | None = None
    roles: tuple[Role, ...]
    competencies: tuple[Id, ...]
    sources: tuple[Id, ...]
    title: Text
    lessons: tuple[Lesson, ...]
    questions: tuple[AnyQuestion, ...]
    drawings: Mapping[str, Mapping[str, Any]]
    drawing_texts: Mapping[str, Text]


class Blueprint(Frozen):
    """What a paper is drawn from: questions from each scenario, the drills, and what is always in it."""

    questions: Mapping[Id, Annotated[int, Field(ge=0, le=40)]]
    drills: tuple[Id, ...] = ()
    must_pass: tuple[Id, ...] = ()


Period = Annotated[str, StringConstraints(pattern=r"^P(?:[1-9]\d?Y|[1-9]\d?M)$")]


class DueRules(Frozen):
    """How a due day is counted, where the plain rule (from the day, clamped to the month) is not the one wanted.

    The fields are those of :class:`trainer.records.duedates.Policy`, which says what each means.
    """

    count_from: Literal["day", "month_end"] = "day"
    leap_day: Literal["feb28", "mar1"] = "feb28"
    early_window: Period | Literal[""] = ""
    late_grace: Period | Literal[""] = ""
    late_resets: bool = True
    work_in_grace: bool = False
    young_period: Period | Literal[""] = ""
    pause_after: Period | Literal[""] = ""


class StopRule(Frozen):
    """Ends a paper as soon as enough is known (Wald's sequential test).

    ``low`` is the chance of a right answer of somebody who must not pass, ``high`` of somebody who should; the two error
    rates are those aimed at. ``trainer paper plan`` prints those that come out.
    """

    low: Annotated[float, Field(gt=0, lt=1)]
    high: Annotated[float, Field(gt=0, lt=1)]
    false_pass: Annotated[float, Field(gt=0, lt=0.5)]
    false_fail: Annotated[float, Field(gt=0, lt=0.5)]

    @model_validator(mode="after")
    def _apart(self) -> "StopRule":
        if self.low >= self.high:
            message = "low has to be below high"
            raise ValueError(message)
        return self


def _months(period: str) -> int:
    number = int(period[1:-1])
    return number * 12 if period.endswith("Y") else number


class Programme(Frozen):
    """What is required of a role at a machine: which lessons, which paper, which practical, how often.

    ``pass_share`` is the share of the marked sheets that must be right (every critical one must be as well);
    ``interval`` is an ISO 8601 period in whole months or years, ``warn_days`` how long before the end it is called due,
    ``due`` what else its due day goes by, ``stops`` when a refresher may end before its last sheet.
    """

    id: Id
    kind: ProgrammeKind
    role: Role
    machine_kinds: tuple[MachineKind, ...]
    scenarios: tuple[Id, ...]
    blueprint: Blueprint
    pass_share: Annotated[Fraction, Field(gt=0, le=1)]
    interval: Period
    warn_days: Annotated[int, Field(ge=0, le=366)]
    due: DueRules = DueRules()
    stops: StopRule | None = None

    @model_validator(mode="after")
    def _stops_a_refresher(self) -> "Programme":
        if self.stops is not None and self.kind is not ProgrammeKind.REFRESHER:
            message = "only a refresher may end before its last sheet"
            raise ValueError(message)
        return self

    checklist: Id | None = None
    name: Text

    @model_validator(mode="after")
    def _due_rules_fit(self) -> "Programme":
        if self.due.early_window and _months(self.due.early_window) >= self.months:
            raise ValueError("the early window is shorter than the interval")
        if self.due.young_period and _months(self.due.young_period) > self.months:
            raise ValueError("the period for young people is not longer than the interval")
        return self

    @property
    def months(self) -> int:
        """Return the interval in months."""
        return _months(self.interval)

    @property
    def warning(self) -> timedelta:
        """Return how long before its end a result is called due."""
        return timedelta(days=self.warn_days)


class ChecklistStep(Frozen):
    """One thing that is watched at the machine."""

    id: Id
    critical: bool = False
    title: Text
    detail: Text


class Checklist(Frozen):
    """What an entitled person watches a learner do at a machine."""

    id: Id
    role: Role
    machine_kinds: tuple[MachineKind, ...]
    steps: tuple[ChecklistStep, ...]
    name: Text


class Reading(Frozen):
    """How plain the text for operators has to be in one language.

    ``measure`` is ``flesch-kincaid`` (``limit`` = highest school grade), ``fernandez-huerta`` (``limit`` = lowest
    score) or ``words`` (sentence length only). ``trade_words`` are not counted as hard.
    """

    measure: Literal["flesch-kincaid", "fernandez-huerta", "words"]
    limit: Annotated[float, Field(ge=0, le=120)] = 0
    longest_sentence: Annotated[int, Field(ge=5, le=40)] = 20
    trade_words: tuple[str, ...] = ()
