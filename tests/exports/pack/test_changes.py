"""Whatever is changed in an unpacked pack is found and named."""

import hashlib
import json
import random
import shutil
from datetime import UTC, datetime
from pathlib import Path

import pytest
from exports.pack.packs import build, packed, unpacked
from exports.pack.test_making import run

from trainer.clock import FixedClock
from trainer.exports.pack.verifier.canonical import canonical, digest_of
from trainer.exports.pack.verifier.main import check_pack
from trainer.settings import read_settings

LISTED = [f"{kind}manifest-{name}.txt" for kind in ("", "tag") for name in ("sha256", "sha512")]


@pytest.fixture(scope="module")
def made(bank, tmp_path_factory):
    """A plant and the octets of its pack, once for every test here."""
    settings = read_settings({}, data=str(tmp_path_factory.mktemp("plant")), zone="America/Chicago")
    plant = build(settings, FixedClock(datetime(2026, 3, 9, 13, 12, tzinfo=UTC)), bank)
    octets = packed(plant, bank, known_on=plant.today())[1]
    plant.record.close()
    return plant, octets


@pytest.fixture
def plant(made):
    return made[0]


@pytest.fixture
def folder(made, tmp_path):
    return unpacked(made[1], tmp_path / "out")


def found(folder: Path) -> list[str]:
    return [f"{where}: {text}" for where, text in check_pack(folder)[0].faults]


def refit(folder: Path) -> None:
    """Make every list of the bag fit what lies in it, as somebody would who wants a change to go unseen."""
    payload = [path for path in (folder / "data").rglob("*") if path.is_file()]
    info = folder / "bag-info.txt"
    rest = [line for line in info.read_text().splitlines() if not line.startswith("Payload-Oxum")]
    oxum = f"{sum(path.stat().st_size for path in payload)}.{len(payload)}"
    info.write_text("\n".join([*rest, f"Payload-Oxum: {oxum}", ""]))
    for name in ("sha256", "sha512"):
        (folder / f"manifest-{name}.txt").write_text(listed(folder, payload, name))
    tags = [path for path in folder.glob("*") if path.is_file() and not path.name.startswith("tagmanifest")]
    for name in ("sha256", "sha512"):
        (folder / f"tagmanifest-{name}.txt").write_text(listed(folder, tags, name))


def listed(folder: Path, paths: list[Path], algorithm: str) -> str:
    names = sorted(path.relative_to(folder).as_posix() for path in paths)
    return "".join(f"{hashlib.new(algorithm, (folder / name).read_bytes()).hexdigest()}  {name}\n" for name in names)


def rows_of(path: Path) -> list[bytes]:
    return path.read_bytes().splitlines(keepends=True)


def flip(path: Path, chance: random.Random) -> str:
    held = bytearray(path.read_bytes())
    place = chance.randrange(len(held))
    held[place] ^= 1 << chance.randrange(8)
    path.write_bytes(held)
    return f"octet {place}"


def take_row(path: Path, chance: random.Random) -> str:
    rows = rows_of(path)
    place = chance.randrange(len(rows))
    path.write_bytes(b"".join(rows[:place] + rows[place + 1 :]))
    return f"row {place + 1}"


def swap_rows(path: Path, chance: random.Random) -> str | None:
    rows = rows_of(path)
    if len(set(rows)) < 2:
        return None
    one, other = chance.sample(range(len(rows)), 2)
    if rows[one] == rows[other]:
        return None
    rows[one], rows[other] = rows[other], rows[one]
    path.write_bytes(b"".join(rows))
    return f"rows {one + 1} and {other + 1}"


def put_row(path: Path, chance: random.Random) -> str:
    rows = rows_of(path)
    rows.insert(chance.randrange(len(rows) + 1), chance.choice([*rows, b"x\n", b"{}\n"]))
    path.write_bytes(b"".join(rows))
    return "a row"


def delete(path: Path, _chance: random.Random) -> str:
    path.unlink()
    return "the file"


