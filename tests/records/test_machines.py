"""Machines and what is on file about them."""

from datetime import timedelta

import pytest
from sqlalchemy import text
from sqlalchemy.exc import DBAPIError

from trainer.errors import Missing, RecordError, UsageError
from trainer.records import machines


def test_a_machine_is_kept_with_its_facts(record):
    with record.writing() as w:
        made = machines.add(w, id="PB-1", kind="press-brake-hydraulic", name="Brake", facts={"stopping-time": "128 ms"})
        machines.add(w, id="FO-1", kind="folder", name="Folder", in_use=False)
    with record.reading() as r:
        assert machines.get(r, "PB-1") == made
        assert made.facts == {"stopping-time": "128 ms"}
        assert [row.id for row in machines.all_machines(r)] == ["FO-1", "PB-1"]
        assert [row.id for row in machines.all_machines(r, in_use=True)] == ["PB-1"]


def test_a_machine_that_is_not_there_or_there_already_is_named(record):
    with record.writing() as w:
        machines.add(w, id="PB-1", kind="folder", name="Folder")
    with pytest.raises(Missing, match="PB-9"), record.reading() as r:
        machines.get(r, "PB-9")
    with pytest.raises(RecordError, match="PB-1 already"), record.writing() as w:
        machines.add(w, id="PB-1", kind="folder", name="Folder")
    with pytest.raises(UsageError), record.writing() as w:
        machines.add(w, id="", kind="folder", name="Folder")


def test_the_newest_fact_of_a_key_counts_and_the_older_ones_stay(record):
    with record.writing() as w:
        machines.add(w, id="PB-1", kind="folder", name="Folder", facts={"made": "2014", "drive": "servo"})
        machines.note_fact(w, "PB-1", "beam-pitch", "10 mm", by=None)
        machines.note_fact(w, "PB-1", "beam-pitch", "20 mm", by=None)
        row = machines.note_fact(w, "PB-1", "drive", "", by=None)

    assert row.facts == {"made": "2014", "beam-pitch": "20 mm"}  # what is not known any more is left out, not guessed
    assert [change.value for change in row.changes] == ["10 mm", "20 mm", ""]


def test_readings_give_the_stopping_time_that_is_on_file(record):
    with record.writing() as w:
        machines.add(w, id="PB-1", kind="folder", name="Folder", facts={"stopping-time": "90 ms"})
        today = w.today()
        machines.note_reading(w, "PB-1", "128 ms", on=today, by=None)
        machines.note_reading(w, "PB-1", "0.131 s", on=today, by=None, note="warm oil")
        row = machines.note_reading(w, "PB-1", "200 ms", on=today - timedelta(days=30), by=None)

    assert row.facts == {"stopping-time": "0.131 s", "measured": today.isoformat()}
    assert [one.time for one in row.readings] == ["200 ms", "128 ms", "0.131 s"]
    with pytest.raises(UsageError, match="comes from its readings"), record.writing() as w:
        machines.note_fact(w, "PB-1", "stopping-time", "90 ms", by=None)


@pytest.mark.parametrize("time", ["", "128", "0 ms", "-3 ms", "128 mm", "soon"])
def test_a_reading_without_a_time_is_refused(record, time):
    with record.writing() as w:
        machines.add(w, id="PB-1", kind="folder", name="Folder")
    with pytest.raises(UsageError), record.writing() as w:
        machines.note_reading(w, "PB-1", time, on=w.today(), by=None)


def test_nothing_is_measured_on_a_day_that_has_not_come(record):
    with record.writing() as w:
        machines.add(w, id="PB-1", kind="folder", name="Folder")
    with pytest.raises(UsageError, match="has not come yet"), record.writing() as w:
        machines.note_reading(w, "PB-1", "128 ms", on=w.today() + timedelta(days=1), by=None)


@pytest.mark.parametrize("table", ["machine_fact", "machine_reading"])
def test_what_is_on_file_is_never_changed(record, table):
    with record.writing() as w:
        machines.add(w, id="PB-1", kind="folder", name="Folder")
        machines.note_reading(w, "PB-1", "128 ms", on=w.today(), by=None)
        machines.note_fact(w, "PB-1", "made", "2014", by=None)
    for statement in (f"UPDATE {table} SET machine = machine", f"DELETE FROM {table}"):
        with pytest.raises(DBAPIError, match="append-only"), record.engine.begin() as connection:
            connection.execute(text(statement))
