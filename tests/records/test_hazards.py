"""A reported hazard is kept at once, answered by adding, and never changed."""

import pytest

from trainer.errors import Missing, UsageError
from trainer.records import hazards, machines, people


@pytest.fixture
def trainer_key(record):
    with record.writing() as w:
        machines.add(w, id="PB-1", kind="press-brake-hydraulic", name="Brake")
        return people.add(w, number="00101", name="Rosalind Achterberg", shift="Early", language="en").key


def test_a_report_is_open_until_somebody_closes_it(record, trainer_key):
    with record.writing() as w:
        made = hazards.report(w, words="  The left end cover is loose.  ", kiosk="K1", machine="PB-1")
    with record.writing() as w:
        hazards.answer(w, made.id, by=trainer_key, words="Looked at it.", closes=False)
    with record.reading() as r:
        assert [(row.reference, row.words, row.person, row.is_open) for row in hazards.reports(r, only_open=True)] == [
            ("H-001", "The left end cover is loose.", None, True)
        ]
    with record.writing() as w:
        hazards.answer(w, made.id, by=trainer_key, words="Bolted and tested.", closes=True)
    with record.reading() as r:
        assert hazards.reports(r, only_open=True) == []
        assert [answer.words for answer in hazards.get(r, made.id).answers] == ["Looked at it.", "Bolted and tested."]


@pytest.mark.parametrize(("words", "error"), [("   ", UsageError), ("x" * 2_001, UsageError)])
def test_a_report_that_says_nothing_or_too_much_is_refused(record, trainer_key, words, error):
    with pytest.raises(error), record.writing() as w:
        hazards.report(w, words=words, kiosk="K1")


def test_an_unknown_machine_or_report_is_named(record, trainer_key):
    with pytest.raises(Missing, match="PB-9"), record.writing() as w:
        hazards.report(w, words="It drifts.", kiosk="K1", machine="PB-9")
    with pytest.raises(Missing, match="H-7"), record.reading() as r:
        hazards.get(r, 7)
