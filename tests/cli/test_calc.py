"""``trainer calc``: the worked solution, plain data, the list, and one sentence for whatever is wrong."""

import json
import re
from pathlib import Path

import pytest
from click.testing import CliRunner
from hypothesis import given, settings
from hypothesis import strategies as st

from trainer.cli import main
from trainer.errors import UsageError
from trainer.safeguarding.problems import PROBLEMS

README = Path(__file__).parents[2] / "README.md"
# The problems of the trade with their inputs; what stands in brackets may be left out.
PROMISED = """
us-presence-sensing, us-two-hand-control | stopping-time
us-two-hand-trip | strokes-per-minute, engaging-points
us-self-initiation | stopping-times, press-response, device-response, monitor-allowance, penetration, [unverified]
ansi-presence-sensing | stopping-time, control-response, device-response, monitor-allowance, object-sensitivity, [beams-blanked], [beam-pitch], [hand-speed], [unverified]
ansi-two-hand-control | stopping-time, control-response, device-response, monitor-allowance, [unverified]
iso-presence-sensing | stopping-time, device-response, detection-capability, [beams-blanked], [beam-pitch], [hazard-height], [upper-edge-height]
press-table-presence-sensing | stopping-time, device-response, detection-capability
iso-multi-beam | stopping-time, device-response, beams, [hazard-height], [upper-edge-height]
iso-parallel-field | stopping-time, device-response, detection-capability, field-height, [angle]
iso-angled-field | stopping-time, device-response, detection-capability, [field-height], [angle]
iso-pressure-mat | stopping-time, device-response, [step-height]
iso-two-hand-control | stopping-time, device-response, [shrouded]
iso-interlocked-guard | stopping-time, [device-response], [opening-credit], [intrusion]
distancing-field | stopping-time, [made-before-marking]
effective-object-sensitivity | object-sensitivity, beams-blanked, beam-pitch
longest-stopping-time | distance, object-sensitivity, device-response, [basis], [unverified]
us-guard-opening | [distance], [opening], [unverified]
iso-guard-opening | shape, opening, [slot-length]
barrier-reach-over | hazard-height, barrier-height, [risk], [unverified]
crush-gap | body-part, gap
stopping-time-from-readings | readings, [rule], [unverified]
monitor-limit | distance, object-sensitivity, device-response, stopping-time, [unverified]
approach-overrun | speed, response, [deceleration]
closing-time | gap, speed
safe-distance-by-procedure | hand-distance, [feasible-safeguard], [small-quantity]
air-bend-force, tool-load | tensile-strength, thickness, bend-length, die-opening, [rating-per-length], [tool-length]
hazard-rating | severity, exposure, likelihood, persons
"""


def calc(*words: str):
    return CliRunner().invoke(main, ["calc", *words])


def promised() -> dict[str, set[str]]:
    rows = (line.split(" | ") for line in PROMISED.strip().splitlines())
    return {name: set(keys.split(", ")) for names, keys in rows for name in names.split(", ")}


def listed() -> dict[str, set[str]]:
    rows = json.loads(calc("--list", "--json").stdout)
    return {row["problem"]: {re.sub(r"=[^,\]]+", "", key) for key in row["inputs"]} for row in rows}


def test_every_problem_of_the_trade_is_there_with_just_its_inputs():
    assert listed() == promised()


def test_the_list_is_readable_and_names_every_problem():
    result = calc("--list")

    assert result.exit_code == 0
    assert set(PROBLEMS) == set(re.findall(r"^([a-z-]+)$", result.stdout, re.MULTILINE))
    assert "[basis=ansi/iso/us]" in result.stdout


def test_the_readme_lists_every_problem_with_its_inputs():
    rows = re.findall(r"^\| (`[a-z-]+`(?:, `[a-z-]+`)*) \| (.+?) \|$", README.read_text(encoding="utf-8"), re.MULTILINE)
    told = {
        name: {re.sub(r"=[^,\]]+", "", key.strip()) for key in keys.replace("`", "").split(",")}
        for names, keys in rows
        for name in re.findall(r"`([a-z-]+)`", names)
        if name in PROBLEMS
    }

    assert told == listed()


