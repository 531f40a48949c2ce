"""Telling what happened: whom it concerns is seen before it is entered, and what is entered is what was seen."""

import re
from typing import Any

import pytest
from flask.testing import FlaskClient
from web.plant import Plant, post

from trainer.records import assignments, concerned, dues, ledger, machines, people
from trainer.records.chain import EntryKind
from trainer.records.concerned import briefs
from trainer.records.standing import standing
from trainer.web.desk.happened import happened_at

INCIDENT, CHANGE = "press-brake-rebrief-incident", "press-brake-rebrief-change"


@pytest.fixture
def crew(plant: Plant) -> Plant:
    with plant.site.record.writing() as w:
        machines.add(w, id="PB-2", kind="press-brake-hydraulic", name="Press brake 80 t")
        machines.add(w, id="FO-1", kind="folder", name="Folder")
    plant.authorise("00230", "Søren Dahlgaard", "Night", days=200)
    plant.authorise("00231", "Bo Lind", "Night", days=190)
    plant.at(100)
    other = plant.add("00232", "Mai Okafor", "Late")
    plant.site.sit(other)
    plant.site.show(other, machine="PB-2")
    return plant


def look(client: FlaskClient, **fields: str) -> Any:
    return post(client, "/desk/events", fields | {"act": "look"})


def enter(client: FlaskClient, page: str, **fields: Any) -> Any:
    seen = re.search(r'name="seen" value="([0-9a-f]+)"', page)
    assert seen
    form = {"people": re.findall(r'name="people" value="([0-9a-f]+)" checked', page)} | fields
    return post(client, "/desk/events", form | {"act": "enter", "seen": seen[1]})


def entries(plant: Plant, kind: EntryKind) -> list[Any]:
    with plant.site.record.reading() as r:
        return list(ledger.entries(r, kind=kind))


def key_of(plant: Plant, number: str) -> str:
    with plant.site.record.reading() as r:
        return people.with_number(r, number)[0].key


def test_an_incident_concerns_everybody_at_machines_of_the_kind_and_enters_nothing_yet(crew: Plant) -> None:
    before = len(entries(crew, EntryKind.ASSIGNED))
    page = look(crew.client("rosalind"), what="incident", machine="PB-1", note="Hand struck by the sheet").text
    assert "It concerns 4 people" in page  # the learner has PB-1 assigned; one works at PB-2
    for name in ("Søren Dahlgaard", "Bo Lind", "Mai Okafor", "Dana Ruiz"):
        assert name in page
    assert f'<option value="{INCIDENT}" selected>' in page
    assert len(entries(crew, EntryKind.ASSIGNED)) == before


def test_the_scope_narrows_it_to_the_machine(crew: Plant) -> None:
    page = look(crew.client("rosalind"), what="incident", machine="PB-1", note="A jam", scope="machine").text
    assert "It concerns 3 people" in page
    assert "Mai Okafor" not in page


def test_entering_an_incident_assigns_the_rebrief_where_each_one_stands(crew: Plant) -> None:
    client = crew.client("rosalind")
    told = {"what": "incident", "machine": "PB-1", "note": "Hand struck by the sheet"}
    before = len(entries(crew, EntryKind.ASSIGNED))
    answer = enter(client, look(client, **told).text, **told)
    assert answer.status_code == 303
    made = entries(crew, EntryKind.ASSIGNED)[before:]
    assert {one.body["programme"] for one in made} == {INCIDENT}
    assert {one.body["reason"] for one in made} == {"an incident at PB-1 on 2026-03-09: Hand struck by the sheet"}
    assert {one.body["due_on"] for one in made} == {"2026-03-16"}
    where = {one.person: one.body["machine"] for one in made}
    assert where[key_of(crew, "00232")] == "PB-2"
    assert where[key_of(crew, "00230")] == "PB-1"
    shown = client.get(answer.location).text
    assert "<b>4</b> programmes assigned." in shown
    assert made[0].reference in shown


def test_nobody_loses_or_gains_a_standing_by_a_rebrief(crew: Plant) -> None:
    client = crew.client("rosalind")
    told = {"what": "incident", "machine": "PB-1", "note": "A jam"}
    key = key_of(crew, "00232")

    def words() -> list[str]:
        with crew.site.record.reading() as r:
            return [
                standing(r, crew.site.bank, person=key, machine=machine, role="operator", on=r.today()).word.value
                for machine in ("PB-1", "PB-2")
            ]

    before = words()
    enter(client, look(client, **told).text, **told)
    assert words() == before == ["practical-pending", "authorised"]


