"""Hazard rating numbers, by one published scale."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from typing import Annotated, Any

from trainer.safeguarding import sources
from trainer.safeguarding.inputs import Given, Inputs, Numbers
from trainer.safeguarding.problem import Problem, answer
from trainer.safeguarding.result import Sense
from trainer.safeguarding.slips import Slip, becomes, pick
from trainer.safeguarding.tables import table
from trainer.safeguarding.working import Working
from trainer.wording import mark, say

BANDS = {
    "negligible": mark("Negligible risk on this scale."),
    "low": mark("Low risk on this scale."),
    "high": mark("High risk on this scale."),
    "unacceptable": mark("Unacceptable risk on this scale."),
}


@cache
def scale(factor: str) -> Mapping[str, Fraction]:
    """Return the numbers of a factor, by word and by number as written."""
    numbers: dict[str, Fraction] = {}
    for row in table("hazard-rating").records():
        if row["factor"] == factor:
            numbers.update({name: Fraction(row["number"]) for name in (row["word"], row["number"]) if name})
    return numbers


@dataclass(frozen=True, slots=True, kw_only=True)
class HazardRating(Inputs):
    """Inputs of a hazard rating; each word or number of the scale may be given."""

    severity: Annotated[Any, Given("S", mark("Worst injury that is likely"), "choice", tuple(scale("severity")))]
    exposure: Annotated[Any, Given("F", mark("How often people are exposed"), "choice", tuple(scale("exposure")))]
    likelihood: Annotated[Any, Given("O", mark("How likely it is to happen"), "choice", tuple(scale("likelihood")))]
    persons: Annotated[Any, Given("N", mark("Persons at risk"), "count", least=1)]


def persons_number(count: int) -> Fraction:
    """Return the number of the scale for a count of persons."""
    rows = [row for row in table("hazard-rating").records() if row["factor"] == "persons"]
    return next(Fraction(row["number"]) for row in rows if not row["word"] or count <= int(row["word"]))


def band(rating: Fraction) -> str:
    """Return the band of a rating; between two bands the worse."""
    rows = [row for row in table("hazard-rating").records() if row["factor"] == "band"]
    return next(row["word"] for row in rows if not row["number"] or rating <= Fraction(row["number"]))


def _sum(w: Working, g: Numbers) -> Any:
    severity = w.given("S", scale("severity")[g.severity], "number", mark("Worst injury that is likely"))
    exposure = w.given("F", scale("exposure")[g.exposure], "number", mark("How often people are exposed"))
    persons = w.given("N", w.ask("persons", persons_number(g.persons)), "number", mark("Persons at risk, by the scale"))
    likely = w.given("O", scale("likelihood")[g.likelihood], "number", mark("How likely it is to happen"))
    product = severity * exposure * persons * likely
    rating = w.step("R", mark("Hazard rating"), "S × F × N × O", product, "number")
    w.word = BANDS[band(rating)]
    w.warn(
        say(
            "Scales differ: another published one puts the same hazard into another band. Name the scale with the number."
        ),
        say("A low number is no licence to leave a hazard that a guard would remove."),
    )
    w.cite(sources.HAZARD_RATING)
    return rating


SLIPS = (
    Slip(
        code="adds",
        title=mark("Adds the four numbers"),
        tell=mark("You added the numbers. On this scale they are multiplied."),
        symbol="R",
        changes={"R": pick(lambda seen: seen["S"] + seen["F"] + seen["N"] + seen["O"])},
    ),
    Slip(
        code="leaves-out-persons",
        title=mark("Leaves out the persons at risk"),
        tell=mark("You left out how many persons are at risk."),
        symbol="N",
        changes={"N": becomes(Fraction(1))},
    ),
    Slip(
        code="leaves-out-exposure",
        title=mark("Leaves out the exposure"),
        tell=mark("You left out how often people are exposed."),
        symbol="F",
        changes={"F": becomes(Fraction(1))},
    ),
    Slip(
        code="leaves-out-likelihood",
        title=mark("Leaves out the likelihood"),
        tell=mark("You left out how likely it is."),
        symbol="O",
        changes={"O": becomes(Fraction(1))},
    ),
)

PROBLEMS = (
    Problem(
        name="hazard-rating",
        title=mark("Hazard rating number"),
        inputs=HazardRating,
        sum=_sum,
        answer=answer("R", Sense.VALUE, "number"),
        slips=SLIPS,
    ),
)
