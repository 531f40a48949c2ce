"""Gaps in which a part of the body is crushed."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Annotated, Any

from trainer.safeguarding import sources
from trainer.safeguarding.inputs import Given, Inputs, Numbers
from trainer.safeguarding.problem import Problem, answer
from trainer.safeguarding.result import Sense
from trainer.safeguarding.slips import UNIT_SLIPS, Slip
from trainer.safeguarding.tables import table
from trainer.safeguarding.working import Working
from trainer.wording import mark, say

PARTS = ("finger", "toes", "hand", "arm", "foot", "leg", "head", "body")
CRUSHES = mark("Crush hazard.")
WIDE_ENOUGH = mark("Wide enough for this part of the body.")


@dataclass(frozen=True, slots=True, kw_only=True)
class CrushGap(Inputs):
    """Inputs of the question whether a gap crushes a part of the body."""

    body_part: Annotated[Any, Given("part", mark("Part of the body"), "choice", choices=PARTS)]
    gap: Annotated[Any, Given("g", mark("Narrowest gap between the moving parts"), "length")]


def least_gaps() -> dict[str, Fraction]:
    """Return the least gap for each part of the body, in mm."""
    return {part: Fraction(gap) for part, gap in table("iso-13854-gaps").rows}


def _sum(w: Working, g: Numbers) -> Any:
    part = w.given("part", g.body_part, "choice", mark("Part of the body"))
    gap = w.given("g", g.gap, "length", mark("Narrowest gap"))
    least = w.step("g_min", mark("Least gap, from the table"), "table(part)", least_gaps()[part])
    wide = gap >= least
    w.word = WIDE_ENOUGH if wide else CRUSHES
    larger = [other for other, size in least_gaps().items() if gap < size and size > least]
    if wide and larger:
        w.warn(say("This gap still crushes: {parts}.", parts=", ".join(larger)))
    w.warn(say("This is about crushing only, not about impact, shearing or drawing in."))
    w.cite(sources.ISO_13854)
    return least


def _neighbour(step: int) -> Slip:
    sizes = ("next-larger-part", "next-smaller-part")
    titles = (mark("Reads the line of a larger part"), mark("Reads the line of a smaller part"))
    tells = (mark("You read the line of a larger part."), mark("You read the line of a smaller part."))
    pick = 0 if step > 0 else 1
    return Slip(
        code=sizes[pick],
        title=titles[pick],
        tell=tells[pick],
        symbol="g_min",
        changes={"part": lambda value, _seen: PARTS[min(max(PARTS.index(value) + step, 0), len(PARTS) - 1)]},
    )


PROBLEMS = (
    Problem(
        name="crush-gap",
        title=mark("Least gap so that a part of the body is not crushed"),
        inputs=CrushGap,
        sum=_sum,
        answer=answer("g_min", Sense.AT_LEAST),
        slips=(
            _neighbour(1),
            _neighbour(-1),
            *UNIT_SLIPS,
        ),
    ),
)
