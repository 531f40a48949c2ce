"""The force of air bending, and what it does to the tool."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Annotated, Any

from trainer.errors import UsageError
from trainer.safeguarding import sources
from trainer.safeguarding.inputs import Given, Inputs, Numbers
from trainer.safeguarding.problem import Problem, answer
from trainer.safeguarding.result import Sense
from trainer.safeguarding.slips import Slip, becomes, pick, times
from trainer.safeguarding.working import Working
from trainer.wording import mark, say

LOW, HIGH = Fraction("1.33"), Fraction("1.42")
WITHIN = mark("Within the marking of the tool.")
OVER = mark("Over the marking of the tool. Do not bend.")


@dataclass(frozen=True, slots=True, kw_only=True)
class AirBend(Inputs):
    """Inputs of the shop formula for air bending."""

    tensile_strength: Annotated[Any, Given("R_m", mark("Tensile strength of the sheet"), "pressure", above=0)]
    thickness: Annotated[Any, Given("t", mark("Thickness of the sheet"), "length", above=0)]
    bend_length: Annotated[Any, Given("L", mark("Length of the bend"), "length", above=0)]
    die_opening: Annotated[Any, Given("V", mark("Opening of the die"), "length", above=0)]
    rating_per_length: Annotated[
        Any, Given("F_mark", mark("Marking of the tool, force for each length"), "force-per-length", above=0)
    ] = None
    tool_length: Annotated[Any, Given("L_tool", mark("Length of the tool under the bend"), "length", above=0)] = None

    def agree(self) -> None:
        """Refuse a die that the sheet does not fit into."""
        if self.numbers().die_opening <= self.numbers().thickness:
            raise UsageError(say("die-opening: it must be more than the thickness."))


def _force(w: Working, g: Numbers) -> Any:
    strength = w.given("R_m", g.tensile_strength, "pressure", mark("Tensile strength of the sheet"))
    thick = w.given("t", g.thickness, "length", mark("Thickness of the sheet"))
    length = w.given("L", g.bend_length, "length", mark("Length of the bend"))
    die = w.given("V", g.die_opening, "length", mark("Opening of the die"))
    factor = w.constant("c", HIGH, "number", mark("Shop factor, common practice 1.33 to 1.42; the higher is used"))
    squared = w.ask("t_squared", thick * thick)
    w.warn(say("A shop formula for air bending. Bottoming and coining need many times more."))
    w.cite(sources.COMMON_PRACTICE)
    force = w.step(
        "F", mark("Bending force"), "c × R_m × t × t × L ÷ V", factor * strength * squared * length / die, "force"
    )
    w.term("force", force, "force")
    return force


def _load(w: Working, g: Numbers, force: Any) -> Any:
    tool = g.tool_length or g.bend_length
    length = w.given("L_tool", min(tool, g.bend_length), "length", mark("Length that carries the force"))
    load = w.step("f", mark("Force for each length of tool"), "F ÷ L_tool", force / length, "force-per-length")
    w.term("load", load, "force-per-length")
    return load


def _judge(w: Working, g: Numbers, load: Any) -> None:
    if g.rating_per_length is None:
        w.warn(say("No marking was given. Read it from the tool; without one the tool is not used."))
        return
    rating = w.given("F_mark", g.rating_per_length, "force-per-length", mark("Marking of the tool"))
    w.word = w.ask("word", WITHIN if load <= rating else OVER)


def _air_bend(w: Working, g: Numbers) -> Any:
    force = _force(w, g)
    if g.rating_per_length is not None or g.tool_length is not None:
        _judge(w, g, _load(w, g, force))
    return force


def _tool_load(w: Working, g: Numbers) -> Any:
    load = _load(w, g, _force(w, g))
    _judge(w, g, load)
    return load


SLIPS = (
    Slip(
        code="thickness-not-squared",
        title=mark("Does not square the thickness"),
        tell=mark("You took the thickness once. The force grows with its square."),
        symbol="F",
        changes={"t_squared": pick(lambda seen: seen["t"])},
    ),
    Slip(
        code="lower-factor",
        title=mark("Uses the lower factor, 1.33"),
        tell=mark("You used 1.33. The higher factor, 1.42, is on the safe side."),
        symbol="c",
        changes={"c": becomes(LOW)},
    ),
    Slip(
        code="no-factor",
        title=mark("Leaves out the factor"),
        tell=mark("You left out the factor 1.42."),
        symbol="c",
        changes={"c": becomes(Fraction(1))},
    ),
    Slip(
        code="half-die",
        title=mark("Uses half the die opening"),
        tell=mark("You used half the die opening. The whole opening counts."),
        symbol="V",
        changes={"V": times(Fraction(1, 2))},
    ),
    Slip(
        code="double-die",
        title=mark("Uses twice the die opening"),
        tell=mark("You used twice the die opening."),
        symbol="V",
        changes={"V": times(2)},
    ),
)
LOAD_SLIPS = (
    Slip(
        code="whole-force",
        title=mark("Does not divide by the length of the tool"),
        tell=mark("You took the whole force as the load of one metre. Divide it by the length that carries it."),
        symbol="f",
        changes={"L_tool": becomes(Fraction(1000))},
    ),
    Slip(
        code="bend-instead-of-tool",
        title=mark("Divides by the length of the bend although the tool is shorter"),
        tell=mark("You divided by the length of the bend. Only the tool under it carries the force."),
        symbol="f",
        changes={"L_tool": pick(lambda seen: seen["L"])},
    ),
)

PROBLEMS = (
    Problem(
        name="air-bend-force",
        title=mark("Force of air bending, shop formula"),
        inputs=AirBend,
        sum=_air_bend,
        answer=answer("F", Sense.VALUE, "force"),
        slips=SLIPS,
    ),
    Problem(
        name="tool-load",
        title=mark("Load on each length of tool in air bending"),
        inputs=AirBend,
        sum=_tool_load,
        answer=answer("f", Sense.VALUE, "force-per-length"),
        slips=(*SLIPS, *LOAD_SLIPS),
    ),
)
