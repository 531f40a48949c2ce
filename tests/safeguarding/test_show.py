"""What a person of the trade reads: five worked solutions in full, and how figures are written."""

import json
from fractions import Fraction
from pathlib import Path

import pytest
from safeguarding.asking import solve, split

from trainer.safeguarding import show
from trainer.safeguarding.cautions import CAUTION, MEASURED
from trainer.safeguarding.problems import PROBLEMS, problem
from trainer.safeguarding.result import Citation, Read

GOLDEN = Path(__file__).parents[1] / "golden" / "calc"
ANSI = (
    "ansi-presence-sensing stopping-time=120ms control-response=25ms device-response=20ms monitor-allowance=29ms "
    "object-sensitivity=14mm beams-blanked=2 beam-pitch=10mm"
)
SOLUTIONS = {
    "curtain-with-beams-blanked": (ANSI, "mm"),
    "press-rule-in-inches": ("us-presence-sensing stopping-time=72ms", "in"),
    "curtain-that-can-be-reached-over": (
        (
            "iso-presence-sensing stopping-time=140ms device-response=10ms detection-capability=14mm "
            "hazard-height=1200mm upper-edge-height=1300mm"
        ),
        "mm",
    ),
    "longest-stopping-time": (
        "longest-stopping-time distance=15in object-sensitivity=30mm device-response=20ms",
        "in",
    ),
    "tool-over-its-marking": (
        (
            "tool-load tensile-strength=450MPa thickness=3mm bend-length=2m die-opening=24mm "
            "rating-per-length=400kN/m tool-length=1m"
        ),
        "mm",
    ),
}


@pytest.mark.parametrize("name", SOLUTIONS)
def test_a_worked_solution_reads_as_a_handbook_sets_it_out(name, request):
    line, unit = SOLUTIONS[name]
    path = GOLDEN / f"{name}.txt"
    text = show.as_text(solve(line), unit)
    if request.config.getoption("--update-golden"):
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")

    assert text == path.read_text(encoding="utf-8")


@pytest.mark.parametrize("name", list(PROBLEMS))
def test_every_result_ends_with_the_caution_and_cites_its_sources(name):
    from safeguarding.test_slips import samples  # any inputs will do

    asked = PROBLEMS[name]
    worked, _ = asked._write(samples(name)[0], {}, asked.answer.unit)

    assert worked.warnings[-1] == CAUTION
    assert str(CAUTION)[:28] in show.as_text(worked)
    assert worked.citations
    assert worked.steps
    if any(field.key.startswith("stopping-time") for field in asked.fields):
        assert MEASURED in worked.warnings


@pytest.mark.parametrize("name", list(PROBLEMS))
def test_every_symbol_of_a_formula_is_explained_in_the_working(name):
    import re

    from safeguarding.test_slips import samples

    asked = PROBLEMS[name]
    for numbers in samples(name)[:20]:
        worked, _ = asked._write(numbers, {}, asked.answer.unit)
        known = {step.symbol for step in worked.given}
        for step in worked.steps:
            # t_i is one of the readings t; in, mm, ms, s are units; max and table are words
            words = set(re.findall(r"[A-Za-z]\w*", step.formula)) - {"max", "table", "in", "mm", "ms", "s", "t_i"}
            assert words <= known, step.formula
            assert step.label
            known.add(step.symbol)


def test_the_same_result_in_inches_is_the_same_working_in_inches():
    text = show.as_text(solve(ANSI), "in")

    assert "O_eff = O_s + n × p" in text
    assert "63 in/s × 0.194 s" in text
    assert "D_s at least 15.8348 in (402.2 mm)" in text
    assert "Use 15 7/8 in, or 403 mm (rounded up)." in text


@pytest.mark.parametrize(
    ("value", "unit", "text"),
    [("15.875", "inch", "15 7/8 in"), ("0.5", "inch", "1/2 in"), ("16", "inch", "16 in"), ("402.2", "mm", "402.2 mm"),
     ("15.8348", "inch", "15.8348 in"), ("189.25", "ms", "189.25 ms"), ("12.5", "", "12.5")],
)  # fmt: skip
def test_inches_on_a_sixteenth_are_written_as_a_tape_shows_them(value, unit, text):
    assert show.amount(Fraction(value), unit, 4) == text


def test_the_plain_data_has_the_agreed_keys_and_goes_through_json():
    data = json.loads(json.dumps(show.as_data(solve(ANSI))))

    assert set(data) == {"problem", "result", "unit", "rounded_up", "steps", "citations", "warnings"}
    assert (data["problem"], data["unit"], data["rounded_up"]) == ("ansi-presence-sensing", "mm", 403)
    assert data["result"] == 402.20344
    assert data["steps"][-1]["value"] == 402.20344
    assert data["citations"][0]["read"] == "second-hand"


def test_a_refusal_has_no_result_but_its_reason():
    data = show.as_data(solve(ANSI.replace("beams-blanked=2 beam-pitch=10mm", "beams-blanked=5 beam-pitch=10mm")))

    assert data["result"] is None
    assert data["rounded_up"] is None
    assert "no longer sees a hand" in data["refusal"]


def test_a_word_is_part_of_the_result():
    assert show.as_data(solve("crush-gap body-part=finger gap=20mm"))["word"] == "Crush hazard."
    assert "Crush hazard." in show.as_text(solve("crush-gap body-part=finger gap=20mm"))


def test_a_time_has_no_inches_beside_it():
    assert "in)" not in show.as_text(solve("closing-time gap=6.35mm speed=10mm/s"), "in").split("Result")[1]


def test_one_unit_is_kept_where_the_answer_has_no_other():
    worked = solve("closing-time gap=6.35mm speed=10mm/s")

    assert show.as_data(worked, "in")["unit"] == "ms"
    assert show.as_data(worked, "in")["steps"][0]["substituted"] == "0.25 in ÷ 0.39 in/s"


def test_a_citation_says_how_it_was_read_unless_in_the_original():
    assert str(Citation(document="29 CFR 1910.217", clause="(c)(3)", read=Read.STATE)) == (
        "29 CFR 1910.217 (c)(3) [state copy]"
    )
    assert str(Citation(document="DGUV Information 209-008", clause="section 16", year="2022")) == (
        "DGUV Information 209-008, section 16 (2022)"
    )


def test_an_answer_is_rounded_in_the_unit_that_is_asked_for():
    name, texts = split(ANSI)
    asked = problem(name)

    assert asked.solve(asked.read(texts), unit="inch").rounded.magnitude == Fraction("15.875")
    assert asked.figure(asked.numbers(asked.read(texts)), unit="inch").rounded == Fraction("15.875")
