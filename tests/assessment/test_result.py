import json
from fractions import Fraction

import pytest

from trainer.assessment.marking import Mark, Verdict
from trainer.assessment.paper import Paper, Sheet, SheetKind
from trainer.assessment.result import result

PROGRAMME = "press-brake-operator-induction"  # four fifths have to be right


def sheet(
    number: int, competency: str = "ends", *, critical: bool = False, kind: SheetKind = SheetKind.QUESTION
) -> Sheet:
    return Sheet(number=number, kind=kind, item=f"q{number}", version=1, competency=competency, critical=critical)


def paper(*sheets: Sheet) -> Paper:
    return Paper(programme=PROGRAMME, edition=1, fingerprint="", seed=1, sheets=sheets)


def marks(*right: bool) -> list[Mark]:
    return [
        Mark(item=f"q{number}", competency="ends", verdict=Verdict.RIGHT if one else Verdict.WRONG, right=one)
        for number, one in enumerate(right, 1)
    ]


@pytest.mark.parametrize(
    ("asked", "right", "needed", "passed"),
    [(10, 8, 8, True), (10, 7, 8, False), (9, 8, 8, True), (9, 7, 8, False), (1, 1, 1, True), (4, 3, 4, False)],
)
def test_the_share_is_rounded_up_to_whole_sheets(bank, asked, right, needed, passed):
    assert bank.programmes[PROGRAMME].pass_share == Fraction(4, 5)
    came = result(bank, paper(*map(sheet, range(1, asked + 1))), marks(*[True] * right, *[False] * (asked - right)))

    assert (came.right, came.out_of, came.needed, came.passed) == (right, asked, needed, passed)


def test_one_critical_sheet_missed_fails_whatever_the_rest(bank):
    sheets = [sheet(1, "ends", critical=True), *(sheet(number, "other") for number in range(2, 21))]

    came = result(bank, paper(*sheets), marks(False, *[True] * 19))

    assert (came.passed, came.right, came.critical_missed) == (False, 19, ("ends",))


def test_a_sheet_that_was_not_answered_is_not_right(bank):
    came = result(bank, paper(sheet(1), sheet(2, critical=True)), marks(True))

    assert (came.right, came.out_of, came.passed, came.critical_missed) == (1, 2, False, ("ends",))


def test_lessons_are_not_marked(bank):
    came = result(bank, paper(sheet(1, kind=SheetKind.LESSON), sheet(2)), marks(False, True))

    assert (came.right, came.out_of, came.passed) == (1, 1, True)


def test_a_mark_of_another_paper_changes_nothing(bank):
    came = result(bank, paper(sheet(2)), marks(True))

    assert (came.right, came.passed) == (0, False)


def test_an_empty_paper_is_never_passed(bank):
    assert not result(bank, paper(), []).passed


def test_the_counts_by_competency_add_up(bank):
    came = result(bank, paper(sheet(1, "ends"), sheet(2, "ends"), sheet(3, "back")), marks(True, False, True))

    assert dict(came.by_competency) == {"ends": (1, 2), "back": (1, 1)}
    assert json.loads(json.dumps(came.as_data()))["by_competency"] == {"ends": [1, 2], "back": [1, 1]}
