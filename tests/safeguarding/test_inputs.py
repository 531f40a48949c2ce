"""The door of the sums: what does not fit is refused with one sentence that names the key."""

from decimal import Decimal

import pytest

from trainer.errors import BadQuantity, Missing, UsageError
from trainer.safeguarding.inputs import fields_of
from trainer.safeguarding.problems import PROBLEMS, problem
from trainer.units import Q, Quantity

GOOD = {"stopping-time": "120 ms", "control-response": "25 ms", "device-response": "20 ms",
        "monitor-allowance": "29 ms", "object-sensitivity": "14 mm"}  # fmt: skip
ANSI = problem("ansi-presence-sensing")


def sentence(texts) -> str:
    with pytest.raises(UsageError) as caught:
        ANSI.read(texts)
    return str(caught.value)


@pytest.mark.parametrize(
    ("key", "text", "said"),
    [
        ("stopping-time", "soon", "does not start with a number"),
        ("stopping-time", "-5 ms", "less than nothing"),
        ("stopping-time", "nan", "does not start with a number"),
        ("stopping-time", "inf ms", "does not start with a number"),
        ("stopping-time", "1e400 ms", "not understood"),
        ("stopping-time", "120", "has no unit"),
        ("stopping-time", "120 mm", "is not a time"),
        ("stopping-time", "0 ms", "must be more than 0 s"),
        ("stopping-time", "", "Nothing was typed"),
        ("stopping-time", "1,234 ms", "can be read as two numbers"),
        ("object-sensitivity", "14 ms", "is not a length"),
        ("beams-blanked", "2.5", "is not a count"),
        ("beams-blanked", "-1", "is not a count"),
        ("beams-blanked", "²", "is not a count"),
        ("beams-blanked", "101", "must be 100 or less"),
        ("hand-speed", "60 in/s", "must be 1600.2 mm/s or more"),
        ("unverified", "maybe", "write one of yes, no"),
    ],
)
def test_nonsense_is_refused_with_the_key_and_what_would_be_right(key, text, said):
    told = sentence({**GOOD, "beam-pitch": "10 mm", key: text})

    assert told.startswith(f"{key}: ")
    assert said in told


def test_a_missing_key_is_named_with_an_example():
    short = {key: text for key, text in GOOD.items() if key != "device-response"}

    assert sentence(short) == "device-response is missing. Give it, such as device-response=190 ms."


def test_an_unknown_key_is_told_with_the_known_ones():
    told = sentence({**GOOD, "colour": "red"})

    assert "“colour”" in told
    assert "[beams-blanked]" in told


def test_blanked_beams_need_a_pitch():
    assert sentence({**GOOD, "beams-blanked": "2"}).startswith("beam-pitch is missing.")


@pytest.mark.parametrize(
    "value", [120, 0.12, "120 ms", Decimal(120), None, Q(120, "mm"), Quantity(0.12, "s"), Quantity(float("nan"), "s")]
)
def test_only_exact_quantities_of_the_right_dimension_pass(value):
    values = {**ANSI.read(GOOD), "stopping-time": value}

    with pytest.raises(BadQuantity, match="stopping-time"):
        ANSI.solve(values)


@pytest.mark.parametrize("count", [True, 2.0, "2", -1])
def test_a_count_is_a_whole_number(count):
    with pytest.raises(BadQuantity, match="beams-blanked"):
        ANSI.solve({**ANSI.read(GOOD), "beams-blanked": count, "beam-pitch": Q(10, "mm")})


