"""After a paper that was not passed the next try waits for a coach; the note at the desk opens it."""

from typing import Any

import pytest
from records.site import INDUCTION, REFRESHER
from web.plant import PIN, Plant, post

from trainer.errors import NotEntitled, RecordError
from trainer.records import acts, coaching, ledger
from trainer.records.chain import EntryKind

FAILED = {"critical_missed": ["die-ends"]}


@pytest.fixture
def failed(plant: Plant) -> Plant:
    plant.at(2)
    plant.site.sit(plant.site.learner, right=False, **FAILED)
    return plant


def waiting(plant: Plant) -> list[str]:
    with plant.site.record.reading() as r:
        return list(coaching.waiting(r, plant.site.learner))


def newest(plant: Plant, kind: EntryKind = EntryKind.SITTING_MARKED) -> Any:
    with plant.site.record.reading() as r:
        return list(ledger.entries(r, kind=kind))[-1]


def kiosk(plant: Plant) -> Any:
    client = plant.client()
    post(client, "/", {"number": "00241", "pin": PIN})
    return client


def test_the_kiosk_does_not_start_the_programme_again(failed: Plant) -> None:
    client = kiosk(failed)
    page = client.get("/sheets").text
    assert "first with your trainer" in page
    assert f'value="{INDUCTION}"' not in page
    answer = post(client, "/sittings", {"programme": INDUCTION}, of="/sheets")
    assert answer.status_code == 409
    assert "Talk it over with your trainer" in answer.text


def test_the_note_at_the_desk_opens_it_and_stays_on_the_record(failed: Plant) -> None:
    desk = failed.client("rosalind")
    person = f"/desk/people/{failed.site.learner}"
    page = desk.get(person).text
    assert "Coach before the next try" in page
    assert "1 of 1 not right" in page
    form = {"after": str(newest(failed).number), "words": "Went round the open die end together"}
    answer = post(desk, f"{person}/coached", form, of=person)
    assert answer.status_code == 303
    made = newest(failed, EntryKind.EVENT)
    assert made.body["note"] == "Went round the open die end together"
    assert (made.by, made.person, made.body["after"]) == (
        failed.site.trainer,
        failed.site.learner,
        newest(failed).number,
    )
    page = desk.get(answer.location).text
    assert "Noted. The next try is open." in page
    assert "Coach before the next try" not in page
    client = kiosk(failed)
    assert post(client, "/sittings", {"programme": INDUCTION}, of="/sheets").status_code == 303


def test_the_week_names_who_waits_for_a_coach_until_it_is_noted(failed: Plant) -> None:
    desk = failed.client("rosalind")
    assert "Coach, then release" in desk.get("/desk/").text
    with failed.site.record.writing() as w:
        coaching.note(
            w, person=failed.site.learner, after=newest_number(w, failed), words="Talked", by=failed.site.trainer
        )
    assert "Coach, then release" not in desk.get("/desk/").text


def newest_number(r: Any, plant: Plant) -> int:
    return max(one.number for one in ledger.entries(r, person=plant.site.learner))


def test_another_failure_locks_again(failed: Plant) -> None:
    with failed.site.record.writing() as w:
        coaching.note(
            w, person=failed.site.learner, after=newest_number(w, failed), words="Talked", by=failed.site.trainer
        )
    assert waiting(failed) == []
    failed.site.sit(failed.site.learner, right=False, **FAILED)
    assert waiting(failed) == [INDUCTION]


def test_the_record_itself_starts_no_paper_that_waits_for_a_coach(failed: Plant) -> None:
    with pytest.raises(RecordError, match="Talk it over"):
        failed.site.sit(failed.site.learner)
    failed.site.talk_over(failed.site.learner)
    assert failed.site.sit(failed.site.learner).body["passed"]


def test_only_the_programme_that_failed_is_locked_and_passing_clears_it(failed: Plant) -> None:
    with failed.site.record.reading() as r:
        coaching.must_be_free(r, failed.site.learner, REFRESHER)
        with pytest.raises(RecordError):
            coaching.must_be_free(r, failed.site.learner, INDUCTION)
    failed.site.sit(failed.site.learner, REFRESHER)
    assert waiting(failed) == [INDUCTION]
    failed.site.talk_over(failed.site.learner)
    failed.site.sit(failed.site.learner)
    assert waiting(failed) == []


def test_a_failure_that_was_withdrawn_locks_nothing(failed: Plant) -> None:
    entry = newest(failed).number
    with failed.site.record.writing() as w:
        acts.withdraw(w, entry=entry, reason="Wrong person", by=failed.site.trainer, happened_on=w.today())
    assert waiting(failed) == []


def test_nobody_coaches_themselves_or_a_paper_that_does_not_wait(failed: Plant) -> None:
    site = failed.site
    number = newest(failed).number
    with site.record.writing() as w, pytest.raises(NotEntitled):
        coaching.note(w, person=site.learner, after=number, words="Talked", by=site.learner)
    for changed in ({"after": number + 1}, {"after": 0}):
        with site.record.writing() as w, pytest.raises(RecordError):
            coaching.note(w, **{"person": site.learner, "words": "Talked", "by": site.trainer} | changed)
    desk = failed.client("rosalind")
    person = f"/desk/people/{site.learner}"
    assert post(desk, f"{person}/coached", {"after": str(number), "words": " "}, of=person).status_code == 400
    assert waiting(failed) == [INDUCTION]
