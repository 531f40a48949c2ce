"""Requests about own data, taking an identity out and retention, at the office: seen before done, nothing lost."""

import io
import re
import zipfile

import pytest
from web.plant import Plant, post

from trainer.records import people
from trainer.records.privacy import holds, requests, rules


@pytest.fixture
def leaver(plant: Plant) -> str:
    key = plant.authorise("00231", "Bo Lind", days=40)
    with plant.site.record.writing() as w:
        people.leave(w, key, on=w.today(), by=plant.site.officer)
    plant.at(10)
    return key


def test_a_request_has_its_due_day_and_a_copy_answers_it(plant: Plant) -> None:
    client = plant.client("harriet")
    told = {"number": "00241", "wish": "copy", "received": "2026-01-31", "note": "Asked at the gate"}
    assert "00999" in post(client, "/office/requests", told | {"number": "00999"}).text
    assert post(client, "/office/requests", told).status_code == 303
    sheet = client.get("/office/requests").text
    assert "28 Feb 2026" in sheet  # a month after 31 January: the last day of February
    assert "9 days overdue" in sheet
    assert "1 request is open" in client.get("/office/").text
    copy = post(client, f"/office/people/{plant.site.learner}/copy.zip", {}, of="/office/requests")
    with zipfile.ZipFile(io.BytesIO(copy.data)) as packed:
        assert any("Dana Ruiz" in packed.read(name).decode() for name in packed.namelist())
    assert "No request is open" in client.get("/office/requests").text


def test_a_request_is_answered_in_words_once(plant: Plant) -> None:
    client = plant.client("harriet")
    with plant.site.record.writing() as w:
        row = requests.receive(w, person=plant.site.learner, kind="objection", received_on=w.today())
    address = f"/office/requests/{row.id}"
    assert "Say why" in post(client, address, {"words": " "}, of="/office/requests").text
    assert post(client, address, {"words": "The camera is gone"}, of="/office/requests").status_code == 303
    again = post(client, address, {"words": "Twice"}, of="/office/requests")
    assert (again.status_code, "was answered on" in again.text) == (409, True)


def test_an_identity_goes_only_when_the_consequences_were_seen_and_the_number_was_written(
    plant: Plant, leaver: str
) -> None:
    client, address = plant.client("harriet"), f"/office/people/{leaver}/erase"
    page = client.get(address).text
    assert "No rule says how long to keep" in page
    assert "under a key that says nothing" in page
    told = {"reason": "Asked for on 2 March", "number": "00231", "force": "yes"}
    missing = post(client, address, told | {"number": "00230"})
    assert (missing.status_code, "Asked for on 2 March" in missing.text) == (400, True)
    assert "No rule says" in post(client, address, told | {"force": ""}).text
    assert post(client, address, told).status_code == 303
    assert "Bo Lind" not in client.get(f"/office/people/{leaver}").text


def test_who_is_here_or_held_is_never_taken_out(plant: Plant, leaver: str) -> None:
    client = plant.client("harriet")
    address, told = f"/office/people/{leaver}/acts/hold", {"reason": "Case 12"}
    seen = re.search(r'name="seen" value="([0-9a-f]+)"', post(client, address, told | {"act": "look"}).text)
    assert seen
    assert post(client, address, told | {"act": "enter", "seen": seen[1]}).status_code == 303
    for key, number in ((leaver, "00231"), (plant.site.learner, "00241")):
        page = client.get(f"/office/people/{key}/erase").text
        assert "It cannot be done" in page
        form = {"reason": "x", "number": number, "force": "yes"}
        assert post(client, f"/office/people/{key}/erase", form, of="/office/requests").status_code == 409
    assert "/acts/lift" in client.get(f"/office/people/{leaver}").text


def test_retention_removes_what_was_looked_at_and_nobody_under_a_hold(plant: Plant, leaver: str) -> None:
    client = plant.client("harriet")
    assert "No rule is set" in client.get("/office/retention").text
    bad = post(
        client,
        "/office/retention/rules",
        {"kind": "identity", "years": "two", "from": "leaving"},
        of="/office/retention",
    )
    assert "whole number" in bad.text
    for kind in ("identity", "entries"):
        form = {"kind": kind, "years": "0", "from": "leaving", "reason": "Policy 7"}
        assert post(client, "/office/retention/rules", form, of="/office/retention").status_code == 303
    page = client.get("/office/retention").text
    assert "Have had their time: 1" in page
    seen = re.search(r'name="seen" value="([0-9a-f]+)"', page)
    assert seen
    unsure = post(client, "/office/retention", {"seen": seen[1]}, of="/office/requests")
    assert "Tick that you have looked" in unsure.text
    with plant.site.record.writing() as w:
        holds.set_hold(w, leaver, by=plant.site.officer, reason="Case 12")
    stale = post(client, "/office/retention", {"seen": seen[1], "sure": "yes"}, of="/office/requests")
    assert "Look at it, then enter it" in stale.text
    assert "Kept by a legal hold: 1" in client.get("/office/retention").text
    with plant.site.record.writing() as w:
        holds.lift_hold(w, leaver, by=plant.site.officer, reason="Closed")
    assert post(client, "/office/retention", {"seen": seen[1], "sure": "yes"}, of="/office/requests").status_code == 303
    after = client.get("/office/retention").text
    assert "Bo Lind" not in after
    assert "Removed so far" in after


def test_a_day_ahead_can_be_looked_at_but_not_done(plant: Plant, leaver: str) -> None:
    with plant.site.record.writing() as w:
        for kind in ("identity", "entries"):
            rules.set_rule(w, kind=kind, years=1, counts_from="leaving", by=plant.site.officer, reason="Policy 7")
    client = plant.client("harriet")
    ahead = client.get("/office/retention", query_string={"day": "2027-06-01"}).text
    assert "Have had their time: 1" in ahead
    assert "Only what has had its time today" in ahead
    assert client.get("/office/retention", query_string={"day": "3/4/2027"}).status_code == 400
