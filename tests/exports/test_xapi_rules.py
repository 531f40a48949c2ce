"""The rules that statements are held against find what is wrong."""

import pytest
from exports.xapi_rules import faults

ID = "fd41c918-b88b-4b20-a0a5-a4c32391aaa0"
GOOD = {
    "id": ID,
    "actor": {"objectType": "Agent", "account": {"homePage": "https://training.example", "name": "p"}},
    "verb": {"id": "http://adlnet.gov/expapi/verbs/passed", "display": {"en": "passed"}},
    "object": {"objectType": "Activity", "id": "https://training.example/xapi/programmes/x"},
    "timestamp": "2026-03-09T13:12:00.000Z",
}


def test_a_good_statement_has_no_faults():
    assert faults(GOOD) == []


@pytest.mark.parametrize(
    "change",
    [
        {"id": "12"},
        {"id": None},
        {"actor": {"objectType": "Agent", "mbox": "mailto:a@training.example"}},
        {"actor": {**GOOD["actor"], "account": {"homePage": "training", "name": "p"}}},
        {"verb": {"id": "passed"}},
        {"verb": {"id": "http://adlnet.gov/expapi/verbs/excused"}},
        {"verb": {**GOOD["verb"], "display": {}}},
        {"verb": {"id": "http://adlnet.gov/expapi/verbs/voided"}},
        {"object": {"objectType": "StatementRef", "id": ID}},
        {"result": {"duration": "22 min"}},
        {"result": {"duration": "P1WT3S"}},
        {"result": {"success": "true"}},
        {"result": {"score": {"scaled": 1.2}}},
        {"result": {"score": {"raw": 11, "min": 0, "max": 10}}},
        {"result": {"score": {"raw": 0, "min": 0, "max": 0}}},
        {"context": {"extensions": {"entry": "L-1"}}},
        {"context": {"extensions": {"https://training.example/e": None}}},
        {"context": {"language": "Español"}},
        {"context": {"registration": "7"}},
        {"timestamp": "2026-03-09"},
        {"timestamp": "2026-03-09T13:12:00.000-00:00"},
        {"version": "1.0.3"},
        {"Result": {}},
    ],
)
def test_a_bad_one_has(change):
    assert faults({**GOOD, **change}) != []