def cut(path: Path, chance: random.Random) -> str:
    held = path.read_bytes()
    path.write_bytes(held[: chance.randrange(len(held))])
    return "the end"


ACTS = (flip, take_row, swap_rows, put_row, delete, cut)


def try_one(folder: Path, chance: random.Random) -> None:
    """Change one thing by chance, see that it is found and named, and put it back."""
    path = chance.choice(sorted(path for path in folder.rglob("*") if path.is_file()))
    name, before, act = path.relative_to(folder).as_posix(), path.read_bytes(), chance.choice(ACTS)
    if not before:
        return
    if chance.random() < 0.1:
        added = path.with_name(f"{chance.randrange(1000)}{path.name}")
        added.write_bytes(before)
        names = [fault for fault in found(folder) if added.name in fault]
        added.unlink()
        assert names, f"put in beside {name}"
        return
    what = act(path, chance)
    if what is None or (path.exists() and path.read_bytes() == before):
        return
    faults = found(folder)
    path.write_bytes(before)
    assert [fault for fault in faults if fault.startswith(name)], (act.__name__, name, what, faults)


def test_every_random_change_is_found_and_named(folder):
    chance = random.Random(8493)
    for _ in range(200):
        try_one(folder, chance)


@pytest.mark.slow
def test_a_thousand_random_changes_are_all_found_and_named(folder):
    chance = random.Random(6962)
    for _ in range(1000):
        try_one(folder, chance)


def proved(folder: Path) -> list[Path]:
    """Return the files that the checkpoint speaks for, whatever the lists say."""
    kept = [*(folder / "data" / "ledger").iterdir(), *(folder / "data" / "proofs").iterdir()]
    return sorted([*kept, *(folder / "data" / "content").iterdir()])


def try_refitted(folder: Path, spare: Path, chance: random.Random) -> None:
    """Change one thing that the proofs cover, make every list fit, and see that it is found all the same."""
    shutil.rmtree(spare, ignore_errors=True)
    shutil.copytree(folder, spare)
    path = chance.choice([path for path in proved(spare) if path.stat().st_size])
    before, act = path.read_bytes(), chance.choice(ACTS)
    what = act(path, chance)
    if what is None or (path.exists() and path.read_bytes() == before):
        return
    refit(spare)
    faults = found(spare)
    name = path.relative_to(spare).as_posix()
    assert faults, (act.__name__, name, what)


def test_changes_are_found_by_the_proofs_also_when_every_checksum_was_made_to_fit(folder, tmp_path):
    chance = random.Random(20260309)
    for _ in range(60):
        try_refitted(folder, tmp_path / "spare", chance)


@pytest.mark.slow
def test_a_thousand_changes_with_fitting_checksums_are_all_found(folder, tmp_path):
    chance = random.Random(9162)
    for _ in range(1000):
        try_refitted(folder, tmp_path / "spare", chance)


def test_an_untouched_pack_is_good(folder):
    assert found(folder) == []


def test_checksums_that_were_worked_out_anew_for_an_unchanged_pack_are_good(folder):
    refit(folder)

    assert found(folder) == []


def entry_number(path: Path, place: int) -> str:
    return f"L-{json.loads(rows_of(path)[place])['number']}"


def test_a_row_that_was_taken_out_is_named_by_its_place(folder, plant):
    path = folder / "data" / "ledger" / f"{plant.learner}.jsonl"
    after = entry_number(path, 2)
    rows = rows_of(path)
    path.write_bytes(rows[0] + rows[2])
    refit(folder)

    assert (
        f"data/ledger/{plant.learner}.jsonl, line 2: {after}, entry 3 of its chain, stands where entry 2 of "
        "00241 Dana Ruiz belongs: a line was removed, put in or moved." in found(folder)
    )


