"""When a paper may end before its last sheet: where its programme has a stopping rule and enough is known.

What is critical comes first in such a paper, and no pass comes before all of it was asked; so ending early never
leaves out what must be right.
"""

from collections.abc import Iterable, Sequence

from trainer.assessment.marking import Mark
from trainer.assessment.paper import Paper, Sheet, SheetKind
from trainer.assessment.sequential import Decision, Plan
from trainer.bank.model import Programme


def plan_for(programme: Programme, paper: Paper) -> Plan | None:
    """Return the sequential test of a paper; None where its programme has no stopping rule."""
    rule, marked = programme.stops, paper.marked
    if rule is None or not marked:
        return None
    least = max((place for place, sheet in enumerate(marked, 1) if must_be_asked(sheet)), default=1)
    return Plan(
        low=rule.low,
        high=rule.high,
        false_pass=rule.false_pass,
        false_fail=rule.false_fail,
        most=len(marked),
        least=least,
    )


def decided(programme: Programme, paper: Paper, marks: Iterable[Mark]) -> Decision:
    """Say whether the sheets answered so far settle a paper. ``marks`` are those of answers that stand."""
    plan = plan_for(programme, paper)
    if plan is None:
        return Decision.GO_ON
    known = {mark.item: mark.right for mark in marks}
    answers = _from_the_first(paper.marked, known)
    right = 0
    for asked, answer in enumerate(answers, 1):
        right += answer
        decision = plan.decide(right, asked)
        if decision in {Decision.PASSED, Decision.FAILED}:
            return decision
    return Decision.UNDECIDED if len(answers) == plan.most else Decision.GO_ON


def must_be_asked(sheet: Sheet) -> bool:
    """Say whether a sheet has to be asked before anybody passes: a critical one, or a drill."""
    return sheet.critical or sheet.kind is SheetKind.DRILL


def _from_the_first(sheets: Sequence[Sheet], known: dict[str, bool]) -> list[bool]:
    """Return the answers in the order of the sheets, up to the first that is open."""
    answers = []
    for sheet in sheets:
        if sheet.item not in known:
            break
        answers.append(known[sheet.item])
    return answers
