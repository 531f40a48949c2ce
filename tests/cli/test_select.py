"""``trainer select``: facts in, verdicts out, one sentence when something cannot be read."""

import json

import pytest
from click.testing import CliRunner, Result
from safeguarding.selection.bench import BENCH

from trainer.cli import main
from trainer.safeguarding.selection import FACTS, SAFEGUARDS

PAIRS = [f"{key}={value}" for key, value in BENCH.items()]


def run(*words: str) -> Result:
    return CliRunner().invoke(main, ["select", *words])


def test_json_has_verdicts_best_and_what_else_is_needed():
    result = run("--rule-set", "us", "--json", *PAIRS)

    data = json.loads(result.stdout)
    assert result.exit_code == 0
    assert set(data["verdicts"]) == set(SAFEGUARDS)
    assert {"verdict", "rules", "reasons", "conditions"} <= set(data["verdicts"]["foot_switch"])
    assert data["verdicts"]["foot_switch"]["verdict"] == "not_valid"
    assert data["verdicts"]["foot_switch"]["rules"] == ["FS-01"]
    assert data["best"][0] == "fixed_guard"
    assert data["also_needed"] == []


def test_options_may_stand_behind_the_facts():
    assert run(*PAIRS, "--json", "--rule-set", "intl").exit_code == 0


def test_without_json_a_sheet_is_printed():
    result = run("--rule-set", "us", *PAIRS)

    assert result.exit_code == 0
    assert result.stdout.startswith("Safeguards for this job. Rule set: United States (us).")


def test_without_facts_everything_is_unknown_and_the_job_is_not_run():
    result = run("--rule-set", "intl")

    assert result.exit_code == 0
    assert "DO NOT RUN THIS JOB ON THIS MACHINE AS IT STANDS." in result.stdout


def test_the_list_shows_every_fact():
    result = run("--list")

    assert result.exit_code == 0
    assert all(f"{key}=" in result.stdout for key in FACTS)


@pytest.mark.parametrize(
    ("words", "named"),
    [
        (["drive=servo"], ["--rule-set us", "--rule-set intl"]),
        (["--rule-set", "eu", "drive=servo"], ["us", "intl"]),
        (["--rule-set", "us", "drive=steam"], ["drive", *FACTS["drive"].allowed]),
        (["--rule-set", "us", "engine=servo"], ["engine", *FACTS]),
        (["--rule-set", "us", "hand_mm=near"], ["hand_mm", "millimetres", "unknown"]),
        (["--rule-set", "us", "hand_mm=nan"], ["hand_mm", "millimetres"]),
        (["--rule-set", "us", "people=0"], ["people", "whole number from 1"]),
        (["--rule-set", "us", "drive"], ["drive", "KEY=VALUE"]),
        (["--rule-set", "us", "=servo"], ["KEY=VALUE"]),
        (["--rule-set", "us", "--depth"], ["--depth", "KEY=VALUE"]),
        (["--rule-set", "us", "drive=servo", "drive=servo"], ["drive", "twice"]),
        (["--rule-set", "us", "drive=\x1b[31m"], ["drive"]),
    ],
)
def test_what_cannot_be_read_gets_one_sentence_and_exit_2(words, named):
    result = run(*words)

    assert result.exit_code == 2
    assert result.stdout == ""
    assert result.stderr.count("\n") == 1
    assert result.stderr.rstrip().isprintable()
    assert all(word in result.stderr for word in named)
