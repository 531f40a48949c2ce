"""Every kind of entry has its line in the history."""

import pytest
from records.test_effects import entry

from trainer.records.chain import EntryKind
from trainer.records.lines import LINES, line

BODIES = [
    ("assigned", {"programme": "p", "reason": "hired"}, "Assigned: Induction. Reason: hired"),
    ("assigned", {"programme": "p", "reason": "x", "machine": "PB-1"}, "Assigned for PB-1: Induction. Reason: x"),
    ("attended", {"topic": "Pedals"}, "Attended: Pedals"),
    (
        "sitting-marked",
        {"programme": "p", "score": {"right": 9, "out_of": 10}, "passed": True, "critical_missed": []},
        "Passed: Induction, 9 of 10 right",
    ),
    (
        "sitting-marked",
        {"programme": "p", "score": {"right": 9, "out_of": 10}, "passed": False, "critical_missed": ["c"]},
        "Not passed: Induction, 9 of 10 right, a critical one wrong",
    ),
    (
        "sitting-marked",
        {"programme": "p", "score": {"right": 5, "out_of": 10}, "passed": False, "critical_missed": []},
        "Not passed: Induction, 5 of 10 right",
    ),
    ("practical-signed", {"machine": "PB-1", "checklist": "c", "result": "passed"}, "Practical at PB-1 signed: c"),
    ("practical-signed", {"machine": "PB-1", "checklist": "c", "result": "failed"}, "Practical at PB-1 not passed: c"),
    (
        "prior-accepted",
        {"programme": "p", "trained_on": "2025-01-02", "evidence": "Paper"},
        "Training from elsewhere of 2025-01-02 accepted for Induction: Paper",
    ),
    (
        "excused",
        {"programme": "p", "until": "2026-05-01", "reason": "Ill"},
        "Excused from Induction until 2026-05-01: Ill",
    ),
    ("suspended", {"machine": None, "reason": "Key off"}, "Suspended from every machine: Key off"),
    ("suspended", {"machine": "PB-1", "reason": "Key off"}, "Suspended from PB-1: Key off"),
    ("reinstated", {"suspension": 7, "reason": "Briefed"}, "Suspension L-7 ended: Briefed"),
    ("corrected", {"corrects": 7, "effect": "withdrawn", "reason": "x"}, "L-7 does not count any more: x"),
    ("corrected", {"corrects": 7, "effect": "replaced", "reason": "x"}, "L-7 is corrected: x"),
    (
        "corrected",
        {"corrects": 7, "effect": "time-confirmed", "happened_on": "2026-03-01", "reason": "x"},
        "The day of L-7 is confirmed as 2026-03-01: x",
    ),
    ("moved", {"entry": 7, "direction": "away", "reason": "x"}, "L-7 was moved to the person whom it belongs to: x"),
    (
        "moved",
        {"entry": 7, "direction": "here", "reason": "x"},
        "L-7 belongs here and was moved from another person: x",
    ),
    ("event", {"event": "left", "note": "x"}, "Event: left. x"),
    ("event", {"event": "machine-changed", "machine": "PB-1", "note": "x"}, "Event at PB-1: machine-changed. x"),
    (
        "entitled",
        {"roles": ["operator"], "machine_kinds": ["folder"], "valid_to": "2027-01-01", "basis": "Appointed"},
        "May judge operator on folder until 2027-01-01: Appointed",
    ),
    ("entitled", {"revokes": 7, "reason": "x"}, "The right to judge of L-7 ends: x"),
    (
        "rule-set",
        {"subject": "due-dates", "programme": "p", "value": {"period": "P6M"}, "from": "2026-05-01", "reason": "x"},
        "From 2026-05-01 on a pass is good for 6 months, for Induction: x",
    ),
    (
        "rule-set",
        {"subject": "due-dates", "programme": "p", "value": None, "from": "2026-05-01", "reason": "x"},
        "From 2026-05-01 on due days go by the content again, for Induction: x",
    ),
]


@pytest.mark.parametrize(("kind", "body", "told"), BODIES)
def test_an_entry_is_told_in_one_line(kind, body, told):
    assert str(line(entry(9, EntryKind(kind), **body), named={"p": "Induction"})) == told


def test_no_kind_is_without_a_line():
    assert set(LINES) == set(EntryKind) == {EntryKind(kind) for kind, *_ in BODIES}
