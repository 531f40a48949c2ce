"""Whatever a roster holds: once it is taken, the same file changes nothing."""

import csv
import io
import shutil
import tempfile
from datetime import UTC, date, datetime

import pytest
from hypothesis import event, given, settings
from hypothesis import strategies as st
from records.roster.rosterdesk import Desk

from trainer.clock import FixedClock
from trainer.records import open_record
from trainer.settings import read_settings

MONDAY = datetime(2026, 3, 9, 13, 12, tzinfo=UTC)
LETTERS = st.characters(codec="utf-8", categories=("L", "Nd", "Zs", "Po", "Sm"), exclude_characters="?�")
ROWS = st.lists(
    st.fixed_dictionaries({
        "number": st.text("0123456789AB", min_size=1, max_size=6),
        "name": st.text(LETTERS, min_size=1, max_size=20).filter(lambda text: text.strip()),
        "badge": st.text("0123456789", max_size=6),
        "shift": st.sampled_from(["", "Early", "Late", "3E5", "MAR1"]),
        "hire date": st.dates(date(2000, 1, 1), date(2026, 3, 9)).map(str),
        "last day": st.one_of(st.just(""), st.dates(date(2026, 3, 9), date(2027, 1, 1)).map(str)),
    }),
    min_size=1,
    max_size=6,
)  # fmt: skip


def written(rows):
    file = io.StringIO(newline="")
    writer = csv.DictWriter(file, fieldnames=list(rows[0]))
    writer.writeheader()
    writer.writerows(rows)
    return file.getvalue()


def answered(desk, file):
    """Answer every question with its first reading until none is open."""
    answers = {}
    while (plan := desk.check(file, **answers)).questions:
        for question in plan.questions:
            answers[question.id] = question.choices[0].value
    return plan, answers


@pytest.fixture(scope="module")
def empty(tmp_path_factory):
    """Return the folder of an empty record, to be copied: making one anew takes longer than all the rest."""
    data = tmp_path_factory.mktemp("record") / "data"
    open_record(read_settings({}, data=str(data), zone="America/Chicago"), FixedClock(MONDAY)).close()
    return data


@settings(max_examples=60, deadline=None)
@given(known=ROWS, rows=ROWS)
def test_a_file_taken_twice_changes_nothing_the_second_time(empty, known, rows):
    with tempfile.TemporaryDirectory() as folder:
        shutil.copytree(empty, f"{folder}/data")
        record = open_record(read_settings({}, data=f"{folder}/data", zone="America/Chicago"), FixedClock(MONDAY))
        for file in map(written, (known, rows)):
            taken_twice(Desk(record), file)
        record.close()


def taken_twice(desk, file):
    plan, answers = answered(desk, file)
    event("taken" if plan.ready else "refused")
    if not plan.ready:
        return
    desk.take(file, **answers)
    before = desk.everyone()
    again, answers = answered(desk, file)
    assert again.ready
    assert desk.take(file, **answers).acts == ()
    assert desk.everyone() == before
