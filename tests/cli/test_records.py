"""``trainer records``, ``trainer due`` and ``trainer db``, as somebody types them."""

import csv
import io
import json
import re
import zipfile
from datetime import timedelta

import pytest
from banks import shipped_bank
from click.testing import CliRunner
from exports.xapi_rules import faults
from openpyxl import load_workbook
from records.site import INDUCTION, build_site, tamper

from trainer.cli import main
from trainer.clock import Clock, FixedClock
from trainer.records import acts, assignments, open_record, people


@pytest.fixture(scope="module")
def bank():
    return shipped_bank()


@pytest.fixture
def plant(settings, bank, monkeypatch):
    """A record of yesterday: one authorised operator, one assignment."""
    monkeypatch.setenv("TRAINER_ZONE", "America/Chicago")
    clock = FixedClock(Clock().now() - timedelta(days=1))
    record = open_record(settings, clock)
    site = build_site(record, clock, bank)
    site.sit(site.learner)
    site.show(site.learner)
    with record.writing() as w:
        assignments.assign(
            w, person=site.officer, programme=INDUCTION, by=site.trainer, reason="hired", happened_on=w.today()
        )
    yield site
    record.close()


def run(settings, *words, code=0):
    result = CliRunner().invoke(main, [*words, "--data", str(settings.data)])
    assert result.exit_code == code, result.output
    assert "Traceback" not in result.output
    return result.output


def test_verify_says_all_is_as_written(settings, plant):
    assert run(settings, "records", "verify") == "4 entries read. All as written.\n"
    assert json.loads(run(settings, "records", "verify", "--json")) == {"good": True, "entries": 4, "findings": []}


def test_one_changed_byte_makes_verify_exit_1_and_name_the_entry(settings, plant):
    tamper(plant.record, "UPDATE entry SET body = replace(body, 'hired', 'hireD') WHERE number = 4")

    told = run(settings, "records", "verify", code=1)
    assert "L-4: altered-entry: This entry was changed after it was written." in told
    assert told.endswith("4 entries read. 1 faults.\n")
    data = json.loads(run(settings, "records", "verify", "--json", code=1))
    assert (data["good"], data["findings"][0]["code"], data["findings"][0]["key"]) == (False, "altered-entry", "L-4")


def test_export_opens_in_csv_and_holds_the_entries(settings, plant):
    text = CliRunner().invoke(main, ["records", "export", "--data", str(settings.data)]).stdout_bytes
    rows = list(csv.DictReader(io.StringIO(text.decode("utf-8-sig"), newline="")))

    assert [row["entry"] for row in rows] == ["L-1", "L-2", "L-3", "L-4"]
    assert (rows[1]["person number"], rows[1]["person name then"], rows[1]["result"]) == (
        "00241",
        "Dana Ruiz",
        "passed",
    )


def test_export_to_a_file_of_one_person(settings, plant, tmp_path):
    target = tmp_path / "out.csv"
    run(settings, "records", "export", "--person", "00241", "-o", str(target))
    rows = list(csv.DictReader(io.StringIO(target.read_text(encoding="utf-8-sig"), newline="")))

    assert [row["entry"] for row in rows] == ["L-2", "L-3"]
    assert [path.name for path in tmp_path.glob("out*")] == ["out.csv"]


@pytest.mark.parametrize("form", ["csv", "xlsx", "json", "xapi"])
def test_every_format_of_an_export_tells_the_same_count_and_code(settings, plant, tmp_path, form):
    def told(*words):
        target = tmp_path / f"out.{form}"
        command = ["records", "export", "--data", str(settings.data), "--format", form, "-o", str(target), *words]
        result = CliRunner().invoke(main, command, env={"TRAINER_ADDRESS": "https://training.example"})
        assert result.exit_code == 0, result.output
        assert target.stat().st_size > 100
        return result.stderr

    plain = CliRunner().invoke(main, ["records", "export", "--data", str(settings.data), "--person", "00241"]).stderr
    assert told("--person", "00241") == plain
    assert re.fullmatch(r"2 entries\. Check code [0-9A-Z-]{14}\n", plain)
    assert told() != plain


