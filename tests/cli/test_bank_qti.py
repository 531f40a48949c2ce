"""``trainer bank export-qti`` and ``import-qti``, from the file to the drafts."""

from pathlib import Path

from bank.scratch import ScratchBank
from click.testing import CliRunner, Result

from trainer.cli import main


def run(*words: str | Path) -> Result:
    return CliRunner().invoke(main, ["bank", *map(str, words)])


def exported(tmp_path: Path) -> tuple[Path, Result]:
    content = ScratchBank(tmp_path / "content").folder
    return tmp_path / "q.zip", run("export-qti", tmp_path / "q.zip", "--content", content)


def test_export_says_how_much_went_and_what_did_not(tmp_path):
    path, result = exported(tmp_path)

    assert result.exit_code == 0
    assert path.is_file()
    assert result.output.splitlines()[0] == f"8 items in {path}."
    assert "Not in it:\n" in result.output
    assert "lesson sheets: They are no questions" in result.output


def test_what_was_exported_is_taken_in_once_and_never_over_what_is_there(tmp_path):
    path, _ = exported(tmp_path)

    first = run("import-qti", path, "--to", tmp_path / "new")
    kept = {file: file.read_bytes() for file in (tmp_path / "new").rglob("*.yaml")}
    second = run("import-qti", path, "--to", tmp_path / "new")

    assert first.exit_code == 0
    assert "3 questions in 1 scenario.\n" in first.output
    assert len(kept) == 3
    assert second.exit_code == 2
    assert "is there already. Name another folder." in second.output
    assert {file: file.read_bytes() for file in (tmp_path / "new").rglob("*.yaml")} == kept


def test_a_dry_run_writes_nothing(tmp_path):
    path, _ = exported(tmp_path)
    result = run("import-qti", path, "--to", tmp_path / "new", "--dry-run")

    assert result.exit_code == 0
    assert "3 questions in 1 scenario, nothing written." in result.output
    assert not (tmp_path / "new").exists()


def test_a_file_that_is_no_package_is_wrong_usage_in_one_sentence(tmp_path):
    (tmp_path / "q.zip").write_text("hello")
    result = run("import-qti", tmp_path / "q.zip", "--to", tmp_path / "new")

    assert result.exit_code == 2
    assert result.output.strip() == "q.zip is no zip file."