def test_a_named_person_has_the_event_and_the_others_are_not_told_whose_it_was(crew: Plant) -> None:
    client = crew.client("rosalind")
    told = {"what": "incident", "machine": "PB-1", "number": "00231", "note": "Reached past the post"}
    enter(client, look(client, **told).text, **told)
    event = entries(crew, EntryKind.EVENT)[-1]
    assert (event.person, event.body["event"], event.body["machine"]) == (key_of(crew, "00231"), "incident", "PB-1")
    reasons = {one.body["reason"] for one in entries(crew, EntryKind.ASSIGNED)}
    assert "an incident at PB-1 on 2026-03-09" in reasons
    assert not any("Reached" in reason or "Lind" in reason for reason in reasons)


def test_an_unsafe_act_concerns_the_person_alone_unless_said_otherwise(crew: Plant) -> None:
    client = crew.client("rosalind")
    told = {"what": "unsafe-act", "machine": "PB-1", "number": "00230", "note": "Foot on the pedal while loading"}
    assert "It concerns 1 person" in look(client, **told).text
    assert "It concerns 3 people" in look(client, **told, scope="machine").text
    assert "It concerns 3 people" in look(client, **told, scope="shift").text


def test_a_person_of_another_role_is_proposed_the_brief_for_that_role(crew: Plant) -> None:
    setter = crew.add("00233", "Ivo Brandt", "Late")
    with crew.site.record.writing() as w:
        assignments.assign(
            w,
            person=setter,
            programme="press-brake-setter-induction",
            by=crew.site.trainer,
            reason="new setter",
            happened_on=crew.site.today(),
            machine="PB-2",
        )
    told = {"what": "unsafe-act", "machine": "PB-2", "number": "00233", "note": "Reached behind the die"}
    assert '<option value="press-brake-setter-rebrief" selected>' in look(crew.client("rosalind"), **told).text


def test_a_changed_machine_takes_the_standing_of_everybody_who_was_watched_there_ticked_or_not(crew: Plant) -> None:
    client = crew.client("rosalind")
    told = {"what": "machine-changed", "machine": "PB-1", "note": "New foot pedal"}
    page = look(client, **told).text
    assert "It concerns 2 people" in page
    assert "Dana Ruiz" not in page  # never watched there
    enter(client, page, **told, people=[])
    with crew.site.record.reading() as r:
        for number in ("00230", "00231"):
            found = standing(
                r, crew.site.bank, person=key_of(crew, number), machine="PB-1", role="operator", on=r.today()
            )
            assert not found.may_run
    assert not any(one.body["programme"] == CHANGE for one in entries(crew, EntryKind.ASSIGNED))


def test_a_moved_machine_counts_as_changed_and_asks_for_the_distance(crew: Plant) -> None:
    client = crew.client("rosalind")
    told = {"what": "machine-moved", "machine": "PB-1", "note": "To bay 3"}
    page = look(client, **told).text
    assert "Measure the distance and the stopping time" in page
    enter(client, page, **told)
    event = entries(crew, EntryKind.EVENT)[-1]
    assert (event.body["event"], event.body["note"]) == ("machine-changed", "Moved. To bay 3")
    assert "machine moved" in client.get("/desk/machines/PB-1").text


def test_those_who_left_are_counted_and_entered_too(crew: Plant) -> None:
    with crew.site.record.writing() as w:
        people.leave(w, key_of(crew, "00231"), on=crew.site.today(), by=crew.site.officer)
    client = crew.client("rosalind")
    told = {"what": "machine-changed", "machine": "PB-1", "note": "New foot pedal"}
    page = look(client, **told).text
    assert "1 who has left is entered too" in page
    enter(client, page, **told)
    events = [one for one in entries(crew, EntryKind.EVENT) if one.body["event"] == "machine-changed"]
    assert len(events) == 2


def test_an_absence_ends_what_was_passed_and_assigns_the_way_back(crew: Plant) -> None:
    client = crew.client("rosalind")
    told = {"what": "absence", "number": "00230", "note": "Away since 1 Nov"}
    enter(client, look(client, **told).text, **told)
    key = key_of(crew, "00230")
    with crew.site.record.reading() as r:
        assert not standing(r, crew.site.bank, person=key, machine="PB-1", role="operator", on=r.today()).may_run
        due = [row for row in dues.due_list(r, crew.site.bank, on=r.today()) if row.person == key]
    assert entries(crew, EntryKind.ASSIGNED)[-1].body["programme"] == "press-brake-return"
    assert due