def test_one_persons_file_is_printed_with_the_code_of_every_other_form(settings, plant, tmp_path):
    file = tmp_path / "dana.pdf"
    told = run(settings, "records", "export", "--person", "00241", "--format", "pdf", "--out", str(file))
    again = run(settings, "records", "export", "--person", "00241", "--out", str(tmp_path / "dana.csv"))

    assert file.read_bytes().startswith(b"%PDF-")
    assert told == again
    refused = run(settings, "records", "export", "--format", "pdf", "--out", str(file), code=2)
    assert "Name the person with --person NUMBER." in refused
    assert sorted(path.name for path in tmp_path.iterdir() if path.is_file()) == ["dana.csv", "dana.pdf"]


def test_every_statement_of_a_real_record_is_as_xapi_asks(settings, plant):
    with plant.record.writing() as w:
        acts.withdraw(w, entry=2, reason="wrong person", by=plant.officer, happened_on=w.today())
    command = ["records", "export", "--data", str(settings.data), "--format", "xapi"]
    result = CliRunner().invoke(main, command, env={"TRAINER_ADDRESS": "https://ostrand.example/training/"})
    found = [json.loads(line) for line in result.stdout.splitlines()]

    assert [faults(one) for one in found] == [[]] * len(found)
    assert sum(one["verb"]["id"].endswith("/voided") for one in found) == 2  # the paper and its one answer
    assert {one["actor"]["account"]["homePage"] for one in found} == {"https://ostrand.example/training"}


def test_an_address_that_is_not_set_is_told(settings, plant):
    told = CliRunner().invoke(main, ["records", "export", "--data", str(settings.data), "--format", "xapi"])

    assert "TRAINER_ADDRESS is not set; https://training.example stands for it." in told.stderr


def test_a_spreadsheet_speaks_the_language_that_was_asked_for(settings, plant, tmp_path):
    target = tmp_path / "out.xlsx"
    run(settings, "records", "export", "--format", "xlsx", "--language", "es", "-o", str(target))

    book = load_workbook(target)
    assert book.sheetnames == ["Filas", "Sobre este archivo"]
    assert book.worksheets[0]["A2"].value == "L-1"


def test_export_to_a_place_that_is_none_is_refused(settings, plant, tmp_path):
    told = run(settings, "records", "export", "-o", str(tmp_path / "no" / "out.csv"), code=2)

    assert "cannot be written" in told


def test_standing_says_who_may_run_and_why(settings, plant):
    told = run(settings, "records", "standing", "--machine", "PB-1", "--may-run")

    assert "PB-1     operator   00241 Dana Ruiz" in told
    assert "Shown at the machine on" in told
    assert "(L-3)" in told
    assert told.endswith("1 of 1 may run the machine.\n")


def test_standing_as_data(settings, plant):
    (row,) = json.loads(run(settings, "records", "standing", "--machine", "PB-1", "--person", "00241", "--json"))

    assert (row["number"], row["standing"], row["may_run"], row["role"]) == ("00241", "authorised", True, "operator")
    assert [reason["entries"] for reason in row["reasons"]] == [["L-2"], ["L-3"]]
    assert json.loads(run(settings, "records", "standing", "--on", "2020-01-01", "--json")) == []


def test_standing_as_known_on_an_earlier_day(settings, plant):
    told = run(settings, "records", "standing", "--known-on", "2020-01-01", "--all", "--role", "operator")

    assert told.endswith("0 of 6 may run the machine.\n")


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("records", "standing", "--on", "2026-02-30"), "there is no day 2026-02-30"),
        (("records", "standing", "--on", "9 March"), "write a day as 2026-03-09"),
        (("records", "standing", "--known-on", "20260309"), "--known-on: write a day"),
        (("due", "--on", "tomorrow"), "write a day as"),
        (("due", "--days", "-1"), "-1"),
        (("records", "export", "--format", "doc"), "doc"),
        (("records", "export", "--language", "xx"), "There is no language xx; there are en, es."),
    ],
)
def test_wrong_usage_is_one_sentence_and_exit_2(settings, plant, words, told):
    assert told in run(settings, *words, code=2)


@pytest.mark.parametrize(
    "words",
    [
        ("records", "standing", "--machine", "PB-9"),
        ("records", "export", "--person", "417"),
        ("due", "--machine", "PB-9"),
        ("due", "--person", "417"),
    ],
)
def test_a_name_that_is_not_there_is_refused_with_exit_1(settings, plant, words):
    assert words[-1] in run(settings, *words, code=1)


