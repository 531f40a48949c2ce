"""Reaching over: an electronic field or a barrier of a given height before a hazard of a given height."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Annotated, Any

from trainer.errors import UsageError
from trainer.safeguarding import sources
from trainer.safeguarding.inputs import Given, Inputs, Numbers, Unverified
from trainer.safeguarding.problem import Problem, answer
from trainer.safeguarding.result import Sense
from trainer.safeguarding.slips import UNIT_SLIPS, Slip, becomes, pick
from trainer.safeguarding.tables import Cell, Grid, grid
from trainer.safeguarding.working import Refused, Seen, Working
from trainer.wording import mark, say

HazardHeight = Annotated[Any, Given("a", mark("Height of the hazard above the floor"), "length")]
EdgeHeight = Annotated[Any, Given("b", mark("Height of the upper edge of the field"), "length")]
FIELD_TABLE, LOW_TABLE, HIGH_TABLE = "iso-13855-reaching-over", "iso-13857-low-risk", "iso-13857-high-risk"
NOT_CHECKED = say(
    "Reaching over the field was not checked. Give hazard-height and upper-edge-height to check it; under, around and "
    "behind are checked at the machine."
)
NOT_CHECKED_HERE = say(
    "Reaching over, under, around and behind the field is not checked here. Check it at the machine."
)


def both_or_none(inputs: Any) -> None:
    """Refuse one height without the other."""
    if (inputs.hazard_height is None) != (inputs.upper_edge_height is None):
        missing = "hazard-height" if inputs.hazard_height is None else "upper-edge-height"
        raise UsageError(say("{key} is missing. Give both heights, or neither.", key=missing))


def heights(w: Working, hazard: Any, edge: Any, edge_label: str) -> tuple[Any, Any]:
    """Take the two heights, in mm; somebody may mix them up."""
    hazard, edge = w.ask("heights", (hazard, edge))
    return (
        w.given("a", hazard, "length", mark("Height of the hazard above the floor")),
        w.given("b", edge, "length", edge_label),
    )


def read_grid(w: Working, name: str, a: Any, b: Any) -> tuple[Cell, ...]:
    """Return the cells around ``a`` in the column for ``b``; the largest of them counts."""
    known: Grid = grid(name)
    w.seen["grid"] = known
    column = known.column(b)
    if column is None:
        raise Refused(
            say(
                "An upper edge below {height} mm does not keep people from reaching or stepping over.",
                height=known.edges[0],
            )
        )
    return known.around(a, w.ask("column", column))


def field_reach(w: Working, hazard: Any, edge: Any) -> Any:
    """Take ``C_RO``, the reach over the upper edge of a field, in mm."""
    a, b = heights(w, hazard, edge, mark("Height of the upper edge of the field"))
    cells = read_grid(w, FIELD_TABLE, a, b)
    reach = w.ask("cells", Fraction(max(cell.value for cell in cells)))
    w.cite(sources.ISO_13855_6_5)
    return w.step("C_RO", mark("Reach over the upper edge, from the table"), "table(a, b)", reach)


def _interpolated(seen: Seen) -> Any:
    return seen["grid"].between(seen["a"], seen["b"])


def _next_row(seen: Seen) -> Any:
    known = seen["grid"]
    return Fraction(known.around(seen["a"], seen["column"])[-1].value)


def reading_slips(symbol: str) -> tuple[Slip, ...]:
    """Return the slips of reading a table of heights; ``symbol`` is the step that shows what was read."""
    return (
        Slip(
            code="interpolates-heights",
            title=mark("Interpolates between the heights of the table"),
            tell=mark("You interpolated. The table is never interpolated; take the value that gives more distance."),
            symbol=symbol,
            changes={"cells": pick(_interpolated)},
        ),
        Slip(
            code="edge-height-rounded-up",
            title=mark("Reads the next higher edge in the table"),
            tell=mark("You took the next higher edge. A lower edge is easier to reach over: take the next lower one."),
            symbol=symbol,
            changes={"column": pick(lambda seen: seen["grid"].column_above(seen["b"]))},
        ),
        Slip(
            code="swaps-heights",
            title=mark("Swaps the height of the hazard and the height of the edge"),
            tell=mark("You swapped the two heights. a is the hazard, b the edge."),
            symbol=symbol,
            changes={"heights": lambda value, _seen: (value[1], value[0])},
        ),
        Slip(
            code="next-higher-hazard",
            title=mark("Takes the row of the next higher hazard without looking at the other"),
            tell=mark("You took one row only. Between two rows the larger value counts."),
            symbol=symbol,
            changes={"cells": pick(_next_row)},
        ),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class BarrierReachOver(Inputs):
    """Inputs of reaching over a fixed structure."""

    hazard_height: HazardHeight
    barrier_height: Annotated[Any, Given("b", mark("Height of the barrier"), "length")]
    risk: Annotated[Any, Given("risk", mark("Risk"), "choice", choices=("low", "high"))] = "high"
    unverified: Unverified = "no"


HIGH_RISK = say("This part of the high-risk table is known from memory only. unverified=yes uses it, and says so.")


def _barrier(w: Working, g: Numbers) -> Any:
    a, b = heights(w, g.hazard_height, g.barrier_height, mark("Height of the barrier"))
    risk = w.given("risk", g.risk, "choice", mark("Risk; high for a press brake"))
    cells = read_grid(w, w.ask("table", LOW_TABLE if risk == "low" else HIGH_TABLE), a, b)
    read = all(cell.read for cell in cells)
    if not read:
        w.from_memory(HIGH_RISK, g.unverified)
    low = risk == "low"
    w.cite(sources.ISO_13857_LOW if low else sources.ISO_13857_HIGH if read else sources.ISO_13857_HIGH_MEMORY)
    if not low and b < 1400:
        w.warn(say("At high risk a barrier below 1400 mm needs further measures."))
    reach = w.ask("cells", Fraction(max(cell.value for cell in cells)))
    distance = w.step("c", mark("Distance from barrier to hazard, from the table"), "table(a, b)", reach)
    w.term("distance", distance)
    return distance


PROBLEMS = (
    Problem(
        name="barrier-reach-over",
        title=mark("Distance of a barrier that people can reach over"),
        inputs=BarrierReachOver,
        sum=_barrier,
        answer=answer("c", Sense.AT_LEAST),
        slips=(
            *reading_slips("c"),
            Slip(
                code="low-risk-table",
                title=mark("Reads the table for low risk"),
                tell=mark("You read the table for low risk. A press brake is high risk."),
                symbol="c",
                changes={"table": becomes(LOW_TABLE)},
            ),
            *UNIT_SLIPS,
        ),
    ),
)