@pytest.mark.parametrize(
    ("name", "texts", "said"),
    [
        ("us-guard-opening", {}, "Give either distance or opening"),
        ("us-guard-opening", {"distance": "5 in", "opening": "1 in"}, "Give either distance or opening"),
        ("us-self-initiation", {"stopping-times": "142 ms, 150 ms", "press-response": "15 ms", "device-response": "30 ms",
                                "monitor-allowance": "15 ms", "penetration": "84 mm"}, "three averages"),
        ("iso-guard-opening", {"shape": "round", "opening": "25 mm", "slot-length": "60 mm"}, "only a slot"),
        ("iso-guard-opening", {"shape": "slot", "opening": "25 mm", "slot-length": "20 mm"}, "not shorter than"),
        ("iso-guard-opening", {"shape": "oval", "opening": "25 mm"}, "slot, square, round"),
        ("iso-multi-beam", {"stopping-time": "1 s", "device-response": "0 ms", "beams": "5"}, "4 or less"),
        ("iso-multi-beam", {"stopping-time": "1 s", "device-response": "0 ms", "beams": "0"}, "1 or more"),
        ("iso-multi-beam", {"stopping-time": "1 s", "device-response": "0 ms", "beams": "2", "hazard-height": "1 m"},
         "upper-edge-height is missing"),
        ("iso-parallel-field", {"stopping-time": "1 s", "device-response": "0 ms", "detection-capability": "30 mm",
                                "field-height": "0 mm", "angle": "45 deg"}, "Use iso-angled-field"),
        ("iso-angled-field", {"stopping-time": "1 s", "device-response": "0 ms", "detection-capability": "30 mm",
                              "angle": "20 deg"}, "field-height is missing"),
        ("stopping-time-from-readings", {"readings": "180 ms", "rule": "larger"}, "two or more"),
        ("stopping-time-from-readings", {"readings": "180 ms, soon"}, "does not start with a number"),
        ("air-bend-force", {"tensile-strength": "450 MPa", "thickness": "8 mm", "bend-length": "1 m",
                            "die-opening": "8 mm"}, "more than the thickness"),
        ("closing-time", {"gap": "6 mm", "speed": "0 mm/s"}, "more than 0 mm/s"),
    ],
)  # fmt: skip
def test_inputs_that_do_not_go_together_are_refused(name, texts, said):
    asked = problem(name)
    with pytest.raises(UsageError, match=said):
        asked.solve(asked.read(texts))


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("us-guard-opening distance=0.4in", "nothing nearer than 1/2 in"),
        ("us-guard-opening distance=32in", "ends at 31 1/2 in"),
        ("us-guard-opening opening=2.2in", "ends at 31 1/2 in"),
        ("us-guard-opening opening=7in unverified=yes", "no opening of this size"),
        ("iso-guard-opening shape=slot opening=121mm", "Above 120 mm"),
        ("barrier-reach-over hazard-height=1000mm barrier-height=999mm", "below 1000 mm"),
        (
            (
                "iso-presence-sensing stopping-time=1s device-response=0ms detection-capability=14mm hazard-height=1m "
                "upper-edge-height=899mm"
            ),
            "below 900 mm",
        ),
        (
            "iso-parallel-field stopping-time=1s device-response=0ms detection-capability=14mm field-height=1001mm",
            "1000 mm high at most",
        ),
        ("longest-stopping-time distance=20mm object-sensitivity=14mm device-response=20ms", "mounted too close"),
        ("longest-stopping-time distance=99mm object-sensitivity=14mm device-response=0ms basis=iso", "too close"),
        ("monitor-limit distance=12in object-sensitivity=14mm device-response=15ms stopping-time=161ms", "already"),
        ("safe-distance-by-procedure hand-distance=1m feasible-safeguard=yes", "must be used"),
        ("safe-distance-by-procedure hand-distance=1m small-quantity=no", "small quantity only"),
    ],
)
def test_where_a_rule_gives_no_figure_the_reason_is_the_result(line, said):
    from safeguarding.asking import solve

    worked = solve(line)

    assert worked.value is None
    assert worked.rounded is None
    assert said in str(worked.refusal)


@pytest.mark.parametrize(
    ("line", "inches"),
    [("us-guard-opening distance=40in unverified=yes", "6"), ("us-guard-opening opening=3in unverified=yes", "31.5")],
)
def test_what_is_known_from_memory_is_used_only_when_asked_for_and_says_so(line, inches):
    from safeguarding.asking import solve, value

    worked = solve(line, "inch")

    assert str(value(worked)) == inches or float(value(worked)) == float(inches)
    assert any("memory" in str(warning) for warning in worked.warnings)
    assert any(citation.read.value == "from-memory" for citation in worked.citations)


@pytest.mark.parametrize("name", list(PROBLEMS))
def test_every_input_says_its_symbol_label_and_an_example_that_can_be_read(name):
    asked = PROBLEMS[name]
    assert asked.fields == fields_of(asked.inputs)
    for field in asked.fields:
        assert field.symbol
        assert field.label[0].isupper()
        assert field.example


def test_inputs_cannot_be_changed_once_made():
    made = ANSI.inputs(**{key.replace("-", "_"): value for key, value in ANSI.read(GOOD).items()})

    with pytest.raises(AttributeError):
        made.stopping_time = Q(1, "ms")


def test_an_unknown_problem_is_told_with_those_that_there_are():
    with pytest.raises(Missing, match="us-presence-sensing"):
        problem("us-presence")


def test_an_answer_has_only_its_own_units():
    with pytest.raises(UsageError, match="mm, inch"):
        ANSI.solve(ANSI.read(GOOD), unit="ms")
