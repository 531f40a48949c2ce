"""The published tables: each says where it is from, rises or falls as it must, and is what the sheet holds."""

from fractions import Fraction
from itertools import pairwise
from pathlib import Path

import pytest
from safeguarding import straight_line

from trainer.safeguarding.openings import us_rows
from trainer.safeguarding.tables import FOLDER, HEADER, Grid, bands, grid, table

NAMES = sorted(path.stem for path in Path(FOLDER).glob("*.csv"))
GRIDS = ["iso-13855-reaching-over", "iso-13857-low-risk", "iso-13857-high-risk"]
BANDS = ["iso-13857-openings", "press-intrusion", "en-294-openings"]


@pytest.mark.parametrize("name", NAMES)
def test_a_table_says_where_it_is_from_and_how_it_is_read(name):
    about = table(name).about

    assert tuple(about) == HEADER
    for key in HEADER:
        assert about[key] or key == "year", key
    assert about["read"].split()[0] in {"original", "state-copy", "second-hand", "from-memory", "common-practice"}


@pytest.mark.parametrize("name", NAMES)
def test_every_row_is_as_wide_as_the_head(name):
    assert {len(row) for row in table(name).rows} == {len(table(name).columns)}


@pytest.mark.parametrize("name", GRIDS)
def test_a_higher_edge_is_never_easier_to_reach_over(name):
    known: Grid = grid(name)

    for height in known.heights:
        cells = [known.cells[height, edge].value for edge in known.edges]
        assert cells == sorted(cells, reverse=True), height
    assert len(known.cells) == len(known.heights) * len(known.edges)


@pytest.mark.parametrize(
    ("name", "cells", "edges"),
    [(GRIDS[0], straight_line.CRO, straight_line.CRO_B), (GRIDS[1], straight_line.LOW, straight_line.LOW_B),
     (GRIDS[2], straight_line.HIGH, straight_line.HIGH_B)],
)  # fmt: skip
def test_a_grid_reads_the_same_in_both_tables(name, cells, edges):
    known = grid(name)

    assert list(known.edges) == edges
    assert {(a, b): cell.value for (a, b), cell in known.cells.items()} == {
        (a, b): value for a, row in cells.items() for b, value in zip(edges, row, strict=True)
    }


def test_only_cells_that_were_read_in_a_source_are_without_a_star():
    read = {key for key, cell in grid("iso-13857-high-risk").cells.items() if cell.read}
    heights = grid("iso-13857-high-risk").heights

    assert read == (
        {(2000, 1400), (1000, 1400), (400, 1400), (1400, 1800), (1000, 1800), (2600, 2200), (2600, 2500)}
        | {(a, b) for a in heights for b in (2000, 2700)}
        | {(a, 2200) for a in heights if a <= 1600}
    )
    assert all(cell.read for name in GRIDS[:2] for cell in grid(name).cells.values())


@pytest.mark.parametrize("name", BANDS)
def test_bands_follow_one_another_and_never_ask_for_less(name):
    rows = bands(name)

    for before, after in pairwise(rows):
        assert before.to == after.above
        for column in set(table(name).columns) - {"above", "to", "short_slot", "cycle_start"}:
            assert Fraction(before.cells[column]) <= Fraction(after.cells[column])


def test_the_us_table_is_without_a_gap_and_rises():
    rows = us_rows()

    assert len(rows) == 10
    for before, after in pairwise(rows):
        assert before.last == after.first
        assert before.opening < after.opening


def test_the_quantiles_fall_with_the_degrees_of_freedom():
    freedoms, quantiles = zip(*((int(f), Fraction(t)) for f, t in table("student-t").rows), strict=True)

    assert list(freedoms) == sorted(freedoms)
    assert list(quantiles) == sorted(quantiles, reverse=True)


def test_the_numbers_of_a_rating_rise():
    for factor in ("severity", "exposure", "likelihood", "persons"):
        numbers = [Fraction(row["number"]) for row in table("hazard-rating").records() if row["factor"] == factor]
        assert numbers == sorted(numbers)


@pytest.mark.parametrize(
    ("a", "b", "expected"),
    [(1000, 1400, 700), (1000, 1599, Fraction("3.5")), (900, 1350, 600), (3000, 900, 0), (1000, 2800, 0)],
)
def test_interpolation_is_there_only_to_name_the_mistake(a, b, expected):
    assert grid(GRIDS[0]).between(Fraction(a), Fraction(b)) == expected
