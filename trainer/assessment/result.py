"""The result of a paper: how many were right, whether everything critical was, and what it comes to."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from itertools import takewhile
from math import ceil
from types import MappingProxyType
from typing import Any

from trainer.assessment.ending import decided, plan_for
from trainer.assessment.marking import Mark
from trainer.assessment.paper import Paper, Sheet
from trainer.assessment.sequential import Decision
from trainer.bank import Bank
from trainer.bank.model import Programme


@dataclass(frozen=True, slots=True, kw_only=True)
class Result:
    """What a paper came to.

    ``needed`` of ``out_of`` have to be right, rounded up, and every critical sheet as well. ``critical_missed`` holds
    the competencies of the critical sheets that were not right; ``by_competency`` maps to (right, asked). With
    ``ended_early`` the programme's stopping rule settled it before the last sheet, and only what was asked counts.
    """

    passed: bool
    right: int
    out_of: int
    needed: int
    critical_missed: tuple[str, ...]
    by_competency: Mapping[str, tuple[int, int]]
    ended_early: bool = False

    def as_data(self) -> dict[str, Any]:
        """Return it as plain data that JSON can hold."""
        data = {
            "passed": self.passed,
            "right": self.right,
            "out_of": self.out_of,
            "needed": self.needed,
            "critical_missed": list(self.critical_missed),
            "by_competency": {name: list(counts) for name, counts in self.by_competency.items()},
        }
        return data | ({"ended_early": True} if self.ended_early else {})


def result(bank: Bank, paper: Paper, marks: Iterable[Mark]) -> Result:
    """Sum up a paper. A sheet without a mark was not answered and is not right; a mark for no sheet of it is ignored."""
    given = list(marks)
    right_items = {mark.item for mark in given if mark.right}
    programme, sheets = bank.programme(paper.programme), paper.marked
    decision = decided(programme, paper, given)
    if decision in {Decision.PASSED, Decision.FAILED}:
        return _ended(programme, paper, given, decision)
    right = sum(sheet.item in right_items for sheet in sheets)
    needed = ceil(programme.pass_share * len(sheets))
    missed = dict.fromkeys(sheet.competency for sheet in sheets if sheet.critical and sheet.item not in right_items)
    return Result(
        passed=bool(sheets) and right >= needed and not missed and decision is not Decision.UNDECIDED,
        right=right,
        out_of=len(sheets),
        needed=needed,
        critical_missed=tuple(missed),
        by_competency=_by_competency(sheets, right_items),
    )


def _ended(programme: Programme, paper: Paper, marks: list[Mark], decision: Decision) -> Result:
    """Sum up a paper that its stopping rule ended: what was not asked any more counts for nothing."""
    answered = {mark.item for mark in marks}
    right_items = {mark.item for mark in marks if mark.right}
    sheets = tuple(takewhile(lambda sheet: sheet.item in answered, paper.marked))
    plan = plan_for(programme, paper)
    missed = dict.fromkeys(sheet.competency for sheet in sheets if sheet.critical and sheet.item not in right_items)
    return Result(
        passed=decision is Decision.PASSED and not missed,
        right=sum(sheet.item in right_items for sheet in sheets),
        out_of=len(sheets),
        needed=(plan.passes_at(len(sheets)) if plan else None) or len(sheets),
        critical_missed=tuple(missed),
        by_competency=_by_competency(sheets, right_items),
        ended_early=len(sheets) < len(paper.marked),
    )


def _by_competency(sheets: Iterable[Sheet], right_items: set[str]) -> Mapping[str, tuple[int, int]]:
    counts: dict[str, tuple[int, int]] = {}
    for sheet in sheets:
        right, asked = counts.get(sheet.competency, (0, 0))
        counts[sheet.competency] = (right + (sheet.item in right_items), asked + 1)
    return MappingProxyType(counts)
