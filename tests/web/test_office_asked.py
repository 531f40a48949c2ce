"""The paper as it looked then: from the entry and the content that was kept, whatever the bank says today."""

import io
from dataclasses import replace

from pypdf import PdfReader
from web.plant import Plant

from trainer.bank import archive


def test_a_paper_is_shown_as_it_was_after_the_bank_has_changed(plant: Plant) -> None:
    entry = plant.take(plant.site.learner)
    bank = plant.site.bank
    asked = next(item for item in entry.body["items"] if item["kind"] == "question" and item["order"])
    question = bank.questions[asked["item"]]
    words = [question.option(ident).text.in_("en") for ident in asked["order"]]
    said = question.asked.in_("en")
    changed = archive.from_bytes(archive.to_bytes(bank).replace(said.encode(), b"Something else now?"))
    assert changed.questions[asked["item"]].asked.in_("en") == "Something else now?"
    rooms = plant.app.extensions["trainer"]
    plant.app.extensions["trainer"] = replace(rooms, bank=changed)

    client = plant.client("harriet")
    assert f"/office/entries/{entry.number}/paper" in client.get(f"/office/entries/{entry.number}").text
    page = client.get(f"/office/entries/{entry.number}/paper")
    assert page.status_code == 200
    assert said in page.text
    assert "Something else now?" not in page.text
    zone = page.text.split(f"{asked['item']} version", 1)[1].split("</section>", 1)[0]
    places = [zone.index(one) for one in words]
    assert places == sorted(places)
    assert str(entry.body["seed"]) in page.text

    pdf = client.get(f"/office/entries/{entry.number}/paper.pdf")
    text = "\n".join(sheet.extract_text() for sheet in PdfReader(io.BytesIO(pdf.data)).pages)
    assert entry.reference in text
    assert " ".join(said.split()[:3]) in text


def test_an_entry_of_another_kind_has_no_paper(plant: Plant) -> None:
    client = plant.client("harriet")
    assert client.get("/office/entries/1/paper").status_code == 404
    assert "/office/entries/1/paper" not in client.get("/office/entries/1").text
