"""``trainer records certificate``, ``card`` and ``list``, as somebody types them."""

from datetime import timedelta

import pytest
from banks import shipped_bank
from click.testing import CliRunner
from exports.pdf.reading import pages, words
from records.site import build_site

from trainer.cli import main
from trainer.clock import Clock, FixedClock
from trainer.records import open_record


@pytest.fixture(scope="module")
def bank():
    return shipped_bank()


@pytest.fixture
def plant(settings, bank, monkeypatch):
    """A record of yesterday with one authorised operator."""
    monkeypatch.setenv("TRAINER_ZONE", "America/Chicago")
    monkeypatch.setenv("TRAINER_ADDRESS", "https://training.example")
    clock = FixedClock(Clock().now() - timedelta(days=1))
    record = open_record(settings, clock)
    site = build_site(record, clock, bank)
    site.sit(site.learner)
    site.show(site.learner)
    yield site
    record.close()


def run(settings, *words, code=0):
    result = CliRunner().invoke(main, ["records", *words, "--data", str(settings.data)])
    assert result.exit_code == code, result.output
    assert "Traceback" not in result.output
    return result.output


@pytest.mark.parametrize(
    ("command", "sheets", "told"),
    [
        (["certificate", "--person", "00241", "--machine", "PB-1"], 1, "What it does not show"),
        (["certificate", "--person", "00241", "--machine", "PB-1", "--language", "es"], 1, "Qué no demuestra"),
        (["card", "--person", "00241"], 2, "Pocket card"),
        (["card", "--machine", "PB-1", "--paper", "letter"], 2, "Pocket card"),
        (["list", "--machine", "PB-1", "--paper", "letter"], 1, "May run it"),
    ],
)
def test_a_paper_is_made_and_can_be_read(settings, plant, tmp_path, *, command, sheets, told):
    file = tmp_path / "paper.pdf"
    assert str(file) in run(settings, *command, "--out", str(file))
    assert len(pages(file.read_bytes())) == sheets
    assert told in words(file.read_bytes())


@pytest.mark.parametrize(
    ("command", "code", "told"),
    [
        (["certificate", "--person", "00112", "--machine", "PB-1"], 1, "no certificate and no card is made"),
        (["certificate", "--person", "99999", "--machine", "PB-1"], 1, "Nobody has, or had, the number 99999."),
        (["certificate", "--person", "00241", "--machine", "PB-9"], 1, "There is no machine PB-9."),
        (["card", "--machine", "PB-4"], 1, "Nobody is authorised there today"),
        (["list", "--machine", "PB-1", "--on", "9 March"], 2, "write a day as 2026-03-09"),
    ],
)
def test_a_refusal_is_one_sentence_and_leaves_no_file(settings, plant, tmp_path, *, command, code, told):
    assert told in run(settings, *command, "--out", str(tmp_path / "paper.pdf"), code=code)
    assert list(tmp_path.glob("*.pdf*")) == []


def test_without_an_address_it_is_said_that_nothing_can_be_scanned(settings, plant, tmp_path, monkeypatch):
    monkeypatch.setenv("TRAINER_ADDRESS", "")
    told = run(settings, "card", "--person", "00241", "--out", str(tmp_path / "card.pdf"))

    assert "TRAINER_ADDRESS is not set" in told
    assert "http" not in words((tmp_path / "card.pdf").read_bytes())
