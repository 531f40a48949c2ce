"""Minutes by person, and the page with what somebody should be able to explain."""

import csv
import io

from pypdf import PdfReader
from web.plant import Plant


def test_minutes_stand_by_name_and_as_a_file(plant: Plant) -> None:
    plant.authorise("00230", "Søren Dahlgaard", days=20)
    plant.authorise("00218", "Jun Watanabe-Reyes", "Late", days=10)
    client = plant.client("harriet")
    page = client.get("/office/minutes").text
    assert "4 minutes at papers, of 2 people." in page
    assert page.index("Jun Watanabe") < page.index("Søren Dahlgaard")  # by name, whatever the time
    assert "Søren" not in client.get("/office/minutes?shift=Late").text.split("<tbody>")[1]
    assert client.get("/office/minutes?first=9+Mar+2026&last=1+Mar+2026").status_code == 422
    rows = list(csv.DictReader(io.StringIO(client.get("/office/minutes.csv").data.decode("utf-8-sig"))))
    assert {(row["person number"], row["minutes at papers"]) for row in rows} == {("00230", "2"), ("00218", "2")}


def test_one_page_says_what_somebody_should_be_able_to_explain(plant: Plant) -> None:
    entry = plant.take(plant.site.learner)
    client = plant.client("harriet")
    assert "explain.pdf" in client.get(f"/office/people/{plant.site.learner}").text
    answer = client.get(f"/office/people/{plant.site.learner}/explain.pdf")
    pages = PdfReader(io.BytesIO(answer.data)).pages
    assert len(pages) == 1
    text = " ".join(pages[0].extract_text().split())
    assert "Dana Ruiz" in text
    assert entry.reference in text
    right = [item for item in entry.body["items"] if item["right"] and item["kind"] == "question" and item["critical"]]
    whys = [plant.site.bank.questions[item["item"]].why.in_("en") for item in right]
    assert sum(" ".join(why.split()[:3]) in text for why in whys) > 3
