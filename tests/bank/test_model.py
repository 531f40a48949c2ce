"""The models: texts fall back, ranges hold what they say, periods are months."""

from fractions import Fraction

import pytest
from pydantic import TypeAdapter, ValidationError

from trainer.bank.model import Blueprint, Fixed, Input, OneOf, Programme, Range, Text

INPUT = TypeAdapter(Input)


def test_a_text_falls_back_to_english_and_then_to_what_there_is():
    text = Text(words={"es": "hola", "en": "hello"})

    assert (text.in_("es"), text.in_("fr"), Text(words={"es": "hola"}).in_("fr")) == ("hola", "hello", "hola")
    assert text.has("es")
    assert not text.has("fr")


@pytest.mark.parametrize(
    ("given", "kind", "values"),
    [
        ("10 mm", Fixed, ("10 mm",)),
        ({"one_of": ["14 mm", "30 mm"]}, OneOf, ("14 mm", "30 mm")),
        ({"from": "90 ms", "to": "100 ms", "step": "5 ms"}, Range, ("90 ms", "95 ms", "100 ms")),
        ({"from": "1", "to": "3", "step": "1"}, Range, ("1", "2", "3")),
        ({"from": "0.1 s", "to": "0.3 s", "step": "0.1 s"}, Range, ("0.1 s", "0.2 s", "0.3 s")),
        ({"from": "5 mm", "to": "5 mm", "step": "1 mm"}, Range, ("5 mm",)),
    ],
)
def test_an_input_gives_every_value_that_may_be_drawn(given: object, kind: type, values: tuple[str, ...]):
    made = INPUT.validate_python(given)

    assert isinstance(made, kind)
    assert made.values() == values


@pytest.mark.parametrize(
    "given", [[], {"one_of": []}, {"from": "1 ms"}, {"from": "1", "to": "2", "step": "1", "by": "1"}]
)
def test_an_input_of_another_shape_is_refused(given: object):
    with pytest.raises(ValidationError):
        INPUT.validate_python(given)


def programme(**changes: object) -> Programme:
    given = {
        "id": "p",
        "kind": "refresher",
        "role": "operator",
        "machine_kinds": ["folder"],
        "scenarios": [],
        "blueprint": Blueprint(questions={}),
        "pass_share": "4/5",
        "interval": "P12M",
        "warn_days": 30,
        "name": Text(words={}),
    }
    return Programme.model_validate({**given, **changes})


def test_a_pass_share_is_an_exact_fraction():
    assert programme().pass_share == Fraction(4, 5)


@pytest.mark.parametrize(("interval", "months"), [("P12M", 12), ("P1Y", 12), ("P6M", 6), ("P3Y", 36)])
def test_an_interval_is_whole_months(interval: str, months: int):
    assert programme(interval=interval).months == months


@pytest.mark.parametrize(
    "changes",
    [
        {"interval": "P0M"},
        {"interval": "12M"},
        {"interval": "P2W"},
        {"pass_share": "0"},
        {"pass_share": "6/5"},
        {"pass_share": "4/0"},
        {"warn_days": -1},
        {"role": "wizard"},
        {"machine_kinds": ["lathe"]},
        {"blueprint": {"questions": {"PB-S90": -1}}},
        {"due": {"early_window": "P12M"}},
        {"due": {"young_period": "P2Y"}},
        {"due": {"late_grace": "P4W"}},
        {"due": {"moon_phase": "full"}},
    ],
)
def test_a_programme_that_cannot_be_meant_is_refused(changes: dict[str, object]):
    with pytest.raises(ValidationError):
        programme(**changes)


def test_a_model_cannot_be_changed():
    with pytest.raises(ValidationError):
        programme().id = "other"
