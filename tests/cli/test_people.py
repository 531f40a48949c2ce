"""People and machines from the command line: the way into an empty record."""

import pytest
from click.testing import CliRunner

from trainer.cli import main

SECRET = "a long enough password"


@pytest.fixture
def run(tmp_path):
    def call(*words, typed=""):
        return CliRunner().invoke(main, [*words, "--data", str(tmp_path / "data")], input=typed)

    return call


def test_a_record_begins_with_its_first_people_and_machine(run):
    added = run(
        "people",
        "add",
        "--number",
        "00101",
        "--name",
        "Ada Quill",
        "--role",
        "trainer",
        "--login",
        "ada",
        typed=f"{SECRET}\n{SECRET}\n",
    )
    assert (added.exit_code, added.output.splitlines()[-1]) == (0, "Added 00101 Ada Quill.")
    assert run("people", "add", "--number", "00112", "--name", "Bo Lind", "--role", "officer").exit_code == 0
    assert (
        run(
            "machines", "add", "PB-1", "--kind", "press-brake-hydraulic", "--name", "Brake", "stopping-time=128 ms"
        ).exit_code
        == 0
    )

    assert "00101" in run("people", "list").output
    assert run("machines", "list").output.startswith("PB-1")
    entitled = run(
        "people", "entitle", "00101", "--machine-kind", "press-brake-hydraulic", "--for-role", "operator",
        "--basis", "Course", "--by", "00112", "--until", "2999-12-31",
    )  # fmt: skip
    assert (entitled.exit_code, entitled.output) == (0, "L-1: 00101 may judge until 2999-12-31.\n")


def test_nobody_gives_themselves_the_right_to_judge(run):
    run("people", "add", "--number", "00112", "--name", "Bo Lind")
    refused = run(
        "people", "entitle", "00112", "--machine-kind", "press-brake-hydraulic", "--for-role", "operator",
        "--basis", "Course", "--by", "00112", "--until", "2999-12-31",
    )  # fmt: skip

    assert refused.exit_code == 1
    assert "themselves" in refused.output


@pytest.mark.parametrize(
    ("words", "code", "says"),
    [
        (("machines", "add", "PB-1", "--kind", "x", "--name", "Brake", "stopping-time"), 2, "is not a fact"),
        (("people", "list"), 1, "record"),
        (("people", "add", "--number", "00101", "--name", "   "), 2, "name"),
    ],
)
def test_what_is_wrong_gets_one_sentence(run, words, code, says):
    result = run(*words)

    assert result.exit_code == code
    assert says in result.output
    assert "Traceback" not in result.output


def test_facts_and_readings_of_a_machine_are_put_on_file(run):
    run("machines", "add", "PB-1", "--kind", "press-brake-hydraulic", "--name", "Brake", "made=2014")

    noted = run("machines", "note", "PB-1", "mounted-distance=420 mm", "beam-pitch=10 mm", "made=")
    assert (noted.exit_code, noted.output) == (0, "PB-1 has 2 facts.\n")
    read = run("machines", "reading", "PB-1", "186ms", "189ms", "--on", "2026-03-02", "--note", "warm")
    assert (read.exit_code, read.output) == (0, "PB-1 has 2 readings; the time on file is 189ms.\n")


@pytest.mark.parametrize(
    ("words", "said"),
    [(("note", "PB-1", "mounted-distance"), "Write it as"), (("reading", "PB-1", "186"), "no unit"),
     (("reading", "PB-1", "186ms", "--on", "2999-01-01"), "has not come yet"),
     (("note", "PB-9", "made=2014"), "no machine PB-9")],
)  # fmt: skip
def test_what_is_no_fact_and_no_reading_is_one_sentence(run, words, said):
    run("machines", "add", "PB-1", "--kind", "press-brake-hydraulic", "--name", "Brake")
    result = run("machines", *words)

    assert result.exit_code in {1, 2}
    assert said in result.output
    assert result.output.strip().count("\n") == 0
