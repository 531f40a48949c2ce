"""A backup restores: every entry as written, every table as long as it was; what is missing is told."""

import json
import shutil
import sqlite3
from contextlib import closing

import pytest
from records.site import build_site

from trainer.errors import Missing, RecordError, UsageError
from trainer.records import open_record
from trainer.records.drilling import back_up, compared, drill


@pytest.fixture
def backup(settings, clock, bank, tmp_path):
    record = open_record(settings, clock)
    site = build_site(record, clock, bank)
    site.sit(site.learner)
    back_up(record, settings, tmp_path / "backup")
    site.show(site.learner)
    yield record, tmp_path / "backup"
    record.close()


def test_a_backup_restores_and_says_what_came_since(backup, settings, clock, tmp_path):
    record, folder = backup
    done = drill(settings, clock, folder, tmp_path / "empty", live=record)
    assert done.good
    assert (done.held.newest, done.since, done.same) == (2, 1, True)
    assert done.held.counts["person"] == 3
    with pytest.raises(UsageError, match="not empty"):
        drill(settings, clock, folder, tmp_path / "empty", live=record)


def test_a_backup_that_lost_rows_or_was_changed_does_not_pass(backup, settings, clock, tmp_path):
    record, folder = backup
    spoilt = tmp_path / "spoilt"
    shutil.copytree(folder, spoilt)
    with closing(sqlite3.connect(spoilt / "record.sqlite")) as database:
        database.execute("DELETE FROM machine WHERE id = 'PB-4'")
        database.commit()
    done = drill(settings, clock, spoilt, tmp_path / "one", live=record)
    assert not done.good
    assert done.unlike == {"machine": (2, 1)}

    told = json.loads((spoilt / "backup.json").read_text())
    (spoilt / "backup.json").write_text(json.dumps(told | {"digest": "0" * 64}))
    assert drill(settings, clock, spoilt, tmp_path / "two", live=record).same is False
    (spoilt / "backup.json").write_text("{")
    with pytest.raises(RecordError, match="cannot be read"):
        drill(settings, clock, spoilt, tmp_path / "three", live=record)
    with pytest.raises(Missing, match="no backup"):
        drill(settings, clock, tmp_path, tmp_path / "four", live=None)


def test_a_database_that_a_servers_own_tools_restored_is_compared_too(record, site, settings, tmp_path):
    site.sit(site.learner)
    done = compared(record, None, live=record)
    assert (done.good, done.since, done.same) == (True, 0, True)
    if record.engine.dialect.name == "postgresql":
        with pytest.raises(RecordError, match="own tools"):
            back_up(record, settings, tmp_path / "backup")
    else:
        assert back_up(record, settings, tmp_path / "backup").newest == done.held.newest
