"""``trainer paper show`` prints a paper with its key."""

import json

from click.testing import CliRunner, Result

from trainer.cli import main

INDUCTION = "press-brake-operator-induction"


def run(*words: str) -> Result:
    return CliRunner().invoke(main, ["paper", "show", *words])


def test_each_question_has_one_starred_key_and_each_drill_its_number_and_slips():
    result = run(INDUCTION, "--seed", "5")
    blocks = result.output.split("\n\n")[1:]

    assert result.exit_code == 0
    assert [block.split(".")[0] for block in blocks] == [str(number) for number in range(1, len(blocks) + 1)]
    marked = [block for block in blocks if ", lesson, " not in block]
    assert all(sum(line.startswith("    * ") for line in block.splitlines()) == 1 for block in marked)
    assert "Leaves out the penetration allowance (leaves-out-penetration)" in result.output


def test_the_same_seed_prints_the_same_and_another_does_not():
    assert run(INDUCTION, "--seed", "5").output == run(INDUCTION, "--seed", "5").output
    assert run(INDUCTION, "--seed", "5").output != run(INDUCTION, "--seed", "6").output


def test_it_can_be_had_in_spanish():
    assert run(INDUCTION, "--language", "es").output != run(INDUCTION).output


def test_json_is_the_paper_as_it_is_stored():
    data = json.loads(run(INDUCTION, "--json").output)

    assert (data["programme"], data["seed"]) == (INDUCTION, 1)
    assert {"number", "kind", "item", "version", "order", "drawn"} <= set(data["sheets"][0])


def test_an_unknown_programme_is_one_sentence():
    result = run("no-such-programme")

    assert result.exit_code == 1
    assert result.output.strip().count("\n") == 0


def test_a_seed_that_is_no_number_is_wrong_usage():
    assert run(INDUCTION, "--seed", "x").exit_code == 2
