"""The office hands over an audit pack: of people, or of everybody at a machine; what it hands over checks out."""

import io
import subprocess
import sys
import zipfile

from web.plant import post

PACK = "/office/pack"


def unpacked(answer, folder):
    with zipfile.ZipFile(io.BytesIO(answer.data)) as file:
        file.extractall(folder)
    return next(folder.iterdir())


def test_a_pack_of_people_checks_out_with_nothing_but_python(plant, tmp_path):
    for number in range(10):
        plant.authorise(f"0060{number}", f"Person {number}", days=60 - number)
    client = plant.client("harriet")
    who = " ".join(f"0060{number}" for number in range(10))

    answer = post(client, PACK, {"who": who, "machine": "PB-1", "day": "today", "known": "today"}, of="/office/")

    assert answer.status_code == 200
    assert answer.mimetype == "application/zip"
    bag = unpacked(answer, tmp_path)
    check = subprocess.run(
        [sys.executable, "-I", "-S", "verify.py"], cwd=bag, capture_output=True, text=True, check=False
    )
    assert check.returncode == 0, check.stdout + check.stderr
    shown = answer.headers["Content-Disposition"].rpartition("-")[2].partition(".")[0]
    assert shown in check.stdout.replace(" ", "")
    assert len(list((bag / "data").rglob("*.jsonl"))) >= 10


def test_without_numbers_it_is_about_everybody_at_the_machine(plant, tmp_path):
    plant.authorise("00600", "Ada Lund")
    answer = post(
        plant.client("harriet"), PACK, {"who": "", "machine": "PB-1", "day": "today", "known": "today"}, of="/office/"
    )

    assert answer.status_code == 200
    assert "Ada Lund" in b"".join(path.read_bytes() for path in unpacked(answer, tmp_path).rglob("*.csv")).decode()


def test_a_number_that_nobody_has_is_named_and_nothing_is_made(plant):
    answer = post(
        plant.client("harriet"),
        PACK,
        {"who": "99999", "machine": "PB-1", "day": "today", "known": "today"},
        of="/office/",
    )

    assert answer.status_code == 422
    assert "0 people have the number 99999." in answer.text


def test_only_the_office_may_ask(plant):
    answer = post(plant.client("rosalind"), PACK, {"who": "00241", "machine": "PB-1"}, of="/desk/")

    assert answer.status_code == 403
