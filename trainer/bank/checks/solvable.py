"""Whatever a drill may draw, its problem gives a figure: the corners of its ranges are worked out."""

from collections.abc import Iterator
from itertools import islice, product
from typing import Any, ClassVar

from trainer.bank.draft import Draft
from trainer.bank.model import ComputeDrill
from trainer.errors import TrainerError
from trainer.findings import Finding
from trainer.safeguarding.problems import PROBLEMS

MOST = 1024  # corners; ten inputs with two ends each


class NoFigure(Finding):
    """A draw that the problem refuses, such as a field too coarse to see a hand."""

    code: ClassVar[str] = "no-figure"
    title: ClassVar[str] = "The problem gives no figure for something that may be drawn."
    fix: ClassVar[str] = "Narrow the ranges until each draw can be worked out."


finds = (NoFigure,)


def check(draft: Draft) -> Iterator[Finding]:
    """Work out the corners of each computed drill."""
    for drill in draft.bank.computed.values():
        problem = PROBLEMS.get(drill.problem)
        if problem is not None:
            yield from _corners(draft, drill, problem)


def _corners(draft: Draft, drill: ComputeDrill, problem: Any) -> Iterator[Finding]:
    try:
        ends = [sorted({*given.values()[:1], *given.values()[-1:]}) for given in drill.inputs.values()]
    except (ValueError, ZeroDivisionError):
        return  # told by the check of the ranges
    for corner in islice(product(*ends), MOST):
        drawn = dict(zip(drill.inputs, corner, strict=True))
        note = _trouble(problem, drawn)
        if note:
            shown = ", ".join(f"{key} {value}" for key, value in drawn.items())
            yield draft.at(NoFigure, drill.id, "inputs", note=f"{shown}: {note}")
            return


def _trouble(problem: Any, drawn: dict[str, str]) -> str:
    try:
        worked = problem.solve(problem.read(drawn))
    except TrainerError as error:
        return str(error)
    return str(worked.refusal) if worked.refusal else ""
