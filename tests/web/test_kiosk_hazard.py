"""Report a hazard at the kiosk: by anybody, with a name or without, kept once."""

import re

import pytest
from web.glass import Glass
from web.plant import Plant

from trainer.records import hazards


@pytest.fixture
def glass(plant: Plant) -> Glass:
    return Glass(plant, plant.client())


def kept(glass):
    with glass.plant.site.record.reading() as r:
        return [(row.words, row.machine, row.person) for row in hazards.reports(r)]


def report(glass, **form):
    page = glass.client.get("/hazard").text
    key = re.search(r'name="key"[^>]*value="([^"]+)"', page)[1]
    return glass.post("/hazard", {"key": key, "machine": "PB-1", "named": "no", "kind": "hazard", **form}, of="/hazard")


def test_a_report_is_kept_without_a_name_and_told_its_number(glass):
    answer = report(glass, words="The left end cover is loose.")

    assert answer.headers["Location"] == "/hazard/kept"
    assert "H-001" in glass.client.get("/hazard/kept").text
    assert kept(glass) == [("The left end cover is loose.", "PB-1", None)]


def test_a_name_is_given_only_by_who_signed_in_and_wants_to(glass):
    report(glass, words="One", named="yes")
    glass.sign_in()
    report(glass, words="Two")
    report(glass, words="Three", named="yes")

    assert [row[2] for row in kept(glass)] == [None, None, glass.plant.site.learner]


def test_the_same_report_sent_twice_is_kept_once(glass):
    for _ in range(2):
        report(glass, words="Once", key="same")

    assert len(kept(glass)) == 1


@pytest.mark.parametrize(
    ("form", "told"),
    [
        ({"words": " "}, "Say what is wrong, in a few words."),
        ({"words": "x", "machine": "PB-99"}, "Not a valid choice"),
    ],
)
def test_a_report_that_says_nothing_is_not_kept(glass, form, told):
    answer = report(glass, **form)

    assert answer.status_code == 422
    assert told in answer.text
    assert kept(glass) == []


def test_words_in_progress_survive_a_change_of_language(glass):
    glass.post("/aside", {"to": "language:es", "back": "/hazard", "words": "The rod did not"}, of="/hazard")

    assert "The rod did not" in glass.client.get("/hazard").text


def test_markup_in_a_report_is_plain_text(glass):
    answer = report(glass, words="<script>x</script>", machine="PB-99")

    assert "<script>x" not in answer.text
    assert "&lt;script&gt;x" in answer.text


def test_the_sheet_leads_back_to_where_it_was_called_from(glass):
    glass.sign_in()
    glass.post("/aside", {"to": "hazard", "back": "/standing"}, of="/standing")

    assert glass.post("/hazard/done", of="/hazard").headers["Location"] == "/standing"


def test_a_place_on_the_drawing_goes_along_and_is_told_at_the_desk(glass):
    report(glass, words="The cover is loose.", place="D1")

    with glass.plant.site.record.reading() as r:
        (row,) = hazards.reports(r)
    assert (row.kind, row.place) == ("hazard", "D1")
    assert "D1: right of it, ram and tools" in glass.plant.client("rosalind").get("/desk/hazards/1").text


def test_a_suggestion_waits_for_this_week_and_warns_of_nothing(glass):
    report(glass, words="A second lamp would help.", kind="suggestion")
    desk = glass.plant.client("rosalind")

    week = desk.get("/desk/").text
    assert "suggestion H-001" in week
    assert "hazard report H-001" not in week
    assert "A suggestion." in desk.get("/desk/hazards/1").text
    assert "Suggestion: A second lamp would help." in desk.get("/desk/reports").text


@pytest.mark.parametrize("form", [{"place": "Z9"}, {"kind": "joke"}])
def test_what_is_not_on_the_sheet_is_refused(glass, form):
    assert report(glass, words="Once", **form).status_code == 422
    assert kept(glass) == []