def test_a_worked_solution_is_printed_with_result_sources_and_cautions():
    result = calc(
        "ansi-presence-sensing", "stopping-time=120ms", "control-response=25 ms", "device-response=0.02s",
        "monitor-allowance=29ms", "object-sensitivity=30mm",
    )  # fmt: skip

    assert result.exit_code == 0
    for part in ("Given", "Working", "T = T_s + T_c + T_r + T_bm", "Use 389 mm, or 15 5/16 in (rounded up).", "Sources",
                 "[second hand]", "Beware", "training aid"):  # fmt: skip
        assert part in result.stdout


@pytest.mark.parametrize(
    ("unit", "shown", "value", "rounded"), [("mm", "mm", 388.60344, 389), ("in", "in", 15.299348, 15.3125)]
)
def test_json_has_the_agreed_keys_in_the_unit_asked_for(unit, shown, value, rounded):
    result = calc(
        "ansi-presence-sensing", "stopping-time=120ms", "control-response=25ms", "device-response=20ms",
        "monitor-allowance=29ms", "object-sensitivity=30mm", "--json", "--unit", unit,
    )  # fmt: skip
    data = json.loads(result.stdout)

    assert set(data) == {"problem", "result", "unit", "rounded_up", "steps", "citations", "warnings"}
    assert (data["unit"], data["result"], data["rounded_up"]) == (shown, value, rounded)


def test_a_refusal_is_printed_and_ends_with_1():
    words = ("iso-presence-sensing", "stopping-time=100ms", "device-response=0ms", "detection-capability=71mm")

    assert calc(*words).exit_code == 1
    assert "above 70 mm" in calc(*words).stdout
    assert calc(*words, "--json").exit_code == 1
    assert json.loads(calc(*words, "--json").stdout)["result"] is None


@pytest.mark.parametrize(
    "words",
    [
        (),
        ("stopping-time=190ms",),
        ("us-presence",),
        ("us-presence-sensing",),
        ("us-presence-sensing", "190ms"),
        ("us-presence-sensing", "=190ms"),
        ("us-presence-sensing", "-5"),
        ("us-presence-sensing", "--stopping-time", "5"),
        ("us-presence-sensing", "stopping-time=190"),
        ("us-presence-sensing", "stopping-time=190 parsecs"),
        ("us-presence-sensing", "stopping-time=190ms", "stopping-time=190ms"),
        ("us-presence-sensing", "stopping-time=190ms", "speed=3"),
        ("us-presence-sensing", "stopping-time=190ms", "--unit", "furlong"),
        ("us-presence-sensing", "stopping-time=\x1b[31m190ms"),
    ],
)
def test_wrong_usage_is_one_sentence_and_2(words):
    assert_one_sentence(calc(*words))


# What makes no sense for any input of a dimension, whatever else is given.
ALWAYS = ("", " ", "-1", "-5 ms", "nan", "inf", "-inf", "1e9999", "NaN mm", "0x10", "1/0 mm", "five", "=", "10 mm/s/s",
          "1 kg", "--", "', DROP", "9" * 70, "½ fathom", "²", "1 2 3 mm", "190 ms, x", "mm", "1,234,5 mm")  # fmt: skip