@pytest.mark.parametrize(
    ("fields", "status", "said"),
    [
        ({"what": ""}, 400, "Choose what happened"),
        ({"what": "flood", "note": "x"}, 400, "Choose what happened"),
        ({"what": "incident", "note": "x"}, 400, "Choose the machine"),
        ({"what": "incident", "machine": "PB-9", "note": "x"}, 400, "There is no machine PB-9"),
        ({"what": "unsafe-act", "machine": "PB-1", "note": "x"}, 400, "number of the person"),
        ({"what": "unsafe-act", "machine": "PB-1", "number": "99999", "note": "x"}, 400, "has the number 99999"),
        ({"what": "incident", "machine": "PB-1", "note": " "}, 400, "in a few words"),
        ({"what": "incident", "machine": "PB-1", "note": "x", "on": "1 Jan 2999"}, 400, "lies ahead"),
    ],
)
def test_a_refusal_says_what_is_missing_and_keeps_what_was_typed(
    crew: Plant, fields: dict[str, str], status: int, said: str
) -> None:
    answer = look(crew.client("rosalind"), **fields)
    assert answer.status_code == status
    assert said in answer.text
    if fields.get("number"):
        assert f'value="{fields["number"]}"' in answer.text


def test_what_was_not_looked_at_is_not_entered(crew: Plant) -> None:
    client = crew.client("rosalind")
    told = {"what": "incident", "machine": "PB-1", "note": "A jam", "scope": "machine"}
    before = len(entries(crew, EntryKind.ASSIGNED))
    answer = enter(client, look(client, **told).text, **(told | {"scope": "kind"}))
    assert answer.status_code == 400
    assert "The list below is new." in answer.text
    assert "It concerns 4 people" in answer.text
    assert len(entries(crew, EntryKind.ASSIGNED)) == before


def test_an_event_that_would_enter_nothing_is_refused(crew: Plant) -> None:
    client = crew.client("rosalind")
    told = {"what": "incident", "machine": "PB-1", "note": "A jam"}
    answer = enter(client, look(client, **told).text, **told, people=[])
    assert answer.status_code == 400
    assert "Nothing would be entered" in answer.text


def test_an_incident_at_a_folder_brings_the_brief_for_folders(crew: Plant) -> None:
    told = {"what": "incident", "machine": "FO-1", "number": "00230", "note": "Pinched by the wing"}
    assert '<option value="folder-rebrief" selected>' in look(crew.client("rosalind"), **told).text


def test_a_kind_without_a_brief_can_still_be_told_with_a_person(crew: Plant, monkeypatch: pytest.MonkeyPatch) -> None:
    # The shipped bank briefs at each kind of machine; a bank of a plant's own need not.
    monkeypatch.setattr(
        concerned,
        "briefs",
        lambda bank, what="": [one for one in briefs(bank, what) if "folder" not in one.machine_kinds],
    )
    client = crew.client("rosalind")
    told = {"what": "incident", "machine": "FO-1", "number": "00230", "note": "Pinched by the wing"}
    page = look(client, **told).text
    assert "No programme is given with it." in page
    assert enter(client, page, **told).status_code == 303
    assert entries(crew, EntryKind.EVENT)[-1].body["machine"] == "FO-1"


def test_the_machine_says_how_many_have_been_briefed(crew: Plant) -> None:
    client = crew.client("rosalind")
    told = {"what": "incident", "machine": "PB-1", "note": "A jam", "scope": "machine"}
    enter(client, look(client, **told).text, **told)
    crew.site.sit(key_of(crew, "00230"), INCIDENT)
    with crew.app.test_request_context(), crew.site.record.reading() as r:
        rows = happened_at(r, "PB-1")
    assert [(row.what, row.note, row.people, row.done) for row in rows] == [
        ("incident or near miss", "A jam", "3 people", "1 of 3 briefed")
    ]


def test_the_persons_sheet_offers_what_can_be_told_of_somebody(crew: Plant) -> None:
    page = crew.client("rosalind").get(f"/desk/people/{key_of(crew, '00230')}").text
    assert 'name="number" value="00230"' in page
    assert "back after an absence" in page
    assert '<option value="machine-changed"' not in page
