"""The demo plant: what its stories say is what its record derives."""

from datetime import date

import pytest
import yaml
from banks import shipped_bank
from click.testing import CliRunner

from trainer.cli import main
from trainer.clock import Clock
from trainer.records import open_record, people, standing
from trainer.records.verifying import verify
from trainer.settings import read_settings, shipped

DAY = date(2026, 3, 9)
EXPECTED = yaml.safe_load((shipped("seed_scenarios") / "expected" / "standing.yaml").read_text(encoding="utf-8"))


@pytest.fixture(scope="module")
def plant(demo_folder):
    return open_record(read_settings({}, data=str(demo_folder), zone="America/Chicago"), Clock(), create=False)


def test_a_plant_has_forty_people_of_whom_one_left(plant):
    with plant.reading() as r:
        assert len(people.everybody(r, on=DAY)) == 39


def test_everybody_stands_where_their_story_leads(plant):
    bank = shipped_bank()
    named = yaml.safe_load((shipped("seed_scenarios") / "people.yaml").read_text(encoding="utf-8"))
    stories = {entry["number"]: entry["story"] for entry in named}
    with plant.reading() as r:
        numbers = {row.key: row.number for row in people.everybody(r, on=DAY)}
        found = [(numbers.get(one.person), one) for one in standing.standings(r, bank, on=DAY)]
    words = {(stories[number], one.word.value, one.may_run) for number, one in found if number in stories}

    assert words == {(story, word, word in {"authorised", "refresh-due"}) for story, word in EXPECTED.items() if word}


def test_the_record_of_the_plant_is_unaltered(plant):
    with plant.reading() as r:
        assert verify(r).rows("code", "note") == []


def test_a_folder_that_holds_something_else_is_left_alone(tmp_path):
    (tmp_path / "record.sqlite").write_text("not ours")
    result = CliRunner().invoke(main, ["demo", "--no-serve", "--data", str(tmp_path)])

    assert result.exit_code == 2
    assert (tmp_path / "record.sqlite").read_text() == "not ours"


def test_a_day_that_is_none_is_refused(tmp_path):
    result = CliRunner().invoke(main, ["demo", "--no-serve", "--data", str(tmp_path / "x"), "--day", "2026-02-30"])

    assert result.exit_code == 2
    assert "not a date" in result.output
