"""What the bank holds: frozen models, each with its id, and every text in every language.

A text is never stored in one language alone: :class:`Text` maps a language code to words. Structure (ids, keys,
ranges, which option is right) is the same in each language and is written once.
"""

from collections.abc import Mapping
from datetime import timedelta
from enum import StrEnum
from fractions import Fraction
from typing import Annotated, Any, Literal

from pydantic import BaseModel, ConfigDict, Discriminator, Field, StringConstraints, Tag, model_validator

from trainer import units
from trainer.safeguarding.result import Citation, Read

Id = Annotated[str, StringConstraints(pattern=r"^[A-Za-z0-9]+(?:[-/][A-Za-z0-9]+)*$", max_length=80)]
Language = Annotated[str, StringConstraints(pattern=r"^[a-z]{2,3}(?:-[A-Za-z0-9]{2,8})*$")]
FALLBACK = "en"
PRACTICE = "common-practice"  # the source key of a fact of the trade that has no other source


class Frozen(BaseModel):
    """What every model of the bank has in common: frozen, no unknown keys, finite numbers."""

    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False)


class Role(StrEnum):
    """What a person does at a machine."""

    OPERATOR = "operator"
    HELPER = "helper"
    SETTER = "setter"
    LEAD = "lead"
    MAINTENANCE = "maintenance"


class MachineKind(StrEnum):
    """The kinds of machine that programmes and checklists are written for."""

    PRESS_BRAKE_HYDRAULIC = "press-brake-hydraulic"
    PRESS_BRAKE_MECHANICAL = "press-brake-mechanical"
    PRESS_BRAKE_SERVO = "press-brake-servo"
    PRESS_BRAKE_UPSTROKE = "press-brake-upstroke"
    FOLDER = "folder"
    PLATE_ROLLS = "plate-rolls"


class CompetencyKind(StrEnum):
    """How a competency is shown: by knowing, by working out, or at the machine."""

    KNOWLEDGE = "knowledge"
    CALCULATION = "calculation"
    PRACTICE = "practice"


class ProgrammeKind(StrEnum):
    """Whether a programme is the first or a repeated one."""

    INDUCTION = "induction"
    REFRESHER = "refresher"


class Text(Frozen):
    """Words in each language."""

    words: Mapping[Language, str]

    def in_(self, language: str) -> str:
        """Return the words in ``language``, else in English, else in the first language that there is."""
        return self.words.get(language) or self.words.get(FALLBACK) or next(iter(self.words.values()), "")

    def has(self, language: str) -> bool:
        """Say whether there are words of its own for ``language``."""
        return bool(self.words.get(language))


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


class Option(Frozen):
    """One answer to pick. A wrong one names the misconception that it shows."""

    id: Id
    right: bool = False
    misconception: Id | None = None
    text: Text


class Question(Frozen):
    """A question with one right option. ``told`` is the scene, ``asked`` the question, ``why`` explains the key."""

    id: Id
    version: Annotated[int, Field(ge=1, le=1_000_000)]
    kind: Literal["pick-one"]
    scenario: Id
    competency: Id
    critical: bool = False
    sources: tuple[Id, ...]
    drawing: Id | None = None
    told: Text
    asked: Text
    options: tuple[Option, ...]
    why: Text

    @property
    def key(self) -> Option:
        """Return the right option."""
        return next(option for option in self.options if option.right)

    def option(self, option_id: str) -> Option | None:
        """Return the option with that id, or None."""
        return next((option for option in self.options if option.id == option_id), None)


class Lesson(Frozen):
    """One sheet of a lesson: a drawing and a short text in Markdown."""

    id: Id
    scenario: Id
    drawing: Id | None = None
    heading: Text
    text: Text


class Scenario(Frozen):
    """A hazard: lessons, questions and drawings that belong to one place and one way of getting hurt.

    ``drawings`` maps a name to the drawing as written for the drawing room; ``drawing_texts`` is what a person who
    cannot see it is told.
    """

    id: Id
    slug: Id
    roles: tuple[Role, ...]
    competencies: tuple[Id, ...]
    sources: tuple[Id, ...]
    title: Text
    lessons: tuple[Lesson, ...]
    questions: tuple[Question, ...]
    drawings: Mapping[str, Mapping[str, Any]]
    drawing_texts: Mapping[str, Text]


class Fixed(Frozen):
    """An input that is the same in each draw: ``"10 mm"``, ``"2"``."""

    value: str

    @model_validator(mode="before")
    @classmethod
    def _plain(cls, value: Any) -> Any:
        return {"value": value} if isinstance(value, str) else value

    def values(self) -> tuple[str, ...]:
        """Return every value that may be drawn."""
        return (self.value,)


class OneOf(Frozen):
    """An input that is one of a few values."""

    one_of: Annotated[tuple[str, ...], Field(min_length=1)]

    def values(self) -> tuple[str, ...]:
        """Return every value that may be drawn."""
        return self.one_of


