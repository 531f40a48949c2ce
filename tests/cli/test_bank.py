"""``trainer bank check`` prints every finding and what the bank holds."""

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


def run(*words: str, env: dict[str, str] | None = None) -> Result:
    return CliRunner().invoke(main, ["bank", "check", *words], env=env)


def spoil(content: Path) -> None:
    path = content / "scenarios" / "open-gap" / "scenario.yaml"
    path.write_text(path.read_text().replace("[common-practice]", "[rul]"))


def test_a_clean_bank_exits_with_0_and_counts(content: Path):
    result = run("--content", str(content))

    assert result.exit_code == 0
    assert result.output.splitlines()[0] == "Errors: 0. Warnings: 0."
    assert "Edition 3, fingerprint " in result.output
    assert "        3  pick-one\n" in result.output


def test_a_finding_is_printed_with_place_key_reason_and_fix_and_exits_with_1(content: Path):
    spoil(content)

    result = run("--content", str(content))

    assert result.exit_code == 1
    assert result.output.splitlines()[:4] == [
        "scenarios/open-gap/scenario.yaml:23: error: unknown-source: PB-S90/q2 sources.0",
        "    “rul” is not in sources.yaml.",
        "    Correct the key, or add the document to sources.yaml.",
        "Errors: 1. Warnings: 0.",
    ]


def test_json_holds_findings_and_counts_by_kind_competency_role_and_language(content: Path):
    spoil(content)

    result = run("--content", str(content), "--json")
    data = json.loads(result.output)

    assert result.exit_code == 1
    assert not data["good"]
    assert [finding["code"] for finding in data["findings"]] == ["unknown-source"]
    assert data["counts"]["kind"]["pick-one"] == 3
    assert data["counts"]["competency"] == {"gaps": 3, "distance": 1, "choice": 1}
    assert data["counts"]["role"] == {"operator": 5, "setter": 1}
    assert data["counts"]["language"]["en"] == data["counts"]["language"]["es"] > 20


def test_a_warning_alone_exits_with_0(content: Path):
    (content / "words" / "fr.yaml").write_text("ram: coulisseau\n")

    result = run("--content", str(content))

    assert result.exit_code == 0
    assert "words/fr.yaml: warning: stray-file" in result.output


def test_the_setting_names_the_folder_as_well(content: Path):
    assert "Edition 3" in run(env={"TRAINER_CONTENT": str(content)}).output


def test_a_folder_that_is_not_there_is_wrong_usage(tmp_path: Path):
    result = run("--content", str(tmp_path / "nowhere"))

    assert result.exit_code == 2
    assert "is not a folder. Name the folder that holds bank.yaml." in result.output


def test_a_broken_folder_gives_findings_and_no_traceback(content: Path):
    for path in content.rglob("*.yaml"):
        path.write_bytes(b"\xff\x00{[")

    result = run("--content", str(content))

    assert result.exit_code == 1
    assert isinstance(result.exception, SystemExit)
    assert "unreadable-file" in result.output


def test_the_shipped_bank_is_clean():
    result = run("--json")

    assert [f for f in json.loads(result.output)["findings"] if f["severity"] == "error"] == []
    assert result.exit_code == 0


def test_a_slip_that_can_never_be_told_apart_is_found_in_its_file(content: Path):
    path = content / "drills" / "distance" / "drill.yaml"
    path.write_text(path.read_text().replace("slips: []", "slips:\n  - adds-penetration"))

    result = run("--content", str(content))

    assert result.exit_code == 1
    assert (
        "drills/distance/drill.yaml:11: error: slip-never-told-apart: PB-D90 slips adds-penetration\n" in result.output
    )


def own_content(folder: Path, head: str) -> Path:
    shutil.copytree(SMALL / "scenarios" / "open-gap", folder / "scenarios" / "open-gap")
    (folder / "bank.yaml").write_text(head)
    return folder


def test_what_a_site_replaces_is_told(content: Path, tmp_path: Path):
    own = own_content(tmp_path / "own", "edition: 7\nreplaces: [PB-S90]\n")

    result = run("--content", str(content), "--extra", str(own))
    data = json.loads(run("--content", str(content), "--extra", str(own), "--json").output)

    told = "Replaced: PB-S90, scenarios/open-gap/scenario.yaml by own/scenarios/open-gap/scenario.yaml"
    assert result.exit_code == 0
    assert told in result.output.splitlines()
    assert "Edition 3 with the site's own edition 7, fingerprint " in result.output
    assert data["replaced"][0]["by"] == "own/scenarios/open-gap/scenario.yaml"
    assert data["own_edition"] == 7


def test_what_a_site_overrides_in_silence_is_an_error_and_the_setting_names_its_folder(content: Path, tmp_path: Path):
    own = own_content(tmp_path / "own", "edition: 7\n")

    result = run(env={"TRAINER_CONTENT": str(content), "TRAINER_CONTENT_EXTRA": str(own)})

    assert result.exit_code == 1
    assert "own/scenarios/open-gap/scenario.yaml:1: error: duplicate-id: PB-S90" in result.output
    assert "stands in scenarios/open-gap/scenario.yaml, line 1, as well" in result.output


def test_a_site_s_folder_that_is_not_there_is_wrong_usage(content: Path, tmp_path: Path):
    assert run("--content", str(content), "--extra", str(tmp_path / "nowhere")).exit_code == 2
