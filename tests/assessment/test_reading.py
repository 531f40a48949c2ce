"""What people type at the kiosk. N28 to N40 are the rows of the project's list of nasty answers."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from trainer.assessment.reading import AskBack, Field, read_number
from trainer.errors import BadQuantity, UsageError
from trainer.units import Q, magnitude

MM = Field(dimension="length", unit="mm", plausible=(Q(40, "mm"), Q(2700, "mm")))
SMALL = Field(dimension="length", unit="mm", plausible=(Q(2, "mm"), Q(62, "mm")))  # a drill round 12.5 mm
SMALL_INCH = Field(dimension="length", unit="inch", plausible=SMALL.plausible)
SECONDS = Field(dimension="time", unit="s", plausible=(Q("0.02", "s"), Q("2.5", "s")))
SPEED = Field(dimension="speed", unit="mm/s", plausible=(Q(320, "mm/s"), Q(8000, "mm/s")))


@pytest.mark.parametrize("text", ['8 1/2"', "8-1/2 in", "8 1/2 inch", "8.5''", "8,5 in", "8½ in", "215,9", "215.9 mm"])
def test_n28_eight_and_a_half_inches_are_exactly_215_9_mm(text):
    assert magnitude(read_number(text, MM), "mm") == Q("215.9", "mm").magnitude


@pytest.mark.parametrize("text", ["215mm", "215 MM", "21,5 cm", "0.215 m", "215"])
def test_n30_a_unit_that_is_written_overrides_the_switch(text):
    assert read_number(text, MM) == Q(215, "mm")


@pytest.mark.parametrize(("text", "mm"), [("216", 216), ("220 mm", 220), ("2000 mm", 2000), ("2000", 2000)])
def test_n31_a_number_that_is_far_too_big_is_still_a_number(text, mm):
    assert read_number(text, MM) == Q(mm, "mm")


def test_n32_a_decimal_comma_is_a_point():
    assert read_number("12,5 mm", SMALL) == Q("12.5", "mm")
    assert read_number("12,5", SMALL) == Q("12.5", "mm")


def test_n32_inches_where_the_drill_works_in_millimetres_are_asked_back():
    asked = read_number("12,5", SMALL_INCH)

    assert isinstance(asked, AskBack)
    assert asked.choices == ("12.5 in", "12.5 mm")


@pytest.mark.parametrize(("text", "seconds"), [("0,3", "0.3"), ("300 ms", "0.3"), ("0.3 ms", "0.0003"), ("0.3", "0.3")])
def test_n34_seconds_and_milliseconds(text, seconds):
    assert read_number(text, SECONDS) == Q(seconds, "s")


def test_n34_three_hundred_in_a_field_for_seconds_is_asked_back():
    asked = read_number("300", SECONDS)

    assert isinstance(asked, AskBack)
    assert asked.choices == ("300 s", "300 ms")
    assert "300 s" in str(asked.sentence)


@pytest.mark.parametrize(("text", "mm_per_s"), [("1600", "1600"), ("1,6 m/s", "1600"), ("63 in/s", "1600.2")])
def test_n35_a_hand_speed_in_any_unit(text, mm_per_s):
    assert read_number(text, SPEED) == Q(mm_per_s, "mm/s")


@pytest.mark.parametrize(
    "text", ["2l5 mm", "O.3 mm", "215 mm approx", "200-220", "215 ± 2", "215 o 220", "1e5", "0x10"]
)
def test_n37_what_is_no_single_number_is_refused_with_one_sentence(text):
    with pytest.raises(BadQuantity) as refused:
        read_number(text, MM)

    assert "Type" in str(refused.value)
    assert "\n" not in str(refused.value)


@pytest.mark.parametrize("text", ["-215", "−215", "-0,5 m"])
def test_n39_a_length_is_never_less_than_nothing(text):
    with pytest.raises(BadQuantity, match="less than nothing"):
        read_number(text, MM)


@pytest.mark.parametrize("text", ["", "   ", "\n"])
def test_n39_empty_is_not_answered_and_never_nought(text):
    with pytest.raises(BadQuantity, match="Nothing was typed"):
        read_number(text, MM)


@pytest.mark.parametrize("text", ['8 1/0"', "9" * 10_000, "nan", "inf", "NaN mm", "∞"])
def test_n39_nonsense_is_refused(text):
    with pytest.raises(BadQuantity):
        read_number(text, MM)


@pytest.mark.parametrize(
    "scan", ["0013748911\n", "0013748911", "*000122521", "\n000122521", "13748911", "00417", ";0417123;"]
)
def test_n40_a_badge_is_no_answer_and_is_not_repeated(scan):
    with pytest.raises(BadQuantity) as refused:
        read_number(scan, MM)

    assert not any(digit in str(refused.value) for digit in "0123456789")


@pytest.mark.parametrize("text", ["=2+3", "<b>215</b>", "215</b>", "'215"])
def test_n40_formulas_and_markup_are_refused(text):
    with pytest.raises(BadQuantity):
        read_number(text, MM)


@pytest.mark.parametrize("text", ["0.4", "0,402"])
def test_metres_typed_as_millimetres_are_asked_back(text):
    asked = read_number(text, MM)

    assert isinstance(asked, AskBack)
    assert asked.choices[-1].endswith(" m")


def test_a_thousands_comma_is_asked_back_with_both_readings():
    asked = read_number("1,234", MM)

    assert isinstance(asked, AskBack)
    assert asked.choices == ("1.234 mm", "1234 mm")


def test_a_thousands_point_is_asked_back_where_the_language_writes_it_so():
    asked = read_number("1.234", MM, "es")

    assert isinstance(asked, AskBack)
    assert asked.choices == ("1.234 mm", "1234 mm")
    assert read_number("402.203", MM, "en") == Q("402.203", "mm")


@pytest.mark.parametrize(("typed", "field"), [("300", SECONDS), ("12,5", SMALL_INCH), ("1,234", MM), ("0.4", MM)])
def test_a_reading_that_was_picked_is_not_asked_again(typed, field):
    asked = read_number(typed, field)

    assert isinstance(asked, AskBack)
    assert all(not isinstance(read_number(choice, field), AskBack) for choice in asked.choices)


def test_a_number_that_makes_sense_in_no_unit_is_taken_as_it_stands():
    assert read_number("310531", MM) == Q(310531, "mm")


@settings(deadline=None)
@given(st.text(max_size=80))
def test_whatever_is_typed_is_a_number_a_question_or_one_sentence(text):
    said = ""
    try:
        read = read_number(text, MM)
    except UsageError as error:
        said = str(error)
    else:
        assert isinstance(read, AskBack) or magnitude(read, "mm") >= 0

    assert "\n" not in said
    assert len(said) < 200