def test_the_last_rows_taken_out_are_noticed(folder, plant):
    path = folder / "data" / "ledger" / f"{plant.learner}.jsonl"
    path.write_bytes(b"".join(rows_of(path)[:-1]))
    refit(folder)

    assert (
        f"data/ledger/{plant.learner}.jsonl: The entries of 00241 Dana Ruiz end with entry 2, but the checkpoint "
        "knows 3: the last ones were removed, changed or put in." in found(folder)
    )


def test_an_entry_that_was_rehashed_with_all_that_follows_is_found_by_its_proof(folder, plant):
    path = folder / "data" / "ledger" / f"{plant.learner}.jsonl"
    previous, rows = None, []
    for line in rows_of(path):
        entry = json.loads(line)
        entry["previous"] = previous or entry["previous"]
        if entry["body"].get("reason"):
            entry["body"]["reason"] = "forged"
        previous = entry["digest"] = digest_of(entry)
        rows.append(canonical(entry) + "\n")
    path.write_text("".join(rows), encoding="utf-8")
    refit(folder)
    assert any("end with entry 3, but the checkpoint knows 3" in fault for fault in found(folder))

    proofs = folder / "data" / "proofs" / "people.jsonl"
    forged = [json.loads(line) for line in rows_of(proofs)]
    for proof in forged:
        proof["digest"] = previous if proof["person"] == plant.learner else proof["digest"]
    proofs.write_text("".join(canonical(proof) + "\n" for proof in forged))
    refit(folder)

    told = "data/proofs/people.jsonl: the proof for 00241 Dana Ruiz does not lead to checkpoint"
    assert any(fault.startswith(told) for fault in found(folder))


def test_a_whole_person_who_was_removed_is_named(folder, plant):
    (folder / "data" / "ledger" / f"{plant.second}.jsonl").unlink()
    refit(folder)
    faults = found(folder)

    name = f"data/ledger/{plant.second}.jsonl"
    assert f"{name}: is missing: every entry about 00307 Łukasz Nowy was removed." in faults


def test_a_person_removed_from_file_and_table_and_proofs_is_named(folder, plant):
    (folder / "data" / "ledger" / f"{plant.second}.jsonl").unlink()
    for path in (folder / "data").rglob("*.*"):
        if path.suffix in {".csv", ".jsonl"}:
            path.write_bytes(b"".join(row for row in rows_of(path) if plant.second.encode() not in row))
    refit(folder)

    assert f"data/identity/people.jsonl: the person with the key {plant.second} was removed." in found(folder)


def test_a_removed_list_is_named(folder):
    for name in LISTED:
        path = folder / name
        before = path.read_bytes()
        path.unlink()
        assert f"{name}: is missing." in found(folder)
        path.write_bytes(before)


def test_a_page_to_explain_that_was_changed_or_taken_out_is_named_even_when_the_lists_fit(folder, plant):
    path = folder / "data" / "explain" / f"{plant.learner}.html"
    path.write_bytes(path.read_bytes().replace(b"should", b"need not"))
    refit(folder)
    assert found(folder) == [f"data/explain/{plant.learner}.html: is not the page that this pack was made with."]

    path.unlink()
    refit(folder)
    assert found(folder) == [f"data/explain/{plant.learner}.html: is missing."]


def test_a_file_that_was_put_in_is_named_even_when_the_lists_name_it(folder):
    (folder / "data" / "note.txt").write_text("x")
    refit(folder)

    assert found(folder) == ["data/note.txt: was put in: a pack holds no such file."]


def test_a_module_laid_beside_verify_py_is_never_run_and_is_named(folder):
    (folder / "json.py").write_text("raise SystemExit(0)")
    told = run(folder)

    assert told.returncode == 1
    assert "json.py: was put in: it is in no list." in told.stdout


@pytest.mark.parametrize("seed", range(6))
def test_verify_py_itself_finds_random_changes(folder, seed):
    chance = random.Random(seed)
    path = chance.choice(sorted((folder / "data").rglob("*.jsonl")))
    flip(path, chance)
    told = run(folder)

    assert (told.returncode, told.stderr) == (1, "")
    assert path.name in told.stdout
