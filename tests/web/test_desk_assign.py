"""Giving a programme to people: who is concerned is seen before it is done."""

from typing import Any

import pytest
from records.site import INDUCTION, REFRESHER
from web.plant import Plant, post

from trainer.records import ledger
from trainer.records.chain import EntryKind


def assigned(plant: Plant) -> list[Any]:
    with plant.site.record.reading() as r:
        return list(ledger.entries(r, kind=EntryKind.ASSIGNED))


def ticked(page: str) -> int:
    return page.count(" checked>")


@pytest.fixture
def crew(plant: Plant) -> Plant:
    plant.authorise("00230", "Søren Dahlgaard", "Night", days=380)
    plant.authorise("00231", "Bo Lind", "Night", days=330)
    plant.authorise("00218", "Jun Watanabe-Reyes", "Night", days=20)
    return plant


def test_those_who_need_it_are_ticked_and_the_rest_are_not(crew: Plant) -> None:
    page = crew.client("rosalind").get(f"/desk/assign?programme={REFRESHER}&machine=PB-1&shift=Night").text
    assert "3 people fit, 2 need it." in page
    assert ticked(page) == 2


def test_nothing_is_listed_before_a_programme_and_people_are_chosen(crew: Plant) -> None:
    client = crew.client("rosalind")
    for query in ("", f"?programme={REFRESHER}", "?shift=Night"):
        assert "Assign to those ticked" not in client.get(f"/desk/assign{query}").text


def test_the_act_of_a_line_fills_in_the_refresher_of_the_role(crew: Plant) -> None:
    with crew.site.record.reading() as r:
        key = next(entry.person for entry in ledger.entries(r, kind=EntryKind.PRACTICAL_SIGNED))
    page = crew.client("rosalind").get(f"/desk/assign?person={key}&machine=PB-1&kind=refresher").text
    assert f'<option value="{REFRESHER}" selected>' in page
    assert ticked(page) == 1


def test_an_assignment_makes_one_entry_each_and_shows_them(crew: Plant) -> None:
    client = crew.client("rosalind")
    before = len(assigned(crew))
    of = f"/desk/assign?programme={REFRESHER}&machine=PB-1&shift=Night"
    with crew.site.record.reading() as r:
        people = [entry.person for entry in ledger.entries(r, kind=EntryKind.PRACTICAL_SIGNED)][:2]
    form = {"programme": REFRESHER, "machine": "PB-1", "people": [*people, people[0]], "reason": "it is due"}
    answer = post(client, "/desk/assign", form, of=of)
    assert answer.status_code == 303
    made = assigned(crew)[before:]
    assert [entry.person for entry in made] == people
    assert made[0].body == {"programme": REFRESHER, "reason": "it is due", "machine": "PB-1"}
    assert made[0].by == crew.site.trainer
    page = client.get(answer.location).text
    assert "Assigned to 2 people" in page
    assert made[0].reference in page
    assert "Assigned already." in client.get(of).text


@pytest.mark.parametrize(
    ("changed", "told"),
    [
        ({"people": []}, "Nobody is ticked"),
        ({"reason": "because"}, "Choose the reason from the list"),
        ({"programme": "no-such"}, ""),
        ({"people": ["ffff"]}, ""),
        ({"machine": "PB-9"}, ""),
    ],
)
def test_a_wrong_assignment_enters_nothing(crew: Plant, changed: dict[str, Any], told: str) -> None:
    before = len(assigned(crew))
    form = {"programme": REFRESHER, "people": [crew.site.learner], "reason": "it is due", "shift": "Night"} | changed
    answer = post(
        crew.client("rosalind"), "/desk/assign", form, of="/desk/assign?programme=" + INDUCTION + "&shift=Early"
    )
    assert 400 <= answer.status_code < 500
    assert told in answer.text
    assert len(assigned(crew)) == before


def test_what_was_assigned_names_only_assignments(crew: Plant) -> None:
    client = crew.client("rosalind")
    assert "Assigned to 0 people" in client.get("/desk/assigned?first=1&last=1").text
    assert client.get("/desk/assigned?first=900&last=901").status_code == 404
    assert client.get(f"/desk/assigned?first={10**30}&last={10**31}").status_code == 404
