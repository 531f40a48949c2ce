"""The desk's sheet of one machine: far enough or not, what is missing, readings and facts entered there."""

import pytest
from web.plant import Plant, post

from trainer.records import machines

SHEET = "/desk/machines/PB-1"
FACTS = {
    "distance-rule": "ansi-presence-sensing",
    "mounted-distance": "345 mm",
    "measure-every": "182 days",
    "control-response": "20 ms",
    "device-response": "15 ms",
    "monitor-allowance": "25 ms",
    "object-sensitivity": "14 mm",
}


@pytest.fixture
def filed(plant: Plant) -> Plant:
    with plant.site.record.writing() as w:
        for key, value in FACTS.items():
            machines.note_fact(w, "PB-1", key, value, by=None)
    return plant


def test_what_is_not_on_file_is_named_and_nothing_is_judged(plant: Plant) -> None:
    page = plant.client("rosalind").get(SHEET).text

    assert "Cannot be judged: something is not on file." in page
    for name in ("Rule that the distance is worked out by", "Distance as mounted", "How often the stopping time"):
        assert name in page


def test_a_reading_is_entered_and_judged_against_the_mounted_distance(filed: Plant) -> None:
    client = filed.client("rosalind")
    assert "Cannot be judged: never measured." in client.get(SHEET).text

    assert (
        post(
            client, f"{SHEET}/readings", {"time": "126 ms; 128 ms", "on": "", "note": "warm oil"}, of=SHEET
        ).status_code
        == 303
    )
    page = client.get(SHEET).text
    assert "Far enough." in page
    assert "It needs 325 mm and stands at 345 mm, by a stopping time of 128 ms." in page  # 1.6002 × 188 + 23.76
    assert "warm oil" in page
    assert "Rosalind Achterberg" in page
    assert "<svg" in page


def test_a_brake_that_got_slower_is_called_out_on_its_sheet_and_at_the_top_of_the_week(filed: Plant) -> None:
    client = filed.client("rosalind")
    post(client, f"{SHEET}/readings", {"time": "150 ms", "on": "", "note": ""}, of=SHEET)

    assert "Mounted too close. Stop using the machine." in client.get(SHEET).text
    week = client.get("/desk/").text
    assert "mounted too close" in week
    assert "It needs 360 mm and stands at 345 mm. Stop using it." in week  # 1.6002 × 210 + 23.76 = 359.8
    assert "Mounted too close" in client.get("/desk/machines").text


@pytest.mark.parametrize(
    ("form", "fields", "said"),
    [("readings", {"time": "150", "on": "", "note": ""}, "no unit"),
     ("readings", {"time": " ", "on": "", "note": ""}, "with its unit"),
     ("readings", {"time": "150 ms", "on": "2999-01-01", "note": ""}, "lies ahead"),
     ("readings", {"time": "150 ms", "on": "yesterday or so", "note": ""}, "is not a day"),
     ("facts", {"key": "mounted-distance", "value": "345", "found": ""}, "no unit"),
     ("facts", {"key": "distance-rule", "value": "my own", "found": ""}, "not a rule"),
     ("facts", {"key": "measure-every", "value": "often", "found": ""}, "not a number of days")],
)  # fmt: skip
def test_a_refusal_says_what_would_be_right_and_keeps_what_was_typed(filed: Plant, form, fields, said) -> None:
    client = filed.client("rosalind")
    answer = post(client, f"{SHEET}/{form}", fields, of=SHEET)

    assert answer.status_code == 400
    assert said in answer.text
    assert f'value="{fields.get("time") or fields.get("value")}"' in answer.text


def test_a_machine_that_is_not_there_is_not_found(plant: Plant) -> None:
    assert plant.client("rosalind").get("/desk/machines/PB-9").status_code == 404
