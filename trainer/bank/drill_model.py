"""The drills: what is drawn, what is asked, which slips are told apart."""

from collections.abc import Mapping
from fractions import Fraction
from functools import lru_cache
from typing import Annotated, Any, Literal

from pydantic import Discriminator, Field, GetJsonSchemaHandler, Tag, model_validator
from pydantic_core.core_schema import str_schema

from trainer import units
from trainer.bank.basis import Frozen, Id, Text


class Fixed(Frozen):
    """An input that is the same in each draw: ``"10 mm"``, ``"2"``."""

    value: str

    @model_validator(mode="before")
    @classmethod
    def _plain(cls, value: Any) -> Any:
        return {"value": value} if isinstance(value, str) else value

    @classmethod
    def __get_pydantic_json_schema__(cls, core: Any, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        """Say in the schema too that it may stand as plain text."""
        return {"anyOf": [handler(str_schema()), handler(core)]}

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
        return _in_steps(*self.parts())

    def parts(self) -> tuple[str, tuple[Fraction, Fraction, Fraction]]:
        """Return the unit as written and the three numbers; ValueError where they differ in unit or are no numbers."""
        pairs = [split_amount(text) for text in (self.from_, self.to, self.step)]
        if len({unit for _, unit in pairs}) > 1:
            message = "from, to and step are not in one unit"
            raise ValueError(message)
        (first, unit), (last, _), (step, _) = pairs
        return unit, (first, last, step)


@lru_cache(maxsize=256)  # a range is asked for its values at every draw
def _in_steps(unit: str, numbers: tuple[Fraction, Fraction, Fraction]) -> tuple[str, ...]:
    first, last, step = numbers
    count = int((last - first) / step) if step > 0 and last >= first else -1
    return tuple(f"{units.digits(first + step * i, 4)} {unit}".rstrip() for i in range(count + 1))


def _shape(value: Any) -> str:
    if isinstance(value, (str, Fixed)) or (isinstance(value, Mapping) and "value" in value):
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


class JudgeDrill(Drill):
    """Something to judge in the numbers of another drill, ``base``, which keeps its ranges and slips.

    ``mounted``: a distance as it stands, and whether it is enough. ``find-error``: somebody's working, and which line
    of it is wrong. ``slips`` are those that are tempting here; each is one of the base's.
    """

    kind: Literal["mounted", "find-error"]
    base: ComputeDrill
    slips: Annotated[tuple[Id, ...], Field(min_length=2)]


class Situation(Frozen):
    """One situation to choose a rule for. ``offered`` are problems, ``right`` is the one that fits."""

    id: Id
    right: Id
    offered: Annotated[tuple[Id, ...], Field(min_length=3)]
    told: Text
    why: Text


class RuleDrill(Drill):
    """Choose the rule, with its formula, that fits a situation. ``rules`` says in a few words what each rule counts."""

    kind: Literal["choose-rule"]
    rules: Mapping[Id, Text]
    situations: Annotated[tuple[Situation, ...], Field(min_length=1)]

    def situation(self, situation_id: str) -> Situation:
        """Return the situation with that id; KeyError where there is none."""
        found = next((situation for situation in self.situations if situation.id == situation_id), None)
        if found is None:
            raise KeyError(situation_id)
        return found


AnyDrill = Annotated[ComputeDrill | SelectDrill | JudgeDrill | RuleDrill, Field(discriminator="kind")]
