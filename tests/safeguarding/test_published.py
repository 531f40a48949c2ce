"""The published tables as they are read on a sheet: the same figures as the sums, and nothing from memory."""

from fractions import Fraction

import pytest

from trainer.safeguarding.problems import PROBLEMS
from trainer.safeguarding.published import BLANK, MAKERS, published
from trainer.safeguarding.tables import table


@pytest.mark.parametrize("name", MAKERS)
def test_a_table_has_a_source_heads_and_whole_rows(name: str):
    found = published(name)

    assert name in PROBLEMS
    assert found.source
    assert {len(row) for row in found.rows} == {len(found.heads)}
    assert len(found.rows) > 1


def test_a_sum_without_a_table_has_none():
    assert published("us-presence-sensing") is None


def test_openings_are_rounded_down_as_the_sum_rounds_them():
    # 29 CFR 1910.217 Table O-10: 5/2 to 7/2 in, 1/2 in; 1/2 to 3/2 in, 1/4 in = 6.35 mm.
    rows = dict(published("us-guard-opening").rows)

    assert rows["63.5–88.9"] == "12.7"
    assert rows["12.7–38.1"] == "6.3"


def test_what_the_sum_gives_stands_in_the_table():
    sum_ = PROBLEMS["iso-guard-opening"]
    for row in published("iso-guard-opening").rows[1:]:
        for shape, cell in zip(("slot", "square", "round"), row[1:], strict=True):
            worked = sum_.solve(sum_.read({"shape": shape, "opening": f"{row[0]} mm"}))
            assert Fraction(worked.rounded.magnitude) == Fraction(cell)


def test_no_cell_from_memory_is_shown():
    starred = {cell.rstrip("*") for row in table("iso-13857-high-risk").rows for cell in row if cell.endswith("*")}
    shown = {cell for row in published("barrier-reach-over").rows for cell in row[1:]}

    assert BLANK in shown
    assert "1500" in starred
    assert "1500" not in shown
