"""Talking to a group: sheets on the wall, badges one after another, attended and nothing more."""

from datetime import timedelta
from typing import Any

import pytest
from flask.testing import FlaskClient
from web.plant import Plant, post

from trainer.records import ledger
from trainer.records.chain import EntryKind
from trainer.records.standing import standing

TALK, DRILL = "talk-tied-switches", "PB-D01"


def attended(plant: Plant) -> list[Any]:
    with plant.site.record.reading() as r:
        return list(ledger.entries(r, kind=EntryKind.ATTENDED))


def badge(client: FlaskClient, text: str) -> Any:
    return post(client, "/desk/talks/door", {"act": "badge", "badge": text})


@pytest.fixture
def client(plant: Plant) -> FlaskClient:
    client = plant.client("rosalind")
    answer = post(client, "/desk/talks", {"item": TALK, "drill": DRILL})
    assert answer.status_code == 303
    return client


def test_a_badge_or_a_number_notes_who_came_with_topic_edition_and_time(plant: Plant, client: FlaskClient) -> None:
    assert badge(client, ";0013748911?").status_code == 303
    entry = attended(plant)[-1]
    assert entry.person == plant.site.learner
    assert entry.body["topic"] == "Toolbox talk: tied switches"
    assert entry.body["edition"] == plant.site.bank.edition
    assert entry.body["presenter"] == entry.by == plant.site.trainer
    assert "late_minutes" not in entry.body
    badge(client, "00112")
    page = client.get("/desk/talks/door").text
    assert "Harriet Lindqvist-Moss is in." in page
    assert "Dana Ruiz" in page


def test_whoever_comes_after_the_beginning_is_late_by_whole_minutes(plant: Plant, client: FlaskClient) -> None:
    assert post(client, "/desk/talks/door", {"act": "begin"}).status_code == 303
    plant.site.clock.advance(timedelta(minutes=7, seconds=50))
    badge(client, "00241")
    assert attended(plant)[-1].body["late_minutes"] == 7
    assert "7 minutes late" in client.get("/desk/talks/door").text
    assert "1 came late" in client.get("/desk/talks").text


def test_nobody_is_in_twice_and_a_strange_badge_is_nobody(plant: Plant, client: FlaskClient) -> None:
    badge(client, "00241")
    twice, strange = badge(client, "0013748911"), badge(client, "999999")
    assert (twice.status_code, strange.status_code) == (409, 400)
    assert "Dana Ruiz is in already." in twice.text
    assert "Nobody here has that badge or number." in strange.text
    assert len(attended(plant)) == 1


def test_a_name_is_no_badge(plant: Plant, client: FlaskClient) -> None:
    assert badge(client, "Dana Ruiz").status_code == 400
    assert attended(plant) == []


def test_being_there_authorises_nobody(plant: Plant, client: FlaskClient) -> None:
    def now() -> Any:
        with plant.site.record.reading() as r:
            found = standing(
                r, plant.site.bank, person=plant.site.learner, machine="PB-1", role="operator", on=r.today()
            )
        return found.may_run, found.word

    before = now()
    badge(client, "00241")
    assert now() == before
    assert not before[0]


def test_every_sheet_can_be_shown_and_gives_the_answer_only_when_asked(client: FlaskClient) -> None:
    number = 1
    while f"/desk/talks/sheets/{number + 1}" in (page := client.get(f"/desk/talks/sheets/{number}").text):
        assert "<b>Right.</b>" not in page
        if "wall-options" in page:
            assert "<b>Right.</b>" in client.get(f"/desk/talks/sheets/{number}?show=answer").text
        number += 1
    assert number > 4
    assert client.get(f"/desk/talks/sheets/{number + 1}").status_code == 404


def test_the_race_is_run_with_what_the_room_says(client: FlaskClient) -> None:
    number = 1
    while f"/desk/talks/sheets/{number + 1}" in client.get(f"/desk/talks/sheets/{number}").text:
        number += 1
    plain = client.get(f"/desk/talks/sheets/{number}").text
    assert "Needed:" not in plain
    raced = client.get(f"/desk/talks/sheets/{number}?says=120+mm").text
    assert "the room: 120 mm" in raced
    assert "Needed:" in raced
    assert "no unit" in client.get(f"/desk/talks/sheets/{number}?says=120").text


def test_without_a_topic_or_a_talk_there_is_nothing_to_show(plant: Plant) -> None:
    client = plant.client("rosalind")
    assert client.get("/desk/talks/door").status_code == 404
    assert post(client, "/desk/talks", {"item": ""}).status_code == 404
    assert post(client, "/desk/talks", {"item": TALK, "drill": "no-such"}).status_code == 404


def test_every_scenario_can_be_opened(plant: Plant) -> None:
    client = plant.client("rosalind")
    for scenario in plant.site.bank.scenarios:
        post(client, "/desk/talks", {"item": scenario})
        assert client.get("/desk/talks/sheets/1").status_code == 200
