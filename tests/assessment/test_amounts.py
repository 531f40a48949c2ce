from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from trainer.assessment.amounts import exact_text, unit_of
from trainer.units import Q, parse


@pytest.mark.parametrize(
    ("quantity", "text"),
    [
        (Q(335, "mm"), "335 mm"),
        (Q("17/2", "inch"), "8.5 in"),
        (Q("129/16", "inch"), "8.0625 in"),
        (Q("25/3", "inch"), "25/3 in"),
        (Q("21.5", "cm"), "21.5 cm"),
        (Q(0, "mm"), "0 mm"),
        (Q(1000, "mm"), "1000 mm"),
    ],
)
def test_a_quantity_is_written_in_the_unit_it_came_in(quantity, text):
    assert exact_text(quantity, "length") == text


@settings(deadline=None)
@given(st.fractions(min_value=0, max_value=100_000, max_denominator=64), st.sampled_from(["mm", "cm", "m", "inch"]))
def test_what_is_written_reads_as_exactly_the_same(number, unit):
    quantity = Q(Fraction(number), unit)

    read = parse(exact_text(quantity, "length"), "length")

    assert read == quantity
    assert unit_of(read, "length") == unit


def test_no_unit_is_written_for_a_plain_number():
    assert exact_text(Q("2.5", ""), "number") == "2.5"
