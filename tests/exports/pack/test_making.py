"""A pack holds what was asked, is checked without the program, and is the same when made again."""

import ast
import csv
import io
import json
import subprocess
import sys
import zipfile
from datetime import timedelta

import pytest
from exports.pack.packs import packed, unpacked
from records.site import INDUCTION, TODAY, tamper

from trainer.errors import RecordError, UsageError
from trainer.exports.pack.asked import Asked
from trainer.exports.pack.joining import ORDER, joined
from trainer.exports.pack.verifier.main import check_pack
from trainer.records import acts, ledger, people
from trainer.records.chain import EntryKind


def run(folder, *words):
    """Run verify.py as an inspector would: no packages, nothing of this project on the path."""
    command = [sys.executable, "-I", "-S", str(folder / "verify.py"), *map(str, words)]
    return subprocess.run(command, capture_output=True, text=True, encoding="utf-8", cwd=folder.parent, timeout=120)


def test_an_unpacked_pack_checks_itself_without_the_program(plant, bank, tmp_path):
    made, octets = packed(plant, bank)
    folder = unpacked(octets, tmp_path / "out")
    told = run(folder)

    assert (told.returncode, told.stderr) == (0, "")
    assert "Ostrand Mill, Plant 2: 3 people as of" in told.stdout
    assert f"Pack code {made.code}, checkpoint {made.checkpoint} {made.checkpoint_digest[:16]}." in told.stdout
    assert sorted(path.name for path in folder.iterdir()) == sorted(
        ["README.html", "README.txt", "bag-info.txt", "bagit.txt", "data", "verify.py"]
        + [f"{kind}manifest-{name}.txt" for kind in ("", "tag") for name in ("sha256", "sha512")]
    )


def test_a_pack_is_checked_while_it_is_still_a_zip_file(plant, bank, tmp_path):
    _made, octets = packed(plant, bank)
    folder = unpacked(octets, tmp_path / "out")
    zipped = tmp_path / "pack.zip"
    zipped.write_bytes(octets)

    assert run(folder, zipped).returncode == 0
    assert check_pack(zipped)[0].faults == []


def test_one_changed_sign_is_named_by_verify_py_with_its_entry(plant, bank, tmp_path):
    folder = unpacked(packed(plant, bank)[1], tmp_path / "out")
    path = folder / "data" / "ledger" / f"{plant.learner}.jsonl"
    path.write_bytes(path.read_bytes().replace(b"@hired", b"@hireD"))
    told = run(folder)

    assert told.returncode == 1
    assert f"data/ledger/{plant.learner}.jsonl: was changed: it is not the file that was packed." in told.stdout
    assert f"data/ledger/{plant.learner}.jsonl, line 1: L-2 was changed after it was recorded." in told.stdout


@pytest.mark.parametrize("words", [["--help"], ["a", "b"], ["nowhere"]])
def test_wrong_usage_is_told_with_2_and_no_traceback(plant, bank, tmp_path, words):
    folder = unpacked(packed(plant, bank)[1], tmp_path / "out")
    told = run(folder, *words)

    assert (told.returncode, "Traceback" in told.stderr, told.stdout) == (2, False, "")
    assert told.stderr


def test_entries_stand_as_they_were_hashed_and_the_table_beside_them_is_safe(plant, bank, tmp_path):
    folder = unpacked(packed(plant, bank)[1], tmp_path / "out")
    text = (folder / "data" / "ledger" / "entries.csv").read_bytes().decode("utf-8-sig")
    rows = list(csv.DictReader(io.StringIO(text, newline="")))
    with plant.record.reading() as r:
        digests = [
            entry.digest
            for key in (plant.learner, plant.second, plant.third)
            for entry in ledger.entries(r, person=key)
        ]

    assert [row["digest"] for row in rows] == digests
    assert (rows[0]["reason"], rows[-1]["topic"]) == ("'@hired", "'-1+2 pedals")
    files = [folder / "data" / "ledger" / f"{key}.jsonl" for key in (plant.learner, plant.second, plant.third)]
    assert [json.loads(line)["digest"] for path in files for line in path.read_text().splitlines()] == digests