OF_DIMENSION = {
    "length": ("5", "190 ms", "1000000 mm", "0.00001 mm", "-1 mm"),
    "time": ("5", "14 mm", "90 s", "0.00001 ms", "-1 ms", "2 min"),
    "list": ("5", "14 mm", "180 ms, 90 s", "180 ms; 182 ms", "180 ms, , 182 ms", "0 ms, 180 ms"),
    "speed": ("5", "14 mm", "1000 m/s", "0.00001 mm/s", "-1 mm/s"),
    "acceleration": ("5", "14 mm", "100000 m/s2", "-1 m/s2"),
    "angle": ("5", "14 mm", "400 deg", "-1 deg"),
    "rate": ("14 mm", "100000 /min", "-1 /min"),
    "pressure": ("5", "14 mm", "100000 MPa", "-1 MPa"),
    "force-per-length": ("5", "14 mm", "1000000 kN/m", "-1 kN/m"),
    "count": ("1.5", "14 mm", "9999999", "1001", "-1", "two"),
    "choice": ("none of these", "yes no", "5", "14 mm"),
    "number": ("14 mm", "100000", "-1"),
}
NOUGHT = {"length": "0 mm", "time": "0 ms", "list": "0 ms", "speed": "0 mm/s", "acceleration": "0 mm/s2",
          "pressure": "0 MPa", "rate": "0 /min", "force-per-length": "0 kN/m", "count": "0"}  # fmt: skip
KEYS = [(name, field.key) for name, asked in PROBLEMS.items() for field in asked.fields]


def good(name: str) -> dict[str, str]:
    """Inputs of a problem that make sense together."""
    asked = PROBLEMS[name]
    needed = {field.key: GOOD.get(field.key, field.example) for field in asked.fields if not field.optional}
    return {**needed, **GOOD_OF.get(name, {})}


GOOD = {"die-opening": "24 mm", "thickness": "3 mm", "opening": "12 mm", "field-height": "300 mm", "stopping-times": "1 ms, 2 ms, 3 ms",
        "severity": "4", "exposure": "daily"}  # fmt: skip
GOOD_OF = {"us-guard-opening": {"distance": "4 in"}, "iso-angled-field": {"field-height": "300 mm"}}


@pytest.mark.parametrize("name", PROBLEMS)
def test_what_the_other_inputs_are_in_the_tests_of_nonsense_makes_sense(name):
    result = calc(name, *(f"{key}={value}" for key, value in good(name).items()))

    assert result.exit_code in {0, 1}, result.output
    assert result.stdout


@pytest.mark.parametrize(("name", "key"), KEYS)
def test_nonsense_for_any_input_of_any_problem_is_one_sentence_and_2(name, key):
    field = next(field for field in PROBLEMS[name].fields if field.key == key)
    nonsense = [*ALWAYS, *OF_DIMENSION[field.dimension]]
    nonsense += [NOUGHT[field.dimension]] if field.above == 0 else []
    if field.bare_unit:  # the key itself names the unit
        nonsense = [text for text in nonsense if text != "5"]
    nonsense = [text for text in nonsense if text not in field.choices]
    for text in nonsense:
        assert_one_sentence(
            calc(name, *(f"{other}={value}" for other, value in {**good(name), key: text}.items())), text
        )


@pytest.mark.parametrize(("name", "key"), KEYS)
@given(text=st.text(max_size=12))
@settings(max_examples=8, deadline=None)
def test_any_text_for_any_input_is_a_result_or_one_sentence_and_2(name, key, text):
    given_ = {**good(name), key: text}
    result = calc(name, *(f"{other}={value}" for other, value in given_.items()))

    try:
        PROBLEMS[name].read(given_)
    except UsageError:
        assert_one_sentence(result, text)
    else:
        assert (result.exit_code, result.stderr) in {(0, ""), (1, "")}
        assert "Traceback" not in result.stdout


def assert_one_sentence(result, text="") -> None:
    assert isinstance(result.exception, SystemExit), (text, result.exception)
    assert result.exit_code == 2, (text, result.output)
    assert result.stdout == ""
    assert len(result.stderr.strip().splitlines()) == 1, result.stderr
    assert result.stderr.strip().endswith("."), result.stderr
    assert "Traceback" not in result.stderr


def test_the_result_never_carries_the_symbol_of_an_input():
    assert "D more than 1 1/2 in" in calc("us-guard-opening", "opening=0.3in", "--unit", "in").output
    assert "e at most 3/8 in" in calc("us-guard-opening", "distance=2in", "--unit", "in").output
