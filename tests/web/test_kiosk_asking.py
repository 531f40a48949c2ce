"""Ask at the kiosk: kept once, put to a named trainer, answered at the desk, shown when one signs in again."""

import re

import pytest
from web.glass import Glass
from web.plant import Plant, post

from trainer.records import asking


@pytest.fixture
def glass(plant: Plant) -> Glass:
    glass = Glass(plant, plant.client())
    glass.sign_in()
    return glass


def ask(glass, **form):
    page = glass.client.get("/ask").text
    key = re.search(r'name="key"[^>]*value="([^"]+)"', page)[1]
    return glass.post("/ask", {"key": key, "wish": "explain", "words": "", **form}, of="/ask")


def kept(glass):
    with glass.plant.site.record.reading() as r:
        return asking.questions(r)


def test_a_question_is_put_to_the_trainer_of_the_shift_and_told_its_number(glass):
    assert "Rosalind" in glass.client.get("/ask").text
    answer = ask(glass, wish="own", words="Why 7 mm?")

    assert answer.headers["Location"] == "/ask/kept"
    assert "Q-001" in glass.client.get("/ask/kept").text
    (row,) = kept(glass)
    assert (row.words, row.person, row.to) == ("Why 7 mm?", glass.plant.site.learner, glass.plant.site.trainer)


def test_a_question_goes_with_the_sheet_that_was_on_the_glass(glass):
    row = glass.begin()
    here = f"/sittings/{row.id}/1"
    glass.post("/aside", {"to": "ask", "back": here}, of=here)
    ask(glass)

    assert kept(glass)[0].about == row.paper["sheets"][0]["item"]
    assert glass.post("/ask/done", of="/ask").headers["Location"] == here


def test_the_same_question_sent_twice_is_kept_once(glass):
    for _ in range(2):
        ask(glass, key="same")

    assert len(kept(glass)) == 1


@pytest.mark.parametrize("form", [{"wish": "own", "words": " "}, {"wish": "other"}, {"words": "x" * 241}])
def test_what_says_nothing_or_too_much_is_refused_and_stays(glass, form):
    answer = ask(glass, **form)

    assert answer.status_code in {400, 422}
    assert 'role="alert"' in answer.text
    assert kept(glass) == []


def test_only_who_signed_in_can_ask(plant):
    stranger = Glass(plant, plant.client())

    assert stranger.client.get("/ask").headers["Location"] == "/"
    assert 'value="ask"' not in stranger.client.get("/").text


def test_a_question_in_progress_survives_a_change_of_language(glass):
    glass.post("/aside", {"to": "language:es", "back": "/ask", "words": "Why 7", "wish": "own"}, of="/ask")
    page = glass.client.get("/ask").text

    assert "Why 7" in page
    assert re.search(r'value="own" checked', page)


def test_the_desk_answers_and_who_asked_reads_it_at_the_next_sign_in(glass):
    ask(glass, wish="own", words="Why <b>7</b> mm?")
    desk = glass.plant.client("rosalind")
    assert "Why &lt;b&gt;7&lt;/b&gt; mm?" in desk.get("/desk/reports").text
    assert "/desk/asked/1" in desk.get("/desk/").text
    assert post(desk, "/desk/asked/1", {"words": " "}).status_code == 400
    assert post(desk, "/desk/asked/1", {"words": "It is a finger's depth."}).status_code == 303
    assert "Not read yet." in desk.get("/desk/asked/1").text

    glass.post("/leave", of="/sheets")
    glass.sign_in()
    page = glass.client.get("/answers").text
    assert "It is a finger&#39;s depth." in page
    assert "Rosalind" in page
    assert glass.post("/answers/1", of="/answers").headers["Location"] == "/answers"
    assert glass.client.get("/answers").headers["Location"] == "/sheets"
    assert "Read by who asked." in desk.get("/desk/asked/1").text
    assert "/desk/asked/1" not in desk.get("/desk/").text


def test_somebody_elses_answer_is_not_shown(glass):
    ask(glass)
    post(glass.plant.client("rosalind"), "/desk/asked/1", {"words": "Come to me at nine."})
    glass.plant.add("00248", "Zoë O’Brien", pin="7304")
    other = Glass(glass.plant, glass.plant.client())
    other.sign_in("00248")

    assert other.client.get("/answers").headers["Location"] == "/sheets"
    assert other.post("/answers/1", of="/sheets").status_code == 404
