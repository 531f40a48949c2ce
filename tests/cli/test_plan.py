"""``trainer paper plan`` prints a sequential test with its true error rates."""

import json

from click.testing import CliRunner

from trainer.cli import main


def run(*words, code=0):
    result = CliRunner().invoke(main, ["paper", "plan", *words])
    assert result.exit_code == code, result.output
    return result.output


def test_the_counts_and_the_true_rates_are_printed():
    # Fact sheet on assessment, section 3.2, first row: 9: 4, 9; 20: 12, 17; undecided after 30 items .152 and .370.
    told = run()

    assert "    9                   4                    9\n" in told
    assert "   20                  12                   17\n" in told
    assert "undecided 0.1519" in told
    assert "undecided 0.3698" in told
    assert "Aimed at: false pass 0.05, false fail 0.05." in told
    assert told.endswith("Undecided at the end is not passed.\n")


def test_json_holds_what_is_printed():
    data = json.loads(run("--json", "--least", "12"))

    assert data["table"][8] == {"asked": 9, "fail_at_most": 4, "pass_at_least": None}
    low, middle, high = data["courses"]
    assert low["passed"] < 0.0422 < middle["passed"] < high["passed"]
    assert high["not_passed"] == 1 - high["passed"] or abs(high["not_passed"] + high["passed"] - 1) < 1e-12


def test_what_cannot_be_told_apart_is_refused_in_one_sentence():
    assert run("--low", "0.9", code=2).count("\n") == 1
