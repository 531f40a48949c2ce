"""Who judged and by what right, and what asks for a second look: the sheets and their files."""

import csv
import io

from web.plant import Plant


def test_evaluators_are_shown_with_each_sign_off_and_its_right(plant: Plant) -> None:
    key = plant.authorise("00230", "Søren Dahlgaard")
    client = plant.client("harriet")
    assert "Who judged, and by what right?" in client.get("/office/").text
    page = client.get("/office/judges").text
    assert "Rosalind Achterberg" in page
    assert "Appointed by the plant manager." in page
    assert "1 practical signed" in page
    one = client.get(f"/office/judges/{plant.site.trainer}").text
    assert "Søren Dahlgaard" in one
    assert client.get(f"/office/judges/{key}").status_code == 404
    assert client.get("/office/judges?day=tomorrowish").status_code == 422
    ((row),) = csv.DictReader(io.StringIO(client.get("/office/judges.csv").data.decode("utf-8-sig")))
    assert (row["person number"], row["evaluator number"], row["counts"]) == ("00230", "00101", "yes")
    assert row["basis"] == "Appointed by the plant manager."


def test_what_asks_for_a_second_look_is_listed_by_kind_and_as_a_file(plant: Plant) -> None:
    plant.add("00300", "Dana Ruiz")
    client = plant.client("harriet")
    page = client.get("/office/quality").text
    assert "People of one name" in page
    assert "No badge or no PIN" not in client.get("/office/quality?kind=namesakes").text.split("<section", 1)[1]
    rows = list(csv.DictReader(io.StringIO(client.get("/office/quality.csv").data.decode("utf-8-sig"))))
    assert {row["person number"] for row in rows if row["kind"] == "namesakes"} == {"00241", "00300"}
