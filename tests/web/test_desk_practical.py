"""Signing a practical at the machine."""

from typing import Any

import pytest
from web.plant import PIN, Plant, post

from trainer.records import ledger, people
from trainer.records.chain import EntryKind
from trainer.records.standing import StandingWord, standing


@pytest.fixture
def passed(plant: Plant) -> Plant:
    """Return the plant with the learner's theory passed."""
    plant.at(1)
    plant.site.sit(plant.site.learner)
    plant.at(0)
    return plant


def address(plant: Plant, machine: str = "PB-1") -> str:
    return f"/desk/practicals/{plant.site.learner}/{machine}/operator"


def marked(plant: Plant, *, failing: str = "", why: str = "", **given: Any) -> dict[str, Any]:
    """Return the form as filled in: every step seen right, but one; both confirm."""
    steps = plant.site.bank.checklists["operator-hydraulic-brake"].steps
    form = {f"step-{step.id}": "failed" if step.id == failing else "right" for step in steps}
    if failing:
        form[f"why-{failing}"] = why
    return {
        **form,
        "evaluator": plant.site.trainer,
        "day": "9 Mar 2026",
        "witnessed": "yes",
        "trainee_pin": PIN,
        **given,
    }


def practicals(plant: Plant) -> list[Any]:
    with plant.site.record.reading() as r:
        return list(ledger.entries(r, kind=EntryKind.PRACTICAL_SIGNED))


def test_a_practical_signed_by_an_entitled_trainer_authorises_the_person(passed: Plant) -> None:
    client = passed.client("rosalind")
    answer = post(client, address(passed), marked(passed))
    assert answer.status_code == 303
    shown = client.get(answer.location).text
    assert "Signed: PB-1, passed." in shown
    with passed.site.record.reading() as r:
        found = standing(r, passed.site.bank, person=passed.site.learner, machine="PB-1", role="operator", on=r.today())
    assert (found.word, found.may_run) == (StandingWord.AUTHORISED, True)


def test_the_sheet_names_who_may_judge_with_the_entry_that_says_so(passed: Plant) -> None:
    page = passed.client("rosalind").get(address(passed)).text
    assert "Rosalind Achterberg, 00101" in page
    assert "to 31 Dec 2027" in page
    assert "Finds the manual and each emergency stop" in page


def test_a_failed_critical_step_is_signed_as_not_passed_with_what_happened(passed: Plant) -> None:
    client = passed.client("rosalind")
    answer = post(client, address(passed), marked(passed, failing="curtain-test", why="Tried it at one height only."))
    assert answer.status_code == 303
    (entry,) = practicals(passed)
    assert entry.body["result"] == "failed"
    assert entry.body["comment"] == "3. Tried it at one height only."
    assert "not passed" in client.get(answer.location).text


@pytest.mark.parametrize(
    ("changed", "told"),
    [
        ({"trainee_pin": ""}, "The PIN of Dana Ruiz is missing"),
        ({"trainee_pin": "0000"}, "not"),
        ({"witnessed": ""}, "has not confirmed"),
        ({"step-leave-safe": ""}, "1 steps have no outcome yet"),
        ({"step-leave-safe": "failed"}, "Step 9 failed. Write what happened there."),
        ({"day": "3/4/2026"}, "is not a day"),
        ({"day": "10 Mar 2026"}, "lies ahead"),
        ({"evaluator": "nobody"}, "Choose who judges"),
        ({"step-leave-safe": "maybe"}, "1 steps have no outcome yet"),
    ],
)
def test_a_refusal_is_one_sentence_and_nothing_that_was_marked_is_lost(
    passed: Plant, changed: dict[str, str], told: str
) -> None:
    form = marked(passed, failing="mode-and-pedal", why="Left the key in the selector.") | changed
    answer = post(passed.client("rosalind"), address(passed), form)
    assert 400 <= answer.status_code < 500
    assert told in answer.text.split('role="alert">')[1].split("</p>")[0]
    assert "Left the key in the selector.</textarea>" in answer.text
    assert answer.text.count(" checked>") >= 8
    assert PIN not in answer.text
    assert practicals(passed) == []


def test_somebody_else_who_judges_proves_it_with_the_own_pin(passed: Plant) -> None:
    client = passed.client("abdul")
    answer = post(client, address(passed), marked(passed))
    assert answer.status_code == 400
    assert "The PIN of Rosalind Achterberg is missing" in answer.text
    answer = post(client, address(passed), marked(passed, evaluator_pin=PIN))
    assert answer.status_code == 303
    (entry,) = practicals(passed)
    assert entry.by == passed.site.trainer


def test_who_has_no_right_to_judge_cannot_sign(passed: Plant) -> None:
    with passed.site.record.reading() as r:
        (abdul,) = people.with_number(r, "00115")
    answer = post(passed.client("abdul"), address(passed), marked(passed, evaluator=abdul.key))
    assert answer.status_code == 403
    assert "No right to judge operator" in answer.text
    assert practicals(passed) == []


def test_nobody_signs_their_own_practical(passed: Plant) -> None:
    own = f"/desk/practicals/{passed.site.trainer}/PB-1/operator"
    answer = post(passed.client("rosalind"), own, marked(passed))
    assert answer.status_code == 403
    assert "Nobody signs for themselves" in answer.text


def test_guessing_the_pin_of_a_trainee_makes_the_next_try_wait(passed: Plant) -> None:
    client = passed.client("rosalind")
    for _ in range(4):
        answer = post(client, address(passed), marked(passed, trainee_pin="9999"))
    answer = post(client, address(passed), marked(passed))
    assert answer.status_code == 403
    assert "ait" in answer.text.split('role="alert">')[1].split("</p>")[0]
    assert practicals(passed) == []


@pytest.mark.parametrize("path", ["/desk/practicals/{learner}/PB-9/operator", "/desk/practicals/x/PB-1/operator"])
def test_an_unknown_machine_or_person_is_no_sheet(passed: Plant, path: str) -> None:
    assert passed.client("rosalind").get(path.format(learner=passed.site.learner)).status_code == 404


def test_a_role_without_a_checklist_says_that_nothing_can_be_signed(passed: Plant) -> None:
    answer = passed.client("rosalind").get(f"/desk/practicals/{passed.site.learner}/PB-1/guard-checker")
    assert answer.status_code == 404
    assert "no checklist" in answer.text


def test_the_list_of_practicals_shows_who_waits_and_what_the_reader_may_sign(passed: Plant) -> None:
    page = passed.client("rosalind").get("/desk/practicals").text
    assert "1 practical is open." in page
    assert "You may sign." in page
    assert "operator, at press brake, hydraulic. To 31 Dec 2027." in page
    assert "Dana Ruiz" not in passed.client("rosalind").get("/desk/practicals?machine=PB-4").text


def test_signing_without_a_token_is_refused(passed: Plant) -> None:
    client = passed.client("rosalind")
    assert client.post(address(passed), data=marked(passed)).status_code == 400
    assert practicals(passed) == []
