"""What people may ask about their own data, from the command line."""

import json
import zipfile
from datetime import timedelta

import pytest
from click.testing import CliRunner

from trainer.cli import main
from trainer.clock import Clock
from trainer.records import open_record, people
from trainer.settings import read_settings


@pytest.fixture
def run(tmp_path):
    def call(*words):
        return CliRunner().invoke(main, [*words, "--data", str(tmp_path / "data")])

    for number, name, role in (("00112", "Bo Lind", "officer"), ("00101", "Ada Quill", "trainer")):
        assert call("people", "add", "--number", number, "--name", name, "--role", role).exit_code == 0
    assert call("people", "add", "--number", "00241", "--name", "Dana Ruiz", "--badge", "77").exit_code == 0
    return call


def leaves(tmp_path, number="00241"):
    record = open_record(read_settings({}, data=str(tmp_path / "data")), Clock())
    with record.writing() as w:
        row = people.with_number(w, number)[0]
        people.leave(w, row.key, on=w.today() - timedelta(days=1), by=row.key)
    record.close()
    return row.key


def said(result):
    assert "Traceback" not in result.output
    return result.exit_code, result.output.strip()


def test_a_copy_is_made_and_answers_the_request(run, tmp_path):
    out = tmp_path / "own.zip"
    code, told = said(run("people", "request", "00241", "--kind", "copy", "--received", "2026-01-31"))
    assert (code, told) == (0, "R-1: due on 2026-02-28.")

    code, told = said(run("people", "export", "00241", "--out", str(out), "--by", "00112", "--language", "es"))
    assert (code, told.splitlines()[0]) == (0, "R-1 is answered.")
    packed = zipfile.ZipFile(out)
    assert json.loads(packed.read("held.json"))["identity"]["badge"] == "77"
    assert "Quién es usted aquí" in packed.read("held.txt").decode()
    assert said(run("people", "requests"))[1] == "0 requests, 0 overdue."


def test_an_overdue_request_is_a_finding(run):
    run("people", "request", "00241", "--kind", "correction", "--received", "2020-01-31", "--note", "birthday")

    code, told = said(run("people", "requests"))
    assert code == 1
    assert "OVERDUE" in told
    assert "birthday" in told
    assert said(run("people", "answered", "R-1", "--by", "00112", "--because", "put right"))[0] == 0
    rows = json.loads(run("people", "requests", "--all", "--json").output)
    assert rows[0]["answer"] == "put right"


def test_an_identity_is_taken_out_and_record_and_pack_still_verify(run, tmp_path):
    key = leaves(tmp_path)
    code, told = said(run("people", "erase", "00241", "--preview"))
    assert code == 1
    assert "goes: names (1)" in told
    assert "against it: No rule says how long" in told
    because = ("--because", "asked for", "--by", "00112")
    assert said(run("people", "erase", "00241", *because))[0] == 1
    code, told = said(run("people", "erase", "00241", *because, "--force"))
    assert (code, told.splitlines()[0].split(": ", 1)[1]) == (
        0, f"the identity is taken out; erased-{key[:12]} stands in its place.",
    )  # fmt: skip

    assert said(run("records", "verify"))[0] == 0
    pack = tmp_path / "pack.zip"
    made = run("records", "audit-pack", "--people", f"erased-{key[:12]}", "--out", str(pack))
    assert made.exit_code == 0, made.output
    assert CliRunner().invoke(main, ["records", "verify-pack", str(pack)]).exit_code == 0
    assert not any(b"Ruiz" in zipfile.ZipFile(pack).read(name) for name in zipfile.ZipFile(pack).namelist())
    assert said(run("people", "export", "00241", "--out", str(tmp_path / "x.zip")))[0] == 1


def test_a_hold_stops_it_until_it_is_lifted(run, tmp_path):
    because = ("--because", "Case 12", "--by", "00112")
    assert "legal hold on 00241 set" in said(run("people", "hold", "00241", *because))[1]
    leaves(tmp_path)
    code, told = said(run("people", "erase", "00241", *because, "--force"))
    assert code == 1
    assert "legal hold since" in told
    assert "lifted" in said(run("people", "hold", "00241", "--lift", *because))[1]
    assert said(run("people", "erase", "00241", *because, "--force"))[0] == 0


@pytest.mark.parametrize(
    ("words", "code", "says"),
    [
        (("people", "export", "9", "--out", "x.zip"), 1, "Nobody has, or had"),
        (("people", "erase", "00241"), 2, "Give --by"),
        (("people", "erase", "00241", "--by", "00101", "--because", "x"), 1, "no officer"),
        (("people", "answered", "R-x", "--by", "00112", "--because", "x"), 2, "Write a request as R-3"),
        (("people", "answered", "R-3", "--by", "00112", "--because", "x"), 1, "no request R-3"),
        (("people", "hold", "00241", "--lift", "--by", "00112", "--because", "x"), 1, "no legal hold"),
        (("people", "hold", "00241", "9", "--by", "00112", "--because", "x"), 1, "Nobody has"),
    ],
)
def test_what_is_wrong_gets_one_sentence(run, words, code, says):
    found, told = said(run(*words))
    assert found == code
    assert says in told
    assert "\n" not in told