def test_a_number_that_two_people_had_is_not_guessed(settings, plant):
    with plant.record.writing() as w:
        first = people.add(w, number="3108", name="Ann Reed").key
        people.rename(w, first, name="Ann Reed", number="4000")
        second = people.add(w, number="3108", name="Tomas Ruiz").key
        people.rename(w, second, name="Tomas Ruiz", number="4001")

    assert "used by several people: Ann Reed, Tomas Ruiz" in run(
        settings, "records", "export", "--person", "3108", code=2
    )


def test_due_lists_what_is_assigned_and_falls_due(settings, plant):
    told = run(settings, "due", "--days", "370")

    assert "assigned  00112 Harriet Lindqvist-Moss" in told
    assert "due       00241 Dana Ruiz" in told
    rows = json.loads(run(settings, "due", "--json"))
    assert [(row["number"], row["state"], row["entry"]) for row in rows] == [("00112", "assigned", "L-4")]


@pytest.mark.parametrize("form", ["csv", "xlsx", "json", "ics"])
def test_what_is_due_is_written_in_each_format(settings, plant, tmp_path, form):
    target = tmp_path / f"due.{form}"
    command = ["due", "--data", str(settings.data), "--format", form, "-o", str(target), "--days", "370"]
    result = CliRunner().invoke(main, command, env={"TRAINER_ADDRESS": "https://training.example"})

    assert result.exit_code == 0, result.output
    assert result.stderr.startswith("2 lines. Check code ")
    begins = {"csv": "\ufeffdue on".encode(), "xlsx": b"PK", "json": b'{"about"', "ics": b"BEGIN:VCALENDAR"}
    assert target.read_bytes().startswith(begins[form])


def test_due_can_be_narrowed_to_a_person_a_crew_a_shift_or_a_machine(settings, plant):
    with plant.record.writing() as w:
        people.change(w, plant.learner, crew="B", shift="Late")

    def listed(*words):
        rows = json.loads(run(settings, "due", "--json", "--days", "370", *words))
        return [row["number"] for row in rows]

    assert listed() == ["00112", "00241"]
    assert listed("--person", "00241") == listed("--crew", "B") == listed("--shift", "Late") == ["00241"]
    assert listed("--machine", "PB-4") == ["00112"]  # what is assigned for no machine is needed for every one


@pytest.mark.parametrize(
    "words", [("records", "verify"), ("records", "export"), ("records", "standing"), ("due",), ("db", "check")]
)
def test_a_folder_without_a_record_is_named_and_none_is_made(settings, words):
    assert "There is no record at" in run(settings, *words, code=1)
    assert not settings.data.exists()


def test_db_upgrade_makes_the_tables_and_check_says_they_fit(settings):
    assert run(settings, "db", "upgrade").startswith("Brought to revision ")
    assert run(settings, "db", "upgrade").startswith("Is at revision ")
    assert run(settings, "db", "check") == "The tables are as needed.\n"


def test_db_check_names_a_guard_that_is_gone(settings, plant):
    with plant.record.engine.begin() as connection:
        connection.exec_driver_sql("DROP TRIGGER entry_no_delete")

    assert "missing trigger entry_no_delete" in run(settings, "db", "check", code=1)
    assert "missing-guard" in run(settings, "records", "verify", code=1)


def test_a_file_that_is_no_record_is_told_without_a_traceback(settings):
    settings.data.mkdir()
    (settings.data / "record.sqlite").write_bytes(b"not a database" * 100)

    assert "cannot be opened" in run(settings, "records", "verify", code=1)
    assert "cannot be opened" in run(settings, "db", "check", code=1)


def test_items_says_what_answers_show_and_that_there_are_few(settings, plant):
    told = run(settings, "records", "items")

    assert "PB-S14/q1 version 3: answers 1, right 1.00 (0.21 to 1.00)\n" in told
    assert "The bank has this item no longer, or in another version." in told
    assert "Too few answers to judge by: 1 of the 50 that it takes." in told
    assert f"{INDUCTION}: 1 of 1 passed at the first paper\n" in told
    assert told.endswith("2 items answered, 0 in doubt. 1 programmes.\n")


