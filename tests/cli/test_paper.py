"""``trainer paper show`` prints a paper with its key."""

import json
import random

import pytest
from banks import shipped_bank
from click.testing import CliRunner, Result
from records.site import build_site

from trainer.assessment.paper import build_paper
from trainer.assessment.result import result
from trainer.cli import main
from trainer.cli._seeding.answers import answer_paper
from trainer.records import open_record, sittings

INDUCTION = "press-brake-operator-induction"


def run(*words: str) -> Result:
    return CliRunner().invoke(main, ["paper", "show", *words])


def test_each_question_has_one_starred_key_and_each_drill_its_number_and_slips():
    result = run(INDUCTION, "--seed", "5")
    blocks = result.output.split("\n\n")[1:]

    assert result.exit_code == 0
    assert [block.split(".")[0] for block in blocks] == [str(number) for number in range(1, len(blocks) + 1)]
    marked = [block for block in blocks if ", lesson, " not in block]
    starred = [sum(line.startswith("    * ") for line in block.splitlines()) for block in marked]
    ordered = ["\n    1 " in block or (") " in block and " = " in block) for block in marked]  # steps, or partners
    assert all(stars >= 1 or steps for stars, steps in zip(starred, ordered, strict=True))
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


@pytest.fixture(scope="module")
def bank():
    return shipped_bank()


@pytest.fixture
def taken(settings, clock, bank):
    """A sitting that was handed in; return its entry's number."""
    record = open_record(settings, clock)
    site = build_site(record, clock, bank)
    paper = build_paper(bank, INDUCTION, 5)
    given = answer_paper(bank, paper, [], random.Random(5))
    with record.writing() as w:
        sitting = sittings.start(
            w, bank, person=site.learner, programme=INDUCTION, paper=paper, language="es", kiosk="K1"
        )
        for one in given:
            sittings.save_answer(
                w, sitting.id, one.sheet.number, one.answer, one.mark, key=f"k{one.sheet.number}", took_ms=9_000
            )
        made = sittings.hand_in(w, sitting.id, result(bank, paper, [one.mark for one in given]))
    record.close()
    return made.number


def test_an_old_paper_is_printed_as_it_was_although_the_bank_has_changed(settings, taken, tmp_path, monkeypatch):
    monkeypatch.setenv("TRAINER_CONTENT", str(tmp_path))  # nothing of today's bank is needed
    printed = CliRunner().invoke(main, ["paper", "reprint", str(taken), "--data", str(settings.data)])
    monkeypatch.delenv("TRAINER_CONTENT")
    drawn = run(INDUCTION, "--seed", "5", "--language", "es").output

    assert printed.exit_code == 0
    told = [line for line in printed.output.splitlines() if not line.startswith("    answered: ")]
    assert told == drawn.splitlines()
    assert printed.output.count("    answered: ") == drawn.count("version ") - drawn.count(", lesson, ")


def test_an_entry_that_records_no_sitting_is_one_sentence(settings, taken):
    told = CliRunner().invoke(main, ["paper", "reprint", "1", "--data", str(settings.data)])

    assert told.exit_code == 1
    assert "L-1 records no sitting." in told.output
