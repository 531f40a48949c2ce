"""Every problem under its name, and how they are read."""

from collections.abc import Mapping
from dataclasses import replace
from types import MappingProxyType

from trainer.errors import Missing
from trainer.safeguarding import (
    ansi,
    blanking,
    cross,
    forces,
    gaps,
    inverse,
    iso_fields,
    iso_orthogonal,
    openings,
    pressbrake,
    rating,
    reach,
    readings,
    two_hand,
    us,
    us_initiation,
)
from trainer.safeguarding.inputs import Field, short
from trainer.safeguarding.problem import Answer, Figure, Problem
from trainer.safeguarding.slips import Slip
from trainer.wording import say

FAMILIES = (
    us,
    us_initiation,
    ansi,
    iso_orthogonal,
    iso_fields,
    two_hand,
    pressbrake,
    blanking,
    inverse,
    openings,
    reach,
    gaps,
    readings,
    forces,
    rating,
)
PROBLEMS: Mapping[str, Problem] = MappingProxyType(
    {
        problem.name: replace(problem, slips=(*problem.slips, *cross.ALSO.get(problem.name, ())))
        for family in FAMILIES
        for problem in family.PROBLEMS
    }
)


def problem(name: str) -> Problem:
    """Return the problem with that name; raises :class:`Missing` with the names that there are."""
    try:
        return PROBLEMS[name]
    except KeyError:
        known = ", ".join(PROBLEMS)
        raise Missing(say("There is no problem “{name}”. There are {known}.", name=short(name), known=known)) from None


__all__ = ["PROBLEMS", "Answer", "Field", "Figure", "Problem", "Slip", "problem"]
