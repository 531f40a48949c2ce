"""Acts on one person's record: looked at with what they would change, then entered; nothing else is kept."""

import re
from datetime import timedelta
from typing import Any

import pytest
from flask.testing import FlaskClient
from web.plant import PIN, Plant, post

from trainer.records import acts, ledger, people
from trainer.records.chain import EntryKind
from trainer.records.standing import standing


def look(client: FlaskClient, address: str, **fields: Any) -> Any:
    return post(client, address, fields | {"act": "look"})


def enter(client: FlaskClient, address: str, page: str, **fields: Any) -> Any:
    seen = re.search(r'name="seen" value="([0-9a-f]+)"', page)
    assert seen, "it was not looked at"
    return post(client, address, fields | {"act": "enter", "seen": seen[1]})


def size(plant: Plant) -> int:
    with plant.site.record.reading() as r:
        return ledger.size(r)


def word(plant: Plant, key: str) -> str:
    with plant.site.record.reading() as r:
        return standing(r, plant.site.bank, person=key, machine="PB-1", role="operator", on=r.today()).word.value


@pytest.fixture
def bo(plant: Plant) -> str:
    return plant.authorise("00231", "Bo Lind", days=40)


def test_a_suspension_is_shown_before_it_is_entered_and_ended_by_somebody_else(plant: Plant, bo: str) -> None:
    client, address = plant.client("rosalind"), f"/desk/people/{bo}/acts/suspend"
    before, told = size(plant), {"reason": "Reached past the posts"}
    page = look(client, address, **told).text
    assert "1 standing changes" in page
    assert "Suspended from every machine: Reached past the posts" in page
    assert (size(plant), word(plant, bo)) == (before, "authorised")
    answer = enter(client, address, page, **told)
    assert answer.status_code == 303
    assert word(plant, bo) == "suspended"
    sheet = client.get(answer.location).text
    assert f"Entered. L-{before + 1}" in sheet
    assert f"/desk/people/{bo}/acts/reinstate" in sheet
    ended = f"/desk/people/{bo}/acts/reinstate"
    told = {"entry": str(before + 1), "reason": "Talked over, watched for a shift"}
    enter(client, ended, look(client, ended, **told).text, **told)
    assert word(plant, bo) == "authorised"
    assert "nothing of the kind" in client.get(ended).text


def test_bad_input_keeps_what_was_typed_and_enters_nothing(plant: Plant, bo: str) -> None:
    client, address, before = plant.client("rosalind"), f"/desk/people/{bo}/acts/suspend", size(plant)
    answer = look(client, address, on="3/4/2026", reason="Reached past the posts")
    assert answer.status_code == 400
    assert "is not a day" in answer.text
    assert "Reached past the posts" in answer.text
    assert "Say why" in look(client, address, reason=" ").text
    assert "lies ahead" in look(client, address, on="2026-12-31", reason="x").text
    unseen = post(client, address, {"reason": "x", "act": "enter", "seen": "0" * 16})
    assert "Look at it, then enter it" in unseen.text
    assert size(plant) == before


def test_nobody_ends_their_own_suspension_or_puts_off_their_own_programme(plant: Plant) -> None:
    with plant.site.record.writing() as w:
        made = acts.suspend(w, person=plant.site.trainer, reason="x", by=plant.site.officer, happened_on=w.today())
    client, key = plant.client("rosalind"), plant.site.trainer
    own = look(client, f"/desk/people/{key}/acts/reinstate", entry=str(made.number), reason="I am fine")
    assert (own.status_code, "Nobody ends their own" in own.text) == (403, True)


def test_a_programme_is_put_off_until_a_day(plant: Plant) -> None:
    client, address = plant.client("rosalind"), f"/desk/people/{plant.site.learner}/acts/excuse"
    told = {"programme": "press-brake-operator-induction", "until": "2026-04-30", "reason": "On the other line"}
    assert "Write until which day" in look(client, address, **(told | {"until": ""})).text
    page = look(client, address, **told).text
    assert "standing changes today" in page
    enter(client, address, page, **told)
    with plant.site.record.reading() as r:
        assert list(ledger.entries(r, kind=EntryKind.EXCUSED))[-1].body["until"] == "2026-04-30"