def test_items_as_json_are_exact_and_can_be_of_some_days(settings, plant):
    data = json.loads(run(settings, "records", "items", "--json"))
    (one,) = (found for found in data["items"] if found["item"] == "PB-S14/q1")

    assert one["statistics"]["low"] == pytest.approx(0.20655, abs=1e-5)  # 1 / (1 + 1.96²)
    assert one["statistics"]["note"].startswith("Too few answers")
    assert data["papers"][0]["consistency"]["exact"] is None
    assert json.loads(run(settings, "records", "items", "--json", "--until", "2020-01-01"))["items"] == []


def test_a_pack_is_made_and_checked_by_name_of_people(settings, plant, tmp_path):
    target = tmp_path / "pack.zip"
    told = run(settings, "records", "audit-pack", "--people", "00241, 00112", "--out", str(target))
    checked = CliRunner().invoke(main, ["records", "verify-pack", str(target)])

    assert told.splitlines()[0] == f"{target}: 2 people, 3 entries, 3 standings."
    assert checked.exit_code == 0
    assert told.splitlines()[1] in checked.output
    assert [path.name for path in tmp_path.glob("pack*")] == ["pack.zip"]


def test_a_pack_of_a_machine_holds_whoever_has_to_do_with_it(settings, plant, tmp_path):
    target = tmp_path / "pack.zip"
    told = run(settings, "records", "audit-pack", "--machine", "PB-1", "--known-on", "2020-01-01", "--out", str(target))

    assert "2 people, 3 entries, 2 standings." in told  # the operator, and who was told to learn it


def test_a_changed_pack_makes_verify_pack_exit_1_and_say_what(settings, plant, tmp_path):
    target = tmp_path / "pack.zip"
    run(settings, "records", "audit-pack", "--people", "00241", "--out", str(target))
    with zipfile.ZipFile(target) as archive:
        archive.extractall(tmp_path / "out")
    folder = next((tmp_path / "out").iterdir())
    (folder / "data" / "pack.json").unlink()
    checked = CliRunner().invoke(main, ["records", "verify-pack", str(folder)])

    assert checked.exit_code == 1
    assert "data/pack.json: is missing." in checked.output
    assert "this is not the pack as it was made." in checked.output


def test_what_is_cut_off_or_no_pack_is_told_in_a_sentence(settings, plant, tmp_path):
    target = tmp_path / "pack.zip"
    run(settings, "records", "audit-pack", "--people", "00241", "--out", str(target))
    (tmp_path / "cut.zip").write_bytes(target.read_bytes()[:5000])
    (tmp_path / "empty").mkdir()
    for wrong in ("cut.zip", "empty", "nowhere.zip"):
        checked = CliRunner().invoke(main, ["records", "verify-pack", str(tmp_path / wrong)])
        assert checked.exit_code == 2
        assert str(tmp_path / wrong) in checked.output
        assert "Traceback" not in checked.output


@pytest.mark.parametrize(
    ("words", "code", "told"),
    [
        (["--people", "00241", "--machine", "PB-1"], 2, "Name one of the two."),
        ([], 2, "Name one of the two."),
        (["--people", "99999"], 1, "Nobody has, or had, the number 99999."),
        (["--machine", "PB-9"], 1, "There is no machine PB-9."),
        (["--people", "00241", "--on", "9 March"], 2, "--on: write a day as 2026-03-09"),
    ],
)
@pytest.mark.usefixtures("plant")
def test_a_pack_that_cannot_be_made_is_refused_in_a_sentence(settings, tmp_path, words, code, told):
    target = tmp_path / "pack.zip"

    assert told in run(settings, "records", "audit-pack", *words, "--out", str(target), code=code)
    assert list(tmp_path.glob("pack*")) == []


def test_of_an_altered_record_no_pack_is_made(settings, plant, tmp_path):
    tamper(plant.record, "UPDATE entry SET body = replace(body, 'hired', 'hireD') WHERE number = 4")
    target = tmp_path / "pack.zip"

    told = run(settings, "records", "audit-pack", "--people", "00241", "--out", str(target), code=1)
    assert "L-4" in told
    assert not target.exists()
