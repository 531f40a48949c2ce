import re
from datetime import date, timedelta

import pytest
from figures import svg as read
from hypothesis import given, settings
from hypothesis import strategies as st

from trainer.figures import StripEnd, StripRow, due_strip
from trainer.figures.strip import FROM, TO

TODAY = date(2026, 3, 9)
DAYS = 90


def row(*ends, shift="Late", machine="PB-1", beyond=0, short_from=None, item=None):
    made = tuple(StripEnd(name=name, on=TODAY + timedelta(days=days), item=None) for name, days in ends)
    return StripRow(
        shift=shift,
        machine=machine,
        now=len(ends) + beyond,
        ends=made,
        beyond=beyond,
        short_from=None if short_from is None else TODAY + timedelta(days=short_from),
        item=item,
    )


def drawn(*rows):
    return due_strip(rows, today=TODAY, days=DAYS, write_day=lambda day: f"{day:%-d %b %Y}")


def stops(svg):
    """Return the px of the stop at the end of each line."""
    found = re.findall(r'<path class="cut" d="M(\S+) (\S+)L(\S+) (\S+)"', svg)
    return [float(x) for x, y, same, end in found if x == same and float(end) - float(y) == 12]


@pytest.mark.parametrize("days", [0, 1, 30, 89])
def test_a_line_ends_with_the_last_day_that_it_holds(days):
    svg = drawn(row(("Luka Horn", days))).svg
    assert stops(svg) == [pytest.approx(FROM + (TO - FROM) * (days + 1) / DAYS, abs=0.01)]


def test_what_is_short_is_hatched_from_the_first_day_with_fewer_than_two_to_the_edge():
    svg = drawn(row(("Luka Horn", 44), beyond=1, short_from=45)).svg
    x, _y, width, _height = next(read.boxes_of(svg, "hatched"))
    assert x == pytest.approx(stops(svg)[0], abs=0.01)
    assert x + width == pytest.approx(TO, abs=0.01)


def test_the_text_names_who_ends_when_and_from_when_too_few_are_left():
    text = drawn(row(("Luka Horn", 44), beyond=1, short_from=45)).text
    assert text == "PB-1 Late: Luka Horn ends 22 Apr 2026. PB-1 Late: fewer than two from 23 Apr 2026."


def test_nothing_that_ends_is_said_in_words():
    assert drawn(row(beyond=3)).text == "Nothing ends within the strip."


def test_a_shift_is_named_once():
    svg = drawn(row(machine="PB-1", beyond=2), row(machine="PB-2", beyond=2), row(shift="Night", beyond=2)).svg
    assert [words.text for words in read.words_of(svg)].count("Late") == 1


PEOPLE = st.lists(
    st.tuples(st.sampled_from(["Li Wu", "Ann-Sofie Rademaker", "Jun Ito"]), st.integers(0, 89)), max_size=4
)


@settings(max_examples=60, deadline=None)
@given(ends=PEOPLE, beyond=st.integers(0, 3), short=st.one_of(st.none(), st.integers(0, 89)))
def test_no_name_meets_another_whoever_ends_when(ends, beyond, short):
    svg = drawn(row(*ends, beyond=beyond, short_from=short, item=3), row(machine="PB-2", beyond=2)).svg
    assert read.overlapping(svg, 13) == []
    assert read.off_the_sheet(svg, 13) == []


def test_ids_are_unique_and_the_same_rows_give_the_same_bytes():
    one = drawn(row(("Luka Horn", 44), beyond=1, short_from=45)).svg
    assert len(read.ids(one)) == len(set(read.ids(one)))
    assert one == drawn(row(("Luka Horn", 44), beyond=1, short_from=45)).svg
