"""``trainer bank new`` begins a scenario or a drill; ``preview`` shows one; ``schema`` tells an editor what may stand where."""

import json
import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from trainer.cli import main

SMALL = Path(__file__).parents[1] / "bank" / "small"


@pytest.fixture
def content(tmp_path: Path) -> Path:
    return Path(shutil.copytree(SMALL, tmp_path / "content"))


def run(*words: str) -> Result:
    return CliRunner().invoke(main, ["bank", *words])


def test_new_writes_every_language_and_check_asks_for_what_is_to_be_written(content: Path):
    made = run("new", "scenario", "reach-over", "--to", str(content), "--id", "PB-S92")
    checked = run("check", "--content", str(content))

    assert made.exit_code == 0
    assert made.output.splitlines()[:4] == [
        str(content / "scenarios/reach-over" / name)
        for name in ("drawings.yaml", "en.yaml", "es.yaml", "scenario.yaml")
    ]
    assert checked.exit_code == 1
    assert "scenarios/reach-over/es.yaml:1: error: unwritten-text: title" in checked.output


def test_new_twice_is_refused_and_changes_nothing(content: Path):
    run("new", "drill", "far", "--to", str(content))
    path = content / "drills/far/en.yaml"
    path.write_text("title: Written\n")

    again = run("new", "drill", "far", "--to", str(content), "--id", "other")

    assert again.exit_code == 2
    assert "is there already" in again.output
    assert path.read_text() == "title: Written\n"


def test_new_into_an_empty_folder_goes_by_the_shipped_bank(tmp_path: Path):
    made = run("new", "scenario", "our-roll", "--to", str(tmp_path / "own"))

    assert made.exit_code == 0
    assert "competencies: [open-die-ends]" in (tmp_path / "own/scenarios/our-roll/scenario.yaml").read_text()


def test_new_refuses_an_id_of_the_bank(content: Path):
    taken = run("new", "drill", "far", "--to", str(content), "--id", "PB-D90")

    assert taken.exit_code == 2
    assert "The bank has PB-D90 already; ids are never used again." in taken.output
    assert not (content / "drills/far").exists()


def test_schema_prints_one_document():
    held = json.loads(run("schema").output)

    assert held["files"]["drills/*/drill.yaml"] == "drill"
    assert held["schemas"]["drill"]["$id"] == "urn:trainer:content:drill"


def test_schema_writes_a_file_for_each_kind(tmp_path: Path):
    result = run("schema", "--out", str(tmp_path / "deep" / "schemas"))

    written = {path.name for path in (tmp_path / "deep" / "schemas").iterdir()}
    assert result.exit_code == 0
    assert {"bank.schema.json", "scenario.schema.json", "scenario-words.schema.json", "drawings.schema.json"} <= written
    assert "sources.schema.json: sources.yaml" in result.output


def test_schema_where_a_file_stands_in_the_way_is_wrong_usage(tmp_path: Path):
    (tmp_path / "file").write_text("")

    result = run("schema", "--out", str(tmp_path / "file" / "schemas"))

    assert result.exit_code == 2
    assert "cannot be made" in result.output


def test_preview_writes_a_page_about_an_item_even_before_it_is_finished(content: Path, tmp_path: Path):
    run("new", "scenario", "reach-over", "--to", str(content))
    target = tmp_path / "page.html"

    result = run("preview", "reach-over", "--content", str(content), "--out", str(target))

    text = target.read_text(encoding="utf-8")
    assert result.exit_code == 0
    assert result.output == f"{target}\n"
    assert "TODO: why the right one is right." in text
    assert "unwritten-text" in text
    assert ".drawing .danger" in text  # the pens are in the page


def test_preview_of_nothing_is_a_refusal(content: Path, tmp_path: Path):
    result = run("preview", "PB-X", "--content", str(content), "--out", str(tmp_path / "page.html"))

    assert result.exit_code == 1
    assert "PB-X" in result.output
    assert not (tmp_path / "page.html").exists()


@pytest.fixture
def own(tmp_path: Path) -> Path:
    folder = tmp_path / "own"
    folder.mkdir()
    (folder / "bank.yaml").write_text("edition: 1\n")
    (folder / "competencies.yaml").write_text("{}\n")
    return folder


def test_new_in_a_site_s_own_folder_goes_by_the_bank_that_it_lies_beside(content: Path, own: Path):
    made = run("new", "scenario", "our-roll", "--to", str(own), "--content", str(content))
    again = run("new", "drill", "our-drill", "--to", str(own), "--content", str(content), "--id", "our-roll")

    assert made.exit_code == 0
    assert "competencies: [gaps]" in (own / "scenarios/our-roll/scenario.yaml").read_text()
    assert again.exit_code == 2
    assert "The bank has our-roll already" in again.output


def test_new_in_a_site_s_own_folder_takes_no_name_of_the_bank_s(content: Path, own: Path):
    result = run("new", "drill", "distance", "--to", str(own), "--content", str(content), "--id", "our-drill")

    assert result.exit_code == 2
    assert "is there already" in result.output
    assert not (own / "drills").exists()


def test_what_is_begun_beside_the_bank_is_checked_with_it(content: Path, own: Path):
    run("new", "drill", "our-drill", "--to", str(own), "--content", str(content))

    result = run("check", "--content", str(content), "--extra", str(own))

    assert result.exit_code == 1
    assert "own/drills/our-drill/es.yaml:1: error: unwritten-text: title" in result.output
