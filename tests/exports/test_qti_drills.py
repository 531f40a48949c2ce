"""Drills in QTI 3.0: drawn and worked out by the player, and only where that comes to the same in every draw."""

from fractions import Fraction

import pytest

from trainer.bank import Bank
from trainer.bank.model import ComputeDrill, Fixed, Range
from trainer.exports.qti.arithmetic import NotPlain, compiled, expression, number, scaled, variable
from trainer.exports.qti.drills import drill_item
from trainer.exports.qti.node import node
from trainer.exports.qti.templates import BRANCH, TABLE, WORDS, Left, reckoning, right, template
from trainer.web.language import voice

SYMBOLS = {"a": variable("a"), "b": variable("b"), "O_eff": variable("o")}
VALUES = {"a": 6.0, "b": 4.0, "o": 24.0}


@pytest.mark.parametrize(
    ("formula", "value"),
    [
        ("a + b − 3", 7),
        ("a − b − 1", 1),
        ("a ÷ b × 2", 3),
        ("1/2 + 1/b", 0.75),
        ("2 × (a − b)", 4),
        ("3.4 × (O_eff − 0.276 in)", 57.76464),  # 3.4 × (24 − 7.0104), by hand
        ("max(10 mm, a + b, 3)", 10),
        ("1200 mm − 0.4 × a", 1197.6),
        ("a × 10 ms", 0.06),
    ],
)
def test_plain_arithmetic_is_read_in_base_units(formula, value):
    assert compiled(expression(formula, SYMBOLS))(VALUES) == pytest.approx(value, abs=1e-12)


@pytest.mark.parametrize(
    "formula", ["table(a)", "⌈a ÷ b⌉", "a +", "(a", "a b", "c", "", "a)", "max a", "2 parsec", "a(b)", "max(a"]
)
def test_what_is_more_than_that_is_refused(formula):
    with pytest.raises(NotPlain):
        expression(formula, SYMBOLS)


def test_a_number_whose_decimals_do_not_end_is_a_division():
    third = number(Fraction(1, 3))

    assert third.name == "qti-divide"
    assert compiled(third)({}) == 1 / 3
    assert compiled(scaled(variable("a"), Fraction(254, 10)))(VALUES) == 152.4


def test_the_player_s_own_functions_are_reckoned():
    assert compiled(node("qti-truncate", number(Fraction(29, 10))))({}) == 2
    assert compiled(node("qti-min", number(Fraction(2)), variable("b"), variable("a")))(VALUES) == 2
    assert compiled(node("qti-integer-to-float", variable("b")))(VALUES) == 4


def test_a_draw_that_was_worked_by_hand(bank: Bank):
    # T = 90 + 12 + 14 + 17 ms = 0.133 s; 1600.2 × 0.133 = 212.8266; 3.4 × (14 − 7.0104) = 23.76464; together 236.59124.
    drill = bank.drills["PB-D01"]
    few = {key: Fixed(value=entry.values()[0]) for key, entry in drill.inputs.items() if key != "stopping-time"}
    narrow = drill.model_copy(
        update={"inputs": {"stopping-time": Range(**{"from": "90 ms", "to": "95 ms", "step": "5 ms"}), **few}}
    )
    made = template(narrow)
    values = reckoning(made)({"stopping-time": "90 ms"})

    assert values["EXACT"] == pytest.approx(236.59124, abs=1e-9)
    assert values["NEEDED"] == 237
    assert values["HIGH"] == 337
    assert not right(made, values, 236.5912)
    assert right(made, values, 236.5913)
    assert right(made, values, 337)
    assert not right(made, values, 337.01)


@pytest.mark.parametrize(
    ("name", "reason"),
    [
        ("PB-D11", TABLE),
        ("PB-D14", TABLE),
        ("PB-D16", TABLE),
        ("PB-D19", WORDS),
        ("PB-D20", WORDS),
    ],
)
def test_a_drill_that_the_standard_cannot_say_is_left_with_its_reason(bank: Bank, name: str, reason: str):
    with pytest.raises(Left, match=reason):
        template(bank.drills[name])


def test_a_drill_whose_rule_changes_its_steps_within_the_range_is_left(bank: Bank):
    # ISO 13855:2010, 6.2: beyond 500 mm the sum is done again with the second speed.
    drill = bank.drills["PB-D04"]
    wide = {**drill.inputs, "stopping-time": Range(**{"from": "100 ms", "to": "330 ms", "step": "10 ms"})}

    template(drill)
    with pytest.raises(Left, match=BRANCH):
        template(drill.model_copy(update={"inputs": wide}))


@pytest.mark.parametrize("name", ["PB-D05", "PB-D08", "PB-D15", "PB-D21", "PB-D24"])  # each way to bound an answer
def test_an_item_declares_and_sets_whatever_it_reads_before_it_reads_it(bank: Bank, name: str):
    drill = bank.drills[name]
    assert isinstance(drill, ComputeDrill)
    root = drill_item(template(drill), voice("es"), None)
    declared = [one.get("identifier") for one in root.all("qti-template-declaration")]
    known: set[str] = set()
    for entry in root.all("qti-set-template-value"):
        assert {one.get("identifier") for one in entry.all("qti-variable")} <= known, entry.get("identifier")
        known.add(entry.get("identifier"))

    assert len(set(declared)) == len(declared)
    assert set(declared) == known
    drawn = {key for key, entry in drill.inputs.items() if not isinstance(entry, Fixed)}
    assert {one.get("identifier") for one in root.all("qti-printed-variable")} == drawn
    assert root.first("qti-text-entry-interaction") is not None
    assert "ayuda para capacitar" in root.text()
