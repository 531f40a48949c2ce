"""Each computed drill names a problem that the sums know, with its inputs and its slips."""

from collections.abc import Iterator
from typing import Any, ClassVar

from trainer.bank.draft import Draft
from trainer.bank.model import ComputeDrill, JudgeDrill, RuleDrill
from trainer.findings import Finding
from trainer.safeguarding.problems import PROBLEMS


class UnknownProblem(Finding):
    """A problem that there is no sum for."""

    code: ClassVar[str] = "unknown-problem"
    title: ClassVar[str] = "There is no such problem."
    fix: ClassVar[str] = "Take a name that “trainer calc --list” prints."


class UnknownInput(Finding):
    """An input that the problem does not have."""

    code: ClassVar[str] = "unknown-input"
    title: ClassVar[str] = "The problem has no such input."
    fix: ClassVar[str] = "Take a name that “trainer calc --list” prints for this problem."


class MissingInput(Finding):
    """An input that the problem needs and the drill does not give."""

    code: ClassVar[str] = "missing-input"
    title: ClassVar[str] = "An input of the problem is missing."
    fix: ClassVar[str] = "Give it a value, a list or a range."


class UnknownSlip(Finding):
    """A slip that the problem does not know."""

    code: ClassVar[str] = "unknown-slip"
    title: ClassVar[str] = "The problem knows no such slip."
    fix: ClassVar[str] = "Take a code that “trainer calc --list” prints for this problem."


finds = (UnknownProblem, UnknownInput, MissingInput, UnknownSlip)


def check(draft: Draft) -> Iterator[Finding]:
    """Compare each computed drill with its problem."""
    for drill in draft.bank.computed.values():
        problem = PROBLEMS.get(drill.problem)
        if problem is None:
            note = f"“{drill.problem}” is none of {', '.join(PROBLEMS)}."
            yield draft.at(UnknownProblem, drill.id, "problem", note=note)
        else:
            yield from _compared(draft, drill, problem)
    for other in draft.bank.drills.values():
        if isinstance(other, JudgeDrill):
            yield from _judged(draft, other)
        elif isinstance(other, RuleDrill):
            yield from _rules(draft, other)


def _judged(draft: Draft, drill: JudgeDrill) -> Iterator[Finding]:
    for number, code in enumerate(drill.slips):
        if code not in drill.base.slips:
            note = f"{drill.base.id} tells no slip {code} apart."
            yield draft.at(UnknownSlip, drill.id, "slips", number, note=note)


def _rules(draft: Draft, drill: RuleDrill) -> Iterator[Finding]:
    for number, situation in enumerate(drill.situations):
        for name in situation.offered:
            if name not in PROBLEMS:
                note = f"“{name}” is none of {', '.join(PROBLEMS)}."
                yield draft.at(UnknownProblem, drill.id, "situations", number, "offered", note=note)
        if situation.right not in situation.offered:
            note = f"“{situation.right}” is not offered."
            yield draft.at(UnknownProblem, drill.id, "situations", number, "right", note=note)


def _compared(draft: Draft, drill: ComputeDrill, problem: Any) -> Iterator[Finding]:
    fields = {field.key: field for field in problem.fields}
    for key in drill.inputs:
        if key not in fields:
            yield draft.at(UnknownInput, drill.id, "inputs", key, note=f"{problem.name} has no input {key}.")
    for key, field in fields.items():
        if key not in drill.inputs and not field.optional:
            yield draft.at(MissingInput, drill.id, "inputs", note=f"{problem.name} needs {key}.")
    known = {slip.code for slip in problem.slips}
    for number, code in enumerate(drill.slips):
        if code not in known:
            yield draft.at(UnknownSlip, drill.id, "slips", number, note=f"{problem.name} knows no slip {code}.")
