"""My record at the kiosk: three taps from the start, one's own standing with its dates, what is open, what is written."""

import re

import pytest
from web.glass import Glass
from web.plant import PIN, Plant

from trainer.records import asking


@pytest.fixture
def glass(plant: Plant) -> Glass:
    plant.at(60)
    plant.site.sit(plant.site.learner)
    plant.site.show(plant.site.learner)
    glass = Glass(plant, plant.client())
    glass.sign_in()
    return glass


def test_the_record_is_three_taps_from_the_start_and_has_its_dates(glass):
    assert 'href="/record"' in glass.client.get("/sheets").text
    page = glass.client.get("/record").text

    assert re.search(r"<b>PB-1</b> operator</th>\s*<td[^>]*>8 Jan 2026</td><td[^>]*>8 Jan 2026</td>", page)
    assert "Authorised" in page
    assert "until" in page


def test_what_is_open_is_told_with_questions_that_wait(glass):
    with glass.plant.site.record.writing() as w:
        asking.ask(w, person=glass.plant.site.learner, kiosk="kiosk 1", words="Why?")
    page = glass.client.get("/record").text

    assert "Your question Q-001" in page
    assert "not answered yet" in page


def test_every_entry_is_told_and_nobody_else_is_named(glass):
    first = glass.client.get("/record/entries/1").text
    assert "Practical at PB-1 signed" in first
    assert "8 Jan 2026" in first
    assert "Rosalind" not in first
    assert glass.client.get("/record/entries/9").status_code == 404


def test_of_whom_nothing_is_known_nothing_is_told(glass):
    glass.plant.add("00248", "Zoë O’Brien", pin=PIN)
    other = Glass(glass.plant, glass.plant.client())
    other.sign_in("00248")

    assert "Nothing is on record for you yet." in other.client.get("/record").text
    assert "PB-1" not in other.client.get("/record/entries/1").text