def test_no_name_or_number_of_a_person_stands_in_the_ledger_of_a_pack(plant, bank, tmp_path):
    folder = unpacked(packed(plant, bank)[1], tmp_path / "out")
    ledger_text = "".join(path.read_text(encoding="utf-8") for path in (folder / "data" / "ledger").iterdir())
    identity = [json.loads(line) for line in (folder / "data" / "identity" / "people.jsonl").read_text().splitlines()]

    for person in identity:
        assert person["name"] not in ledger_text
        assert person["number"] not in ledger_text
    assert {person["key"]: person["why"] for person in identity} == {
        plant.learner: "asked about",
        plant.second: "asked about",
        plant.third: "asked about",
        plant.trainer: "named in an entry",
        plant.officer: "named in an entry",
    }
    assert set(identity[0]) == {"key", "number", "name", "names", "why"}
    assert [each["name"] for each in identity[1]["names"]] == ['=Łukasz, "Luke"', "Łukasz Nowy"]


def test_standing_names_reasons_entries_and_both_days_of_knowing(plant, bank, tmp_path):
    folder = unpacked(packed(plant, bank, known_on=TODAY)[1], tmp_path / "out")
    path = folder / "data" / "standing" / "standing.jsonl"
    rows = [json.loads(line) for line in path.read_text(encoding="utf-8").splitlines()]
    told = [
        (row["known_on"], row["standing"], row["may_run"])
        for row in rows
        if (row["person"], row["machine"]) == (plant.learner, "PB-1") and row["role"] == "operator"
    ]

    assert told == [(None, "authorised", True), (TODAY.isoformat(), "practical-pending", False)]
    assert all(entry.startswith("L-") for row in rows for reason in row["reasons"] for entry in reason["entries"])


def test_the_right_of_whoever_signed_is_enclosed_with_its_proof_and_nothing_else_about_them(plant, bank, tmp_path):
    folder = unpacked(packed(plant, bank)[1], tmp_path / "out")
    lines = (folder / "data" / "ledger" / "others.jsonl").read_text(encoding="utf-8").splitlines()

    assert [(entry["kind"], entry["person"]) for entry in map(json.loads, lines)] == [("entitled", plant.trainer)]
    assert len((folder / "data" / "proofs" / "others.jsonl").read_text().splitlines()) == 1


def test_the_content_of_today_is_enclosed_and_what_was_never_kept_is_said(plant, bank, tmp_path):
    folder = unpacked(packed(plant, bank)[1], tmp_path / "out")
    about = json.loads((folder / "data" / "pack.json").read_text())

    assert (about["rules"], about["content"]) == (bank.fingerprint, [bank.fingerprint])
    assert about["content_not_kept"] == ["f" * 64]
    assert "never kept" in (folder / "README.txt").read_text(encoding="utf-8")


def test_whoever_has_to_do_with_a_machine_is_in_its_pack(plant, bank, tmp_path):
    made, octets = packed(plant, bank, people=(), machine="PB-1")
    folder = unpacked(octets, tmp_path / "out")
    about = json.loads((folder / "data" / "pack.json").read_text())

    assert {person["key"] for person in about["people"]} == {plant.learner, plant.second}
    assert (made.people, run(folder).returncode) == (2, 0)


def test_somebody_without_an_entry_is_told_as_such(plant, bank, tmp_path):
    with plant.record.writing() as w:
        key = people.add(w, number="00500", name="Nobody Yet").key
    folder = unpacked(packed(plant, bank, people=(key, plant.third))[1], tmp_path / "out")

    assert run(folder).returncode == 0
    assert "Nobody Yet" in (folder / "README.txt").read_text(encoding="utf-8")
    assert "Nothing on record" in (folder / "README.txt").read_text(encoding="utf-8")