class Range(Frozen):
    """An input drawn from a range in even steps, both ends included. All three are written with the same unit."""

    from_: Annotated[str, Field(alias="from")]
    to: str
    step: str

    def values(self) -> tuple[str, ...]:
        """Return every value that may be drawn, in the unit it is written in."""
        unit, (first, last, step) = self.parts()
        count = int((last - first) / step) if step > 0 and last >= first else -1
        return tuple(f"{units.digits(first + step * i, 4)} {unit}".rstrip() for i in range(count + 1))

    def parts(self) -> tuple[str, tuple[Fraction, Fraction, Fraction]]:
        """Return the unit as written and the three numbers; ValueError where they differ in unit or are no numbers."""
        pairs = [split_amount(text) for text in (self.from_, self.to, self.step)]
        if len({unit for _, unit in pairs}) > 1:
            message = "from, to and step are not in one unit"
            raise ValueError(message)
        (first, unit), (last, _), (step, _) = pairs
        return unit, (first, last, step)


def _shape(value: Any) -> str:
    if isinstance(value, (str, Fixed)):
        return "fixed"
    listed = "one_of" in value if isinstance(value, Mapping) else isinstance(value, OneOf)
    return "one-of" if listed else "range"


Input = Annotated[
    Annotated[Fixed, Tag("fixed")] | Annotated[OneOf, Tag("one-of")] | Annotated[Range, Tag("range")],
    Discriminator(_shape),
]


def split_amount(text: str) -> tuple[Fraction, str]:
    """Split ``"2.5 mm"`` into its number and its unit; ValueError where it does not start with a plain number."""
    number, _, unit = text.strip().partition(" ")
    return Fraction(number), unit.strip()


class Drill(Frozen):
    """What both kinds of drill have in common: the answer is worked out, not looked up."""

    id: Id
    version: Annotated[int, Field(ge=1, le=1_000_000)]
    kind: str
    competency: Id
    critical: bool = False
    sources: tuple[Id, ...]
    title: Text
    told: Text
    asked: Text
    drawing: Id | None = None
    drawings: Mapping[str, Mapping[str, Any]]
    drawing_texts: Mapping[str, Text]


class ComputeDrill(Drill):
    """A number to work out. ``inputs`` are drawn, ``slips`` are the mistakes that it tells apart.

    ``over`` is the length above the least distance that is still called right; beyond it the answer is safe but far.
    """

    kind: Literal["compute"]
    problem: Id
    unit: str
    inputs: Mapping[str, Input]
    slips: tuple[Id, ...]
    over: str


class Setting(Frozen):
    """One set of facts to choose a safeguard for, told in ``told``. ``facts`` are laid over the drill's own.

    ``tempting`` names, for a safeguard that is offered and wrong, the misconception that it shows.
    """

    id: Id
    facts: Mapping[str, str]
    offered: Annotated[tuple[str, ...], Field(min_length=2)]
    tempting: Mapping[str, Id] = Field(default_factory=dict)
    told: Text


class SelectDrill(Drill):
    """Choose a safeguard that is valid for the facts told. The key comes from the selection rules, not from here."""

    kind: Literal["select"]
    rule_set: Literal["us", "intl"]
    facts: Mapping[str, str]
    settings: Annotated[tuple[Setting, ...], Field(min_length=1)]

    def setting(self, setting_id: str) -> Setting:
        """Return the setting with that id; KeyError where there is none."""
        found = next((setting for setting in self.settings if setting.id == setting_id), None)
        if found is None:
            raise KeyError(setting_id)
        return found

    def facts_of(self, setting_id: str) -> dict[str, str]:
        """Return the facts of one setting: the drill's own with the setting's laid over them."""
        return {**self.facts, **self.setting(setting_id).facts}


class Blueprint(Frozen):
    """What a paper is drawn from: questions from each scenario, the drills, and what is always in it."""

    questions: Mapping[Id, Annotated[int, Field(ge=0, le=40)]]
    drills: tuple[Id, ...] = ()
    must_pass: tuple[Id, ...] = ()


class Programme(Frozen):
    """What is required of a role at a machine: which lessons, which paper, which practical, how often.

    ``pass_share`` is the share of the marked sheets that must be right (every critical one must be as well);
    ``interval`` is an ISO 8601 period in whole months or years, ``warn_days`` how long before the end it is called due.
    """

    id: Id
    kind: ProgrammeKind
    role: Role
    machine_kinds: tuple[MachineKind, ...]
    scenarios: tuple[Id, ...]
    blueprint: Blueprint
    pass_share: Annotated[Fraction, Field(gt=0, le=1)]
    interval: Annotated[str, StringConstraints(pattern=r"^P(?:[1-9]\d?Y|[1-9]\d?M)$")]
    warn_days: Annotated[int, Field(ge=0, le=366)]
    checklist: Id | None = None
    name: Text

    @property
    def months(self) -> int:
        """Return the interval in months."""
        number = int(self.interval[1:-1])
        return number * 12 if self.interval.endswith("Y") else number

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
