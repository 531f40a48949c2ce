"""Quantities: what people type, what people read, and rounding to the safe side."""

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trainer.errors import BadQuantity
from trainer.units import Q, digits, has_dimension, magnitude, parse, read_quantity, round_down, round_up, show


@pytest.mark.parametrize(
    "text", ['8 1/2"', "8-1/2 in", "8 1/2 inch", "8.5''", "8,5 in", "8½ in", "  8.5   IN. ", "0.2159 m", "21,59 cm"]
)
def test_eight_and_a_half_inches_is_215_9_mm_exactly_however_it_is_typed(text):
    reading = read_quantity(text, "length", "mm")

    assert reading.clear
    assert magnitude(reading.candidates[0], "mm") == Fraction("215.9")


@pytest.mark.parametrize(
    ("text", "dimension", "unit", "expected"),
    [
        ("1600", "speed", "mm/s", Fraction(1600)),
        ("1,6 m/s", "speed", "mm/s", Fraction(1600)),
        ("63 in/s", "speed", "mm/s", Fraction("1600.2")),
        ("190 ms", "time", "s", Fraction("0.19")),
        (".5 in", "length", "mm", Fraction("12.7")),
        ("12 345 mm", "length", "mm", Fraction(12345)),
    ],
)
def test_a_number_with_its_unit_is_read_exactly(text, dimension, unit, expected):
    assert magnitude(read_quantity(text, dimension, unit).candidates[0], unit) == expected


def test_a_comma_before_three_digits_can_be_two_numbers_and_is_not_guessed():
    reading = read_quantity("1,234 mm", "length", "mm")

    assert [magnitude(candidate, "mm") for candidate in reading.candidates] == [Fraction("1.234"), Fraction(1234)]
    with pytest.raises(BadQuantity, match="two numbers"):
        parse("1,234 mm", "length")


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "Nothing was typed"),
        ("   ", "Nothing was typed"),
        ("2l5 mm", "“l5 mm” after the number is not understood"),
        ("O.3 s", "does not start with a number"),
        ("nan", "does not start with a number"),
        ("inf mm", "does not start with a number"),
        ("215 mm approx", "“mm approx”"),
        ("200-220", "“-220”"),
        ("215 ± 2", "“± 2”"),
        ("-215", "less than nothing"),
        ("−215 mm", "less than nothing"),
        ('8 1/0"', "divides by nought"),
        ("1e3 mm", "“e3 mm”"),
        ("=2+3", "does not start with a number"),
        ("<b>215</b>", "does not start with a number"),
        ("9" * 10_000, "10000 characters"),
        ("215 kg", "“kg”"),
        ("215 ms", "is not a length"),
        ("215 mm\u202e", "?"),
    ],
)
def test_what_cannot_be_read_gets_one_sentence(text, says):
    with pytest.raises(BadQuantity) as caught:
        read_quantity(text, "length", "mm")

    sentence = str(caught.value)
    assert says in sentence
    assert "\n" not in sentence
    assert len(sentence) < 160


def test_a_unit_is_needed_where_nothing_says_which_is_meant():
    with pytest.raises(BadQuantity, match="has no unit"):
        parse("190", "time")
    assert parse("3", "number") == Q(3, "")


def test_a_float_is_refused_by_type():
    with pytest.raises(BadQuantity):
        Q(8.5, "inch")  # type: ignore[arg-type]
    assert Q(Decimal("8.5"), "inch") == Q("17/2", "inch")


def test_dimensions_are_told_apart():
    assert has_dimension(Q(1, "inch"), "length")
    assert not has_dimension(Q(1, "inch"), "time")


@given(st.fractions(min_value=0, max_value=10_000), st.sampled_from([Fraction(1), Fraction(1, 2), Fraction(1, 10)]))
def test_distances_round_up_and_times_down_never_past_one_step(value, step):
    up, down = round_up(value, step), round_down(value, step)

    assert value <= up < value + step
    assert value - step < down <= value
    assert up % step == down % step == 0


def test_a_whole_number_stays_what_it_is():
    assert round_up(Fraction(500)) == round_down(Fraction(500)) == 500


@pytest.mark.parametrize(
    ("value", "places", "text"),
    [
        ("402.25", 1, "402.3"),
        ("34", 1, "34"),
        ("0.05", 1, "0.1"),
        ("-0.04", 1, "0"),
        ("-1.25", 1, "-1.3"),
        ("2.5", 0, "3"),
    ],
)
def test_numbers_are_written_half_up_without_trailing_noughts(value, places, text):
    assert digits(Fraction(value), places) == text


def test_a_quantity_is_shown_in_the_unit_asked_for():
    assert show(Q("17/2", "inch"), "mm") == "215.9 mm"
    assert show(Q("215.9", "mm"), "inch", 2) == "8.5 in"
    assert show(Q(30, "degree"), "degree") == "30°"
