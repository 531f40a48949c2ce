"""The office's papers: a way to each on the sheets of a person and a machine, and none for whoever is not authorised."""

import re
from html import unescape

import pytest
from exports.pdf.reading import pages, words
from web.plant import Plant

from trainer.records import acts

ASOF = "/office/authorised?machine=PB-1"


@pytest.fixture
def jun(plant: Plant) -> str:
    return plant.authorise("00218", "Jun Watanabe-Reyes", "Late", days=100)


def ways(page: str) -> list[str]:
    return [unescape(found) for found in re.findall(r'href="([^"]+\.pdf[^"]*)"', page)]


def test_every_way_to_a_persons_paper_leads_to_one_in_the_readers_language(plant: Plant, jun: str) -> None:
    client = plant.client("harriet")
    found = ways(client.get(f"/office/people/{jun}").text)

    assert [way.split("?")[0].rsplit("/", 1)[1] for way in found] == [
        "file.pdf",
        "explain.pdf",
        "certificate.pdf",
        "card.pdf",
    ]
    for way in found:
        answer = client.get(way, headers={"Accept-Language": "es"})
        assert answer.status_code == 200
        assert answer.mimetype == "application/pdf"
        assert "attachment" in answer.headers["Content-Disposition"]
        assert "Jun Watanabe-Reyes" in words(answer.data)
    assert "http://localhost/verify/" in words(client.get(found[2]).data)


def test_the_code_on_a_paper_leads_to_the_sheet_for_anybody(plant: Plant, jun: str) -> None:
    client = plant.client("harriet")
    certificate = client.get(ways(client.get(f"/office/people/{jun}").text)[2]).data
    code = re.search(r"/verify/([0-9A-Z-]{14})", words(certificate))
    assert code

    page = plant.client().get(f"/verify/{code[1]}").text
    assert "Jun Watanabe-Reyes" in page
    assert "Authorised" in page


def test_whoever_is_not_authorised_has_a_file_and_nothing_else(plant: Plant, jun: str) -> None:
    client = plant.client("harriet")
    with plant.site.record.writing() as w:
        acts.suspend(w, person=jun, reason="Reached round.", by=plant.site.trainer, happened_on=w.today())

    assert ["/certificate" in way or "/card" in way for way in ways(client.get(f"/office/people/{jun}").text)] == [
        False
    ] * 2
    refused = client.get(f"/office/people/{jun}/certificate.pdf?machine=PB-1&role=operator")
    assert refused.status_code == 409
    assert "no certificate and no card is made" in refused.text
    assert client.get(f"/office/people/{jun}/card.pdf").status_code == 404


def test_todays_list_can_be_posted_and_has_cards_another_days_cannot(plant: Plant, jun: str) -> None:
    client = plant.client("harriet")
    post, cards = ways(client.get(ASOF).text)
    assert "POST AT THE MACHINE" in words(client.get(post).data)
    assert len(pages(client.get(cards).data)) == 2

    (only,) = ways(client.get(f"{ASOF}&day=17+Feb+2026").text)
    assert "NOT TO BE POSTED" in words(client.get(only).data)
    assert client.get("/office/authorised.pdf?machine=PB-9").status_code == 404
    assert client.get("/office/authorised.pdf?machine=PB-1&day=x").status_code == 400
