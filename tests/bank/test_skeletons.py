"""A skeleton is a good scenario or drill as soon as each TODO is written, and no sooner."""

import re
from pathlib import Path

import pytest
from bank.scratch import ScratchBank
from banks import shipped_bank

from trainer.assessment.selfcheck import self_check
from trainer.bank import Bank, load, open_bank
from trainer.bank.drafting import write_folders
from trainer.bank.skeletons import skeleton
from trainer.errors import UsageError
from trainer.figures import scene_problems
from trainer.settings import shipped

WRITTEN = {  # long enough to be read, short enough to fit
    "told": "The helper stands beside the bed.",
    "asked": "What comes first?",
    "why": "Nobody starts before all are clear.",
    "a": "Start at the count of three.",
    "b": "Wait until the bed is clear.",
    "c": "Nod, and then press the pedal.",
}


def put(folder: Path, bank: Bank, kind: str, slug: str = "own-hazard") -> None:
    made = skeleton(bank, kind, slug, f"{slug}-new")
    write_folders({slug: made.files}, folder, made.kind)


def write_out(folder: Path, source: str) -> None:
    """Write something plain for each TODO of a folder."""
    for path in folder.glob("*.yaml"):
        text = re.sub(
            r'(\w+): "TODO:[^"]*"', lambda m: f"{m[1]}: {WRITTEN.get(m[1], 'A few words.')}", path.read_text()
        )
        text = text.replace("      TODO: what happens here. Two", "      Two").replace(
            "sources: [TODO]", f"sources: [{source}]"
        )
        path.write_text(text)
        assert not re.search(r"TODO(?! is a finding)", text)


@pytest.fixture(scope="module")
def bank() -> Bank:
    return shipped_bank()


@pytest.fixture
def shipped_copy(tmp_path: Path) -> Path:
    import shutil

    return Path(shutil.copytree(shipped("content"), tmp_path / "copy"))


@pytest.mark.parametrize("kind", ["scenario", "drill"])
def test_a_skeleton_passes_as_soon_as_each_todo_is_written(shipped_copy: Path, bank: Bank, kind: str):
    put(shipped_copy, bank, kind)

    report = load(shipped_copy).report

    assert {row[0] for row in report.rows("code")} == {"unwritten-text", "unknown-source"}
    assert {row[0] for row in report.rows("file")} <= {f"{kind}s/own-hazard/{name}.yaml" for name in (kind, "en", "es")}
    assert all("TODO" in note for (note,) in report.rows("note"))

    write_out(shipped_copy / f"{kind}s" / "own-hazard", "common-practice")
    loaded = load(shipped_copy, check_drawing=scene_problems)

    assert loaded.report.rows("code", "file", "note") == []
    new = {name: drill for name, drill in loaded.bank.drills.items() if name == "own-hazard-new"}
    assert bool(new) is (kind == "drill")
    assert list(self_check(loaded.bank.model_copy(update={"drills": new}))) == []


def test_every_todo_of_the_words_is_found_with_its_line(scratch_bank: ScratchBank):
    put(scratch_bank.folder, open_bank(scratch_bank.folder), "scenario")
    text = (scratch_bank.folder / "scenarios/own-hazard/es.yaml").read_text().splitlines()

    rows = scratch_bank.load().report.rows("code", "file", "line")

    found = {line for code, file, line in rows if code == "unwritten-text" and file.endswith("hazard/es.yaml")}
    todo = {number for number, line in enumerate(text, 1) if "TODO:" in line}
    assert len(found) == len(todo) == 10
    assert found - {5} == todo - {6}  # a text of several lines is told where its key stands


def test_two_skeletons_are_not_called_alike(scratch_bank: ScratchBank):
    bank = open_bank(scratch_bank.folder)
    put(scratch_bank.folder, bank, "scenario", "one")
    put(scratch_bank.folder, bank, "scenario", "other")

    assert "near-duplicate" not in {row[0] for row in scratch_bank.load().report.rows("code")}


def test_what_the_bank_lacks_is_a_todo_too(scratch_bank: ScratchBank):
    bank = open_bank(scratch_bank.folder).model_copy(update={"competencies": {}, "misconceptions": {}, "scenarios": {}})

    text = skeleton(bank, "scenario", "own-hazard", "own").files["scenario.yaml"]

    assert "competencies: [TODO]" in text
    assert "misconception: TODO}" in text


@pytest.mark.parametrize("slug", ["", "..", "a/b", "Own", "-a", "a b", "x" * 61, "a\n"])
def test_a_name_that_is_no_folder_is_refused(scratch_bank: ScratchBank, slug: str):
    with pytest.raises(UsageError):
        skeleton(open_bank(scratch_bank.folder), "drill", slug, "own")


@pytest.mark.parametrize("ident", ["PB-S90", "PB-D91", "rule", "gaps", "gaps-practical"])
def test_an_id_that_is_taken_is_refused(scratch_bank: ScratchBank, ident: str):
    with pytest.raises(UsageError, match="never used again"):
        skeleton(open_bank(scratch_bank.folder), "drill", "own", ident)


@pytest.mark.parametrize("ident", ["", "a: b", "../up", "PB-S90/q1", "x" * 61, "a\n"])
def test_an_id_that_is_none_is_refused(scratch_bank: ScratchBank, ident: str):
    with pytest.raises(UsageError, match="is no id"):
        skeleton(open_bank(scratch_bank.folder), "drill", "own", ident)


def test_nothing_is_overwritten(scratch_bank: ScratchBank):
    before = (scratch_bank.folder / "drills/distance/drill.yaml").read_bytes()

    with pytest.raises(UsageError, match="is there already"):
        put(scratch_bank.folder, open_bank(scratch_bank.folder), "drill", "distance")

    assert (scratch_bank.folder / "drills/distance/drill.yaml").read_bytes() == before