def test_the_office_withdraws_a_right_and_sees_who_loses_a_standing_by_it(plant: Plant, bo: str) -> None:
    client, trainer = plant.client("harriet"), plant.site.trainer
    with plant.site.record.reading() as r:
        right = next(ledger.entries(r, kind=EntryKind.ENTITLED))
    assert (
        f"/office/people/{trainer}/acts/withdraw?entry={right.reference}"
        in client.get(f"/office/entries/{right.number}").text
    )
    address, told = f"/office/people/{trainer}/acts/withdraw", {"entry": right.reference, "reason": "Never appointed"}
    page = look(client, address, **told).text
    assert "Bo Lind" in page
    assert "Practical pending" in page
    enter(client, address, page, **told)
    assert word(plant, bo) == "practical-pending"
    again = look(client, address, **told)
    assert (again.status_code, "does not count any more" in again.text) == (409, True)


def test_an_entry_moves_only_with_the_pin_of_a_second_person(plant: Plant, bo: str) -> None:
    plant.at(20)
    other = plant.add("00232", "Mai Okafor")
    with plant.site.record.reading() as r:
        sat = next(one for one in ledger.entries(r, person=bo) if one.kind is EntryKind.SITTING_MARKED)
    client, address = plant.client("harriet"), f"/office/people/{bo}/acts/move"
    told = {"entry": sat.reference, "to": "00232", "second": "00101", "reason": "Badges were mixed up"}
    page = look(client, address, **told).text
    before = size(plant)
    assert "PIN of 00101 is missing" in enter(client, address, page, **told).text
    wrong = enter(client, address, page, **told, pin="1111")
    assert (wrong.status_code, "do not go together" in wrong.text) == (403, True)
    assert size(plant) == before
    assert enter(client, address, page, **told, pin=PIN).status_code == 303
    with plant.site.record.reading() as r:
        assert [one.kind for one in ledger.entries(r, person=other)] == [EntryKind.MOVED]
    self_approved = look(client, address, **(told | {"second": "00112"}))
    assert "two people" in self_approved.text or "any more" in self_approved.text


def test_the_office_gives_and_ends_the_right_to_judge(plant: Plant, bo: str) -> None:
    client = plant.client("harriet")
    address = f"/office/people/{bo}/acts/judge"
    told = {
        "kinds": ["press-brake-hydraulic"],
        "roles": ["operator"],
        "to": "2027-03-01",
        "basis": "Course of two days",
    }
    assert "Tick at which machines" in look(client, address, **(told | {"kinds": []})).text
    enter(client, address, look(client, address, **told).text, **told)
    sheet = client.get(f"/office/people/{bo}").text
    assert "Course of two days" in sheet
    ending = re.search(rf"/office/people/{bo}/acts/revoke\?entry=(\d+)", sheet)
    assert ending
    told = {"entry": ending[1], "reason": "Moved to another plant"}
    address = f"/office/people/{bo}/acts/revoke"
    enter(client, address, look(client, address, **told).text, **told)
    assert "Course of two days" not in client.get(f"/office/people/{bo}").text.split("Every entry")[0]


def test_each_door_has_its_own_acts(plant: Plant, bo: str) -> None:
    assert plant.client("rosalind").get(f"/desk/people/{bo}/acts/withdraw").status_code == 404
    assert plant.client("rosalind").get(f"/office/people/{bo}/acts/withdraw").status_code == 403
    with plant.site.record.writing() as w:
        people.leave(w, bo, on=w.today(), by=plant.site.officer)
    plant.site.clock.advance(timedelta(days=2))
    sheet = plant.client("rosalind").get(f"/desk/people/{bo}").text
    assert "/acts/suspend" not in sheet
