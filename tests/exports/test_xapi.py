"""The ledger as xAPI statements: each one as the specification asks, corrections voided, nothing said twice."""

import json
from datetime import UTC, date, datetime, timedelta

import pytest
from exports.made import DAY, SITTING, entry, item, sitting
from exports.xapi_rules import VOIDED, faults

from trainer.exports.xapi import changes_of, statements, xapi_lines
from trainer.records.chain import EntryKind

BASE = "https://training.example"
ADL = "http://adlnet.gov/expapi/verbs/"
EVALUATOR = "b" * 32


def chain(*made):
    """Return entries of one person, numbered and recorded one a day from the ninth of March on."""
    return [
        entry(
            number=number,
            seq=number,
            kind=EntryKind(kind),
            body=body,
            happened_on=DAY + timedelta(days=number - 1),
            recorded_at=datetime(2026, 3, 9, 18, tzinfo=UTC) + timedelta(days=number - 1),
            by=EVALUATOR,
        )
        for number, (kind, body) in enumerate(made, 1)
    ]


def told(entries, bank, **changed):
    return list(statements(entries, lambda _: entries, bank, base=changed.get("base", BASE)))


def verbs(found):
    return [one["verb"]["id"].removeprefix(ADL).removeprefix(f"{BASE}/xapi/verbs/") for one in found]


PRACTICAL = {
    "machine": "PB-1",
    "role": "operator",
    "checklist": "operator-hydraulic-brake",
    "result": "passed",
    "entitlement": 3,
    "evaluator": EVALUATOR,
    "fingerprint": "f" * 64,
}
PRIOR = {
    "programme": "press-brake-operator-induction",
    "machine_kinds": [],
    "policy": {},
    "trained_on": "2026-01-02",
    "evidence": "A certificate.",
}
EVERY_KIND = {
    "assigned": {"programme": "press-brake-operator-induction", "reason": "x", "machine": "PB 1/ü"},
    "attended": {"topic": "Loose pedals", "language": ""},
    "sitting-marked": sitting(critical_missed=["PB-S14/q1"], passed=False),
    "practical-signed": PRACTICAL,
    "prior-accepted": PRIOR,
    "excused": {"programme": "gone-programme", "until": "2026-05-01", "reason": "x"},
    "suspended": {"machine": None, "reason": "x"},
    "reinstated": {"suspension": 7, "reason": "x"},
    "event": {"event": "unsafe-act", "note": "x"},
    "entitled": {"machine_kinds": ["folder"], "roles": ["operator"], "basis": "x", "valid_to": "2027-01-01"},
    "rule-set": {"subject": "smallest-group", "programme": "", "value": 6, "from": "2026-05-01", "reason": "x"},
}


def test_every_kind_of_entry_is_a_statement_as_the_specification_asks(bank):
    found = told(chain(*EVERY_KIND.items()), bank)

    assert [faults(one) for one in found] == [[]] * len(found)
    assert set(EVERY_KIND) | {"corrected", "moved"} == {kind.value for kind in EntryKind}
    assert verbs(found) == [
        "registered",
        "attended",
        "failed",
        "answered",
        "answered",
        "passed",
        "https://w3id.org/xapi/adl/verbs/waived",
        "excused",
        "suspended",
        "reinstated",
        "event",
        "entitled",
        "rule-set",
    ]


def test_people_are_accounts_and_notes_stay_at_home(bank):
    raw = json.dumps(told(chain(("event", {"event": "incident", "note": "Broke a wrist."})), bank))

    assert '"account": {"homePage": "https://training.example", "name": "p"}' in raw
    assert "wrist" not in raw


def test_a_suspension_is_not_called_by_the_word_for_a_paused_session(bank):
    (found,) = told(chain(("suspended", {"machine": "PB-1", "reason": "x"})), bank)

    assert found["verb"]["id"] == "https://training.example/xapi/verbs/suspended"
    assert found["object"]["id"] == "https://training.example/xapi/machines/PB-1"


def test_a_marked_paper_gives_its_score_its_session_and_how_it_can_be_proved(bank):
    (paper, *_) = told([entry()], bank)
    extensions = {key.rpartition("/")[2]: value for key, value in paper["context"]["extensions"].items()}

    assert paper["result"] == {
        "success": True,
        "completion": True,
        "score": {"scaled": 0.9, "raw": 9, "min": 0, "max": 10},
        "duration": "PT1324S",
    }
    assert paper["timestamp"] == "2026-03-09T18:12:04.250000Z"
    assert paper["context"]["registration"].replace("-", "") == SITTING
    assert paper["context"]["language"] == "es"
    assert extensions["entry"] == "L-12"
    assert extensions["digest"] == entry().digest
    assert extensions["due-on"] == "2027-03-09"
    assert paper["object"]["definition"]["name"]["en"] == "Press brake operator, induction"


@pytest.mark.parametrize(
    ("given", "kind", "response"),
    [
        ({"chosen": "b"}, "choice", "b"),
        ({"value": "379 mm"}, "fill-in", "379 mm"),
        ({"given": ["c", "a"]}, "other", "c[,]a"),
        ({"chosen": "b", "given": ["r2"]}, "other", "b[,]r2"),
    ],
)
def test_an_answer_is_told_as_it_was_given_and_without_its_time(bank, given, kind, response):
    wrong = item("PB-S14/q1", right=False, verdict="wrong", misconception="m-1", slips=["s-1"], **given)
    (_, answer) = told([entry(body=sitting(items=[wrong, item("PB-D01", verdict="none")]))], bank)

    assert answer["object"]["definition"]["interactionType"] == kind
    assert answer["object"]["id"] == "https://training.example/xapi/items/PB-S14%2Fq1/v3"
    assert (answer["result"]["response"], answer["result"]["success"]) == (response, False)
    assert "duration" not in answer["result"]
    assert list(answer["result"]["extensions"].values()) == ["m-1", ["s-1"]]
    assert answer["context"]["contextActivities"]["parent"][0]["id"].endswith("press-brake-operator-induction")


