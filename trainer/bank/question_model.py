"""The questions: nine kinds, told apart by ``kind``. What is common to all stands in :class:`Question`.

Each kind keeps what is pressed in ``options``, whose ids are what an answer names:

* ``pick-one`` and ``next`` (what happens next?): one option is right.
* ``pick-all``: two or more are right, and just those have to be pressed.
* ``order``: the options are steps, written in their right order.
* ``point``: the options are places of the drawing, one of them right; ``spot``: those that are wrong there are ``right``.
* ``match``: each option has a ``partner``; the partners are pressed for the options, one after another.
* ``reasoned``: an option and a reason, both have to be right.
* ``number``: no options; a number that a sum of the safeguarding rules gives.
"""

from collections.abc import Mapping
from typing import Annotated, Literal

from pydantic import Discriminator, Field, Tag

from trainer.bank.basis import Frozen, Id, Text
from trainer.bank.drill_model import ComputeDrill, Fixed

Place = str | tuple[float, float]  # a named place of a part, or millimetres of the drawing's view


class Option(Frozen):
    """One thing to press. A wrong one names the misconception that it shows.

    A right option of ``pick-all`` may name the misconception that leaving it out shows. ``at`` is where it lies in the
    drawing, ``partner`` what belongs to it.
    """

    id: Id
    right: bool = False
    misconception: Id | None = None
    at: Place | None = None
    text: Text
    partner: Text | None = None


class Mistake(Frozen):
    """What it shows when ``first`` is put before ``then``, or is matched with the partner of ``then``."""

    first: Id
    then: Id
    misconception: Id


class Shown(Frozen):
    """A figure of a text: what a sum gives for inputs, rounded to its safe side in a unit."""

    problem: Id
    inputs: Mapping[str, str]
    unit: str


class Question(Frozen):
    """What all kinds have. ``told`` is the scene, ``asked`` the question, ``why`` explains the key.

    ``figures`` holds the numbers of its texts that are computed: ``{need}`` in a text is the figure of that name.
    """

    id: Id
    version: Annotated[int, Field(ge=1, le=1_000_000)]
    kind: str
    scenario: Id
    competency: Id
    critical: bool = False
    sources: tuple[Id, ...]
    drawing: Id | None = None
    figures: Mapping[Id, Shown] = Field(default_factory=dict)
    told: Text
    asked: Text
    why: Text
    options: tuple[Option, ...] = ()
    reasons: tuple[Option, ...] = ()
    mistakes: tuple[Mistake, ...] = ()

    @property
    def right(self) -> tuple[Option, ...]:
        """Return the right options."""
        return tuple(option for option in self.options if option.right)

    @property
    def key(self) -> Option:
        """Return the first right option."""
        return next(option for option in self.options if option.right)

    def option(self, option_id: str) -> Option | None:
        """Return the option with that id, or None."""
        return next((option for option in self.options if option.id == option_id), None)

    def reason(self, reason_id: str) -> Option | None:
        """Return the reason with that id, or None."""
        return next((reason for reason in self.reasons if reason.id == reason_id), None)


class PickOne(Question):
    """One option is right: what is so, or what happens next."""

    kind: Literal["pick-one", "next"]
    reasons: tuple[()] = ()
    mistakes: tuple[()] = ()


class PickAll(Question):
    """All that apply have to be pressed, and nothing else."""

    kind: Literal["pick-all"]
    reasons: tuple[()] = ()
    mistakes: tuple[()] = ()


class Order(Question):
    """Steps that belong in one order: the one they are written in."""

    kind: Literal["order"]
    reasons: tuple[()] = ()


class OnDrawing(Question):
    """Places of the drawing: the one that is asked for, or all that are wrong there."""

    kind: Literal["point", "spot"]
    drawing: Id
    reasons: tuple[()] = ()
    mistakes: tuple[()] = ()


class Match(Question):
    """What belongs together: each option has one partner."""

    kind: Literal["match"]
    reasons: tuple[()] = ()


class Reasoned(Question):
    """A choice and the reason for it."""

    kind: Literal["reasoned"]
    mistakes: tuple[()] = ()


class Number(Question):
    """A number with a unit: what a sum gives for the inputs told. See :class:`ComputeDrill` for the keys."""

    kind: Literal["number"]
    problem: Id
    inputs: Mapping[str, str]
    unit: str
    over: str
    slips: tuple[Id, ...] = ()
    options: tuple[()] = ()
    reasons: tuple[()] = ()
    mistakes: tuple[()] = ()

    @property
    def drill(self) -> ComputeDrill:
        """Return the drill that asks the same number, with nothing to be drawn."""
        return ComputeDrill(
            id=self.id,
            version=self.version,
            kind="compute",
            competency=self.competency,
            critical=self.critical,
            sources=self.sources,
            title=self.asked,
            told=self.told,
            asked=self.asked,
            drawings={},
            drawing_texts={},
            problem=self.problem,
            unit=self.unit,
            inputs={key: Fixed(value=value) for key, value in self.inputs.items()},
            slips=self.slips,
            over=self.over,
        )


SHAPES: Mapping[str, type[Question]] = {
    "pick-one": PickOne,
    "next": PickOne,
    "pick-all": PickAll,
    "order": Order,
    "point": OnDrawing,
    "spot": OnDrawing,
    "match": Match,
    "reasoned": Reasoned,
    "number": Number,
}
KINDS = tuple(SHAPES)


def _shape(value: object) -> str:
    kind = value.get("kind") if isinstance(value, Mapping) else getattr(value, "kind", None)
    return SHAPES.get(str(kind), PickOne).__name__


AnyQuestion = Annotated[
    Annotated[PickOne, Tag("PickOne")]
    | Annotated[PickAll, Tag("PickAll")]
    | Annotated[Order, Tag("Order")]
    | Annotated[OnDrawing, Tag("OnDrawing")]
    | Annotated[Match, Tag("Match")]
    | Annotated[Reasoned, Tag("Reasoned")]
    | Annotated[Number, Tag("Number")],
    Discriminator(_shape),
]