def test_a_paper_that_is_named_and_not_held_is_told_as_missing(plant, bank, tmp_path):
    with plant.record.writing() as w:
        entry = acts.accept_prior(
            w,
            bank,
            person=plant.third,
            programme=INDUCTION,
            evidence="Certificate of 3 <pages>",
            trained_on=w.today() - timedelta(days=30),
            assessor=plant.trainer,
            reason="Talked through at the machine",
            happened_on=w.today(),
        )
    folder = unpacked(packed(plant, bank, people=(plant.third,))[1], tmp_path / "out")

    assert run(folder).returncode == 0
    told = " ".join((folder / "README.txt").read_text(encoding="utf-8").split())
    assert "EVIDENCE MISSING" in told
    assert f"{entry.reference}, " in told
    assert "Certificate of 3 <pages>. No file of it is held." in told
    assert "Certificate of 3 &lt;pages&gt;" in (folder / "README.html").read_text(encoding="utf-8")


def test_the_same_pack_made_again_has_the_same_octets(plant, bank):
    assert packed(plant, bank) == packed(plant, bank)


def test_made_on_another_day_only_the_day_of_making_differs(plant, bank):
    on = plant.today()
    first, early = packed(plant, bank, on=on)
    plant.clock.advance(timedelta(days=3))
    second, late = packed(plant, bank, on=on)
    before, after = (dict(contents(octets)) for octets in (early, late))
    changed = {name.split("/", 1)[1] for name in before if before[name] != after[name]}

    assert before.keys() == after.keys()
    assert {name for name in changed if not name.startswith("tagmanifest")} == {
        "README.html",
        "README.txt",
        "bag-info.txt",
    }
    for name in ("README.html", "README.txt", "bag-info.txt"):
        path = f"audit-pack-{on.isoformat()}/{name}"
        day, later = (plant.today() - timedelta(days=3)).isoformat(), plant.today().isoformat()
        assert after[path].decode().replace(later, day) == before[path].decode()
    assert first.code != second.code


def contents(octets):
    with zipfile.ZipFile(io.BytesIO(octets)) as archive:
        return [(name, archive.read(name)) for name in archive.namelist()]


def test_of_an_altered_record_no_pack_is_made(plant, bank):
    tamper(plant.record, "UPDATE entry SET body = replace(body, '@hired', '@hireD') WHERE number = 2")

    with pytest.raises(RecordError, match=r"was altered.*L-2"):
        packed(plant, bank)


def test_a_pack_is_about_people_or_about_a_machine():
    for wrong in ({}, {"people": ("a",), "machine": "PB-1"}):
        with pytest.raises(UsageError, match="Name one of the two"):
            Asked(on=TODAY, **wrong)


def test_the_joined_file_says_each_name_once_and_imports_the_standard_library_only():
    tree = ast.parse(joined())
    names = [part.name for part in tree.body if isinstance(part, (ast.FunctionDef, ast.ClassDef))]
    targets = [target for part in tree.body if isinstance(part, ast.Assign) for target in part.targets]
    names += [each.id for target in targets for each in ast.walk(target) if isinstance(each, ast.Name)]
    modules = {alias.name for part in ast.walk(tree) if isinstance(part, ast.Import) for alias in part.names}
    modules |= {part.module for part in ast.walk(tree) if isinstance(part, ast.ImportFrom)}

    assert len(names) == len(set(names))
    assert {name.split(".")[0] for name in modules} <= sys.stdlib_module_names
    assert len(ORDER) == 9


def test_the_cover_says_what_is_not_proved_and_shows_names_as_text(plant, bank, tmp_path):
    with plant.record.writing() as w:
        people.rename(w, plant.third, name="<b>Mei</b> & Tran")
        ledger.append(w, plant.third, EntryKind.ATTENDED, {"topic": "x"}, happened_on=w.today(), by=plant.trainer)
    folder = unpacked(packed(plant, bank)[1], tmp_path / "out")
    page = (folder / "README.html").read_text(encoding="utf-8")

    assert "What is not proved" in page
    assert "&lt;b&gt;Mei&lt;/b&gt; &amp; Tran" in page
    assert "<script" not in page
    assert "src=" not in page
