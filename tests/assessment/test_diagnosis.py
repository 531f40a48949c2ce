from fractions import Fraction
from random import Random

import pytest
from assessment.made import BLANKED_DRAW, BLANKED_SLIPS, computed

from trainer.assessment import drills, selfcheck
from trainer.assessment.diagnosis import SlipFound, diagnose, slip_of
from trainer.errors import Missing
from trainer.safeguarding.problems import problem
from trainer.units import Q, digits

ANSI = problem("ansi-presence-sensing")
VALUES = ANSI.read(BLANKED_DRAW)


def found(number, unit="mm", codes=BLANKED_SLIPS):
    return [(slip.codes, slip.tied) for slip in diagnose(ANSI, VALUES, Q(number, unit), codes)]


# The wrong answers to the printed example: T = 194 ms, O_s = 14 mm, two beams of 10 mm blanked, 402.2 mm needed.
@pytest.mark.parametrize(
    ("number", "code"),
    [
        ("335", "nominal-sensitivity"),  # 334.2 rounded up
        ("334.2", "nominal-sensitivity"),
        ("334", "nominal-sensitivity"),
        ("311", "leaves-out-penetration"),  # 310.4
        ("310.4", "leaves-out-penetration"),
        ("356", "leaves-out-monitor"),  # 355.8
        ("371", "leaves-out-device"),  # 370.2
        ("363", "leaves-out-control"),  # 362.2
        ("193", "bare-press-rule"),  # 192.02
        ("342", "beams-as-millimetres"),
        ("3197", "milliseconds-as-hundredths"),
        ("402", "rounds-down"),
        ("402.2", "rounds-down"),  # 402.20344 as printed, a hair short
        ("400", "rounds-down-far"),
        ("15.9", "inches-as-millimetres"),
        ("15.83", "inches-as-millimetres"),
    ],
)
def test_a_slip_is_named_from_the_number_it_leads_to(number, code):
    assert found(number)[0] == ((code,), False)


@pytest.mark.parametrize(
    ("number", "code"),
    [("13.16", "nominal-sensitivity"), ("13.2", "nominal-sensitivity"), ("12.22", "leaves-out-penetration")],
)
def test_a_slip_is_named_from_inches_as_well(number, code):
    assert found(number, "inch")[0][0] == (code,)


@pytest.mark.parametrize(("number", "unit"), [("403", "mm"), ("402.3", "mm"), ("402.20344", "mm"), ("127/8", "inch")])
def test_a_right_answer_is_never_called_a_slip(number, unit):
    assert found(number, unit) == []


def test_rounding_down_in_inches_is_named_even_where_it_is_a_hair():
    values = ANSI.read(
        {
            "stopping-time": "180 ms",
            "control-response": "28 ms",
            "device-response": "18 ms",
            "monitor-allowance": "29 ms",
            "object-sensitivity": "14 mm",
        }
    )  # 17.0006 in

    named = {slip.codes for slip in diagnose(ANSI, values, Q(17, "inch"), BLANKED_SLIPS)}

    assert named == {("rounds-down",), ("rounds-down-far",)}


def test_two_slips_at_once_are_named_where_none_alone_explains_the_number():
    # 310.4 mm without the penetration allowance, less 63 in/s × 29 ms without the monitor's: 264.0 mm.
    assert found("265")[0] == (("leaves-out-monitor", "leaves-out-penetration"), False)


def test_one_slip_goes_before_two():
    codes = (*BLANKED_SLIPS, "leaves-out-monitor-and-penetration")

    assert found("265", codes=codes) == [(("leaves-out-monitor-and-penetration",), False)]


def test_an_exact_meeting_goes_before_a_rounded_one():
    # Cut down, 402.2 is 402; 63 in/s × 194 ms + 91.8 lies nowhere else near it.
    values = {**VALUES, "monitor-allowance": Q("28.5", "ms")}
    first, *_ = diagnose(ANSI, values, Q("401.4", "mm"), BLANKED_SLIPS) or (None,)

    assert first.codes == ("rounds-down",)  # 401.40334 as printed: the right number, cut by a hair


def test_slips_that_explain_a_number_equally_well_are_a_tie():
    values = {**VALUES, "device-response": Q(25, "ms")}  # as long as the control takes
    slips = diagnose(ANSI, values, Q(371, "mm"), BLANKED_SLIPS)

    assert {slip.codes for slip in slips} == {("leaves-out-device",), ("leaves-out-control",)}
    assert all(slip.tied for slip in slips)


def test_a_number_that_nothing_explains_has_no_slip():
    assert found("297.3") == []


@pytest.mark.parametrize(
    ("number", "unit", "code"),
    [
        ("40.3", "mm", "cm-written-as-mm"),
        ("0.403", "mm", "m-written-as-mm"),
        ("4022", "cm", None),
        ("402.2", "inch", "mm-written-as-in"),
    ],
)
def test_the_right_number_in_another_unit_is_named(number, unit, code):
    named = found(number, unit, codes=())

    assert named == ([((code,), False)] if code else [])


def test_n34_three_tenths_of_a_millisecond_is_a_thousand_times_too_short():
    # (503.82464 mm − 23.76464 mm) ÷ 1600.2 mm/s = 300 ms.
    longest = problem("longest-stopping-time")
    values = longest.read({"distance": "503.82464 mm", "object-sensitivity": "14 mm", "device-response": "0 ms"})

    (slip,) = diagnose(longest, values, Q("0.3", "ms"), ())

    assert slip.codes == ("s-written-as-ms",)
    assert "1000 times" in slip_of("longest-stopping-time", slip.codes[0]).tell
    assert diagnose(longest, values, Q("0.3", "s"), ()) == ()


def test_a_slip_can_be_looked_up_wherever_it_belongs():
    assert slip_of("ansi-presence-sensing", "nominal-sensitivity").symbol == "O_eff"
    with pytest.raises(Missing):
        slip_of("ansi-presence-sensing", "no-such-slip")


def test_what_was_found_survives_storage():
    slip = SlipFound(codes=("rounds-down", "leaves-out-device"), value="370 mm", tied=True)

    assert SlipFound.from_data(slip.as_data()) == slip


def written(value, figure):
    """The number as somebody writes it: rounded to the safe side, exact, or as printed."""
    return {figure.rounded, figure.value, Fraction(digits(figure.value, 1))}


def test_each_slip_is_named_over_the_whole_range_of_each_shipped_drill_or_the_draw_is_refused(bank):
    looked = 0
    for drill in computed(bank):
        sum_ = problem(drill.problem)
        for drawn in list(selfcheck.sample(drill))[::3]:
            if drills.refused(drill, drawn):
                continue
            given = drills.given(drill, drawn)
            for code in drill.slips:
                figure = sum_.figure(given.numbers, (code,), unit=drill.unit)
                if figure is None or figure == sum_.figure(given.numbers, unit=drill.unit):
                    continue  # it changes nothing here
                typed = figure.rounded if code != "inches-as-millimetres" else Fraction(digits(figure.value, 2))
                first = diagnose(sum_, given.values, Q(typed, drill.unit), drill.slips)[0]
                assert (first.codes, first.tied) == ((code,), False), (drill.id, drawn, code)
                looked += 1
    assert looked > 1000


def test_a_random_wrong_number_is_seldom_blamed_on_one_slip():
    rng, blamed = Random(3), 0
    for _ in range(200):
        number = Q(rng.randrange(100, 400), "mm")
        blamed += any(len(slip.codes) == 1 for slip in diagnose(ANSI, VALUES, number, BLANKED_SLIPS))

    assert blamed / 200 < 0.15