def test_a_practical_names_who_judged(bank):
    (found,) = told(chain(("practical-signed", PRACTICAL)), bank)

    assert found["context"]["instructor"]["account"]["name"] == EVALUATOR
    assert found["object"]["id"] == "https://training.example/xapi/practicals/operator-hydraulic-brake/PB-1"


def test_what_happened_on_another_day_is_told_at_midday_there(bank):
    made = entry(kind=EntryKind.EVENT, body={"event": "incident", "note": "x"}, happened_on=date(2026, 2, 17))
    (found,) = told([made], bank)

    assert found["timestamp"] == "2026-02-17T18:00:00.000000Z"


def test_an_entry_whose_day_is_in_doubt_says_so(bank):
    (found,) = told(chain(("event", {"event": "incident", "note": "x", "time": "unverified"})), bank)

    assert found["context"]["extensions"]["https://training.example/xapi/extensions/time"] == "unverified"


def withdraw(number):
    return ("corrected", {"corrects": number, "effect": "withdrawn", "reason": "x"})


def standing_ids(found):
    """Return the statements that nothing has voided, as a store would."""
    void = {one["object"]["id"] for one in found if one["verb"]["id"] == VOIDED}
    assert void <= {one["id"] for one in found}
    assert not void & {one["id"] for one in found if one["verb"]["id"] == VOIDED}, "a voiding cannot be voided"
    return [one for one in found if one["id"] not in void and one["verb"]["id"] != VOIDED]


def test_a_withdrawn_paper_is_voided_with_all_its_answers(bank):
    found = told(chain(("sitting-marked", sitting()), withdraw(1)), bank)

    assert verbs(found) == ["passed", "answered", "answered", "voided", "voided", "voided"]
    assert [faults(one) for one in found] == [[]] * 6
    assert standing_ids(found) == []
    assert found[3]["actor"]["account"]["name"] == EVALUATOR


def test_a_correction_that_is_withdrawn_states_the_entry_anew(bank):
    found = told(chain(("sitting-marked", sitting()), withdraw(1), withdraw(2)), bank)

    assert verbs(standing_ids(found)) == ["passed", "answered", "answered"]
    assert len({one["id"] for one in found}) == len(found)
    assert [faults(one) for one in found] == [[]] * len(found)


def test_a_replaced_entry_is_voided_and_stated_as_it_reads_now(bank):
    instead = ("corrected", {"corrects": 1, "effect": "replaced", "reason": "x", "instead": sitting(passed=False)})
    found = standing_ids(told(chain(("sitting-marked", sitting()), instead), bank))

    assert verbs(found) == ["failed", "answered", "answered"]


def test_a_correction_of_a_correction_voids_what_the_first_one_stated(bank):
    first = ("corrected", {"corrects": 1, "effect": "replaced", "reason": "x", "instead": sitting(passed=False)})
    again = ("corrected", {"corrects": 1, "effect": "replaced", "reason": "x", "happened_on": "2026-03-01"})
    found = told(chain(("sitting-marked", sitting()), first, again), bank)
    left = standing_ids(found)

    assert verbs(left) == ["failed", "answered", "answered"]
    assert {one["timestamp"][:10] for one in left} == {"2026-03-01"}
    assert len({one["id"] for one in found}) == len(found)


def test_a_moved_entry_leaves_one_person_and_comes_to_the_other(bank):
    was = {"kind": "sitting-marked", "happened_on": "2026-03-09", "by": "p", "body": sitting()}
    paper, away = chain(
        ("sitting-marked", sitting()), ("moved", {"entry": 1, "direction": "away", "to": "q", "reason": "x"})
    )
    here = entry(number=3, person="q", kind=EntryKind.MOVED, body={"entry": 1, "direction": "here", "was": was})
    chains = {"p": [paper, away], "q": [here]}
    found = list(statements([paper, away, here], chains.__getitem__, bank, base=BASE))

    left = standing_ids(found)
    assert verbs(left) == ["passed", "answered", "answered"]
    assert {one["actor"]["account"]["name"] for one in left} == {"q"}
    assert [faults(one) for one in found] == [[]] * len(found)


def test_a_part_of_the_ledger_has_the_ids_that_the_whole_has(bank):
    whole = chain(("sitting-marked", sitting()), withdraw(1), withdraw(2))
    last = list(statements(whole[2:], lambda _: whole, bank, base=BASE))

    assert [one["id"] for one in told(whole, bank)][-len(last) :] == [one["id"] for one in last]


def test_the_same_record_gives_the_same_bytes_and_another_site_other_ids(bank):
    entries = chain(*EVERY_KIND.items())
    first, again = (b"".join(xapi_lines(entries, lambda _: entries, bank, base=BASE)) for _ in range(2))
    other = told(entries, bank, base="https://elsewhere.example/")

    assert first == again
    assert {one["id"] for one in told(entries, bank)}.isdisjoint(one["id"] for one in other)
    assert other[0]["actor"]["account"]["homePage"] == "https://elsewhere.example"


def test_what_does_not_change_anything_states_nothing(bank):
    twice = chain(("sitting-marked", sitting()), withdraw(1), withdraw(1))

    assert changes_of(twice)[3].taken_back == ()
    assert verbs(told(twice, bank)) == ["passed", "answered", "answered", "voided", "voided", "voided"]
