"""The result of a paper: how many were right, whether everything critical was, and what it comes to."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from math import ceil
from types import MappingProxyType
from typing import Any

from trainer.assessment.marking import Mark
from trainer.assessment.paper import Paper
from trainer.bank import Bank


@dataclass(frozen=True, slots=True, kw_only=True)
class Result:
    """What a paper came to.

    ``needed`` of ``out_of`` have to be right, rounded up, and every critical sheet as well. ``critical_missed`` holds
    the competencies of the critical sheets that were not right; ``by_competency`` maps to (right, asked).
    """

    passed: bool
    right: int
    out_of: int
    needed: int
    critical_missed: tuple[str, ...]
    by_competency: Mapping[str, tuple[int, int]]

    def as_data(self) -> dict[str, Any]:
        """Return it as plain data that JSON can hold."""
        return {
            "passed": self.passed,
            "right": self.right,
            "out_of": self.out_of,
            "needed": self.needed,
            "critical_missed": list(self.critical_missed),
            "by_competency": {name: list(counts) for name, counts in self.by_competency.items()},
        }


def result(bank: Bank, paper: Paper, marks: Iterable[Mark]) -> Result:
    """Sum up a paper. A sheet without a mark was not answered and is not right; a mark for no sheet of it is ignored."""
    right_items = {mark.item for mark in marks if mark.right}
    sheets = paper.marked
    right = sum(sheet.item in right_items for sheet in sheets)
    needed = ceil(bank.programme(paper.programme).pass_share * len(sheets))
    missed = dict.fromkeys(sheet.competency for sheet in sheets if sheet.critical and sheet.item not in right_items)
    return Result(
        passed=bool(sheets) and right >= needed and not missed,
        right=right,
        out_of=len(sheets),
        needed=needed,
        critical_missed=tuple(missed),
        by_competency=_by_competency(paper, right_items),
    )


def _by_competency(paper: Paper, right_items: set[str]) -> Mapping[str, tuple[int, int]]:
    counts: dict[str, tuple[int, int]] = {}
    for sheet in paper.marked:
        right, asked = counts.get(sheet.competency, (0, 0))
        counts[sheet.competency] = (right + (sheet.item in right_items), asked + 1)
    return MappingProxyType(counts)
