"""Machines and what is on file about them."""

import pytest

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
