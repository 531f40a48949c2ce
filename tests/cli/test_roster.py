"""Rosters from the command line: checked, taken, written out and taken again."""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from trainer.cli import main

PEOPLE = 'number,name,shift,hire date\n00101,"=cmd()",Early,2020-05-04\n00102,Zoë O’Brien,3E5,2021-05-04\n'


@pytest.fixture
def run(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)

    def call(*words, typed="", folder="data"):
        return CliRunner().invoke(main, ["roster", *words, "--data", folder], input=typed)

    return call


def write(text, name="people.csv"):
    Path(name).write_bytes(text.encode())
    return name


def test_a_roster_begins_a_record_and_a_second_time_changes_nothing(run):
    taken = run("import", write(PEOPLE), "--yes")
    again = run("import", "people.csv")

    assert (taken.exit_code, taken.output.splitlines()[-1]) == (0, "Taken: 2 people added or changed.")
    assert (again.exit_code, again.output.splitlines()[-2:]) == (
        0,
        ["2 unchanged. 0 to be done, 0 against it.", "Nothing changes."],
    )


@pytest.mark.parametrize("file", ["out.csv", "out.xlsx"])
def test_what_is_written_out_comes_back_without_a_change_and_begins_another_record_alike(run, file):
    run("import", write(PEOPLE), "--yes")
    written = run("export", file)

    assert (written.exit_code, written.stderr.split(".")[0]) == (0, "2 people")
    assert run("import", file).output.splitlines()[-1] == "Nothing changes."
    run("import", file, "--yes", folder="other")
    run("export", "one.csv")
    run("export", "two.csv", folder="other")
    one, two = (Path(name).read_text(encoding="utf-8-sig") for name in ("one.csv", "two.csv"))
    assert one == two
    assert "00101,'=cmd()," in one


def test_a_no_takes_nothing(run):
    refused = run("import", write(PEOPLE), typed="n\n")

    assert (refused.exit_code, refused.output.splitlines()[-1]) == (1, "Nothing was taken.")
    assert run("check", "people.csv").output.count("      new  ") == 2


def test_a_check_names_row_reason_and_what_would_be_right(run):
    run("import", write(PEOPLE), "--yes")
    shown = run("check", write("number,name,hire date,pay\n7,Bo Lind,29/02/2023,9\n101,=cmd(),,9\n"))

    assert shown.exit_code == 1
    assert "Not stored: pay." in shown.output
    assert "hire date: There is no day 29/02/2023. Write the day that is meant, as 2026-03-09." in shown.output
    assert "--answer zeros=lost    Yes: 101 = 00101" in shown.output


def test_a_check_as_json_has_every_row_and_question(run):
    run("import", write(PEOPLE), "--yes")
    result = run("check", write("Ref,name\n101,=cmd()\n"), "--column", "number=Ref", "--json")
    plan = json.loads(result.stdout)

    assert (result.exit_code, plan["ready"]) == (1, False)
    assert [(row["line"], row["fate"]) for row in plan["rows"]] == [(2, "asked")]
    assert [question["id"] for question in plan["questions"]] == ["zeros"]
    assert {finding["code"] for finding in plan["findings"]} == {"open-question"}


def test_who_leaves_needs_somebody_who_answers_for_it(run):
    run("import", write(PEOPLE), "--yes")
    write("number,name,last day\n00101,=cmd(),2024-01-31\n00102,Zoë O'Brien,\n")

    assert run("import", "people.csv", "--yes").exit_code == 2
    assert run("import", "people.csv", "--yes", "--by", "999").exit_code == 1
    assert run("import", "people.csv", "--yes", "--by", "00102").exit_code == 0


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("check", "people.csv", "--answer", "encoding"), "is no answer"),
        (("check", "people.csv", "--column", "number"), "names no column"),
        (("export", "people.txt"), "the ending says the form"),
        (("check", "gone.csv"), "does not exist"),
    ],
)
def test_wrong_usage_is_one_sentence(run, words, said):
    run("import", write(PEOPLE), "--yes")
    result = run(*words)

    assert result.exit_code == 2
    assert said in result.output
    assert "Traceback" not in result.output
