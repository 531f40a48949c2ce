"""A figure is typed nowhere that a sum or a fact should give it: lessons, scenes, right answers, drills."""

import pytest
from bank.bad import EN, KINDS_EN
from bank.scratch import ScratchBank

CHOICE_EN, DISTANCE_EN = "drills/choice/en.yaml", "drills/distance/en.yaml"


def typed(bank: ScratchBank) -> list[str]:
    return [row[0] for row in bank.load().report.rows("note", "code") if row[1] == "typed-figure"]


@pytest.mark.parametrize(
    ("file", "old", "new", "figure"),
    [
        (EN, "A hand goes through the gap.", "A hand goes 999 mm through the gap.", "999 mm"),
        (EN, "A hand goes through the gap.", "The gap needs 250 ms to close.", "250 ms"),
        (EN, "told: The gap at the end is open.", "told: The rule needs 777 mm here.", "777 mm"),
        (KINDS_EN, "c: The ram hits it.", "c: It is 80 mm in.", "80 mm"),
        (CHOICE_EN, "Nothing is fitted at all.", "A curtain stands 980 mm out.", "980 mm"),
        (DISTANCE_EN, "told: ", "told: It needs 345 mm. ", "345 mm"),
    ],
    ids=["lesson length", "lesson demand", "scene demand", "right answer", "fact of a setting", "drill demand"],
)
def test_a_figure_from_nowhere_is_told(scratch_bank: ScratchBank, file, old, new, figure):
    scratch_bank.with_kinds().replace(file, old, new)

    assert typed(scratch_bank) == [f"“{figure}”."]


@pytest.mark.parametrize(
    ("file", "old", "new"),
    [
        (EN, "told: The gap at the end is open.", "told: The gap is 60 mm wide."),
        (EN, "A hand goes through the gap.", "The ram stops after 250 ms."),
    ],
    ids=["what is so in a scene", "a time that is so in a lesson"],
)
def test_what_is_so_may_be_told(scratch_bank: ScratchBank, file, old, new):
    scratch_bank.with_kinds().replace(file, old, new)

    assert typed(scratch_bank) == []
