"""What answers show about questions and papers, at the desk."""

from dataclasses import replace

import pytest
from web.plant import Plant, csrf

from trainer.assessment.itemstats import Doubt
from trainer.records import items


def test_before_anybody_answered_the_sheet_says_so(plant: Plant) -> None:
    page = plant.client("rosalind").get("/desk/questions").text
    assert "Nobody has handed in a paper yet." in page
    assert "No question was answered yet." in page


@pytest.fixture
def asked(plant: Plant) -> Plant:
    plant.take(plant.site.learner)
    return plant


def test_each_question_is_listed_with_its_interval_and_that_there_are_few_answers(asked: Plant) -> None:
    page = asked.client("rosalind").get("/desk/questions").text
    assert "0 questions are in doubt." in page
    assert "have too few answers to judge by." in page
    assert "1 of 1<br>" in page
    assert "20 to 100 of 100" in page  # Wilson: 1 / (1 + 1.96²) = .2065, rounded down
    assert "Too few answers to judge by: 1 of the 50 that it takes." in page
    assert "How steady the pass marks are" in page


def test_a_question_has_a_sheet_with_its_options_in_words(asked: Plant) -> None:
    client = asked.client("rosalind")
    with asked.site.record.reading() as r:
        found = items.findings(r, asked.site.bank)
    chosen = next(one for one in found.items if one.options)
    page = client.get(f"/desk/questions/{chosen.item}").text
    key = asked.site.bank.questions[chosen.item].key.text.in_("en")
    assert f"<h1>{chosen.item} " in page
    assert key in page
    assert '<td data-name="Of the best 27 of 100"></td>' in page, "one person is no group"


def test_a_question_that_nobody_was_asked_is_not_found(asked: Plant) -> None:
    answer = asked.client("rosalind").get("/desk/questions/PB-S99/q1")
    assert answer.status_code == 404
    assert "Nobody was asked PB-S99/q1 yet." in answer.text


def test_a_doubt_is_said_in_words_and_a_slip_by_its_title(asked: Plant, monkeypatch: pytest.MonkeyPatch) -> None:
    with asked.site.record.reading() as r:
        found = items.findings(r, asked.site.bank)
    drill = next(one for one in found.items if one.item.startswith("PB-D"))
    code = asked.site.bank.computed[drill.item].slips[0]
    worse = replace(drill, statistics=replace(drill.statistics, doubts=(Doubt.KEY,), note=None), mistakes=((code, 7),))
    monkeypatch.setattr(items, "findings", lambda *_: items.Findings(items=(worse,), papers=found.papers))
    client = asked.client("rosalind")
    assert "1 question is in doubt." in client.get("/desk/questions").text
    page = client.get(f"/desk/questions/{drill.item}").text
    assert "Check the key and the wording." in page
    assert f"<dt>{code}</dt>" not in page
    assert "<dd>7</dd>" in page


def test_it_speaks_spanish(asked: Plant) -> None:
    client = asked.client("rosalind")
    token = csrf(client.get("/desk/questions").text)
    client.post("/language", data={"language": "es", "back": "/desk/questions", "csrf_token": token})
    page = client.get("/desk/questions").text
    assert "Qué muestran las respuestas sobre las preguntas" in page
    assert "Muy pocas respuestas para juzgar: 1 de las 50 que hacen falta." in page


def test_only_a_trainer_sees_it(asked: Plant) -> None:
    assert asked.client("harriet").get("/desk/questions").status_code == 403


def test_a_person_is_told_how_many_right_answers_would_settle_a_competency(asked: Plant) -> None:
    page = asked.client("rosalind").get(f"/desk/people/{asked.site.learner}").text
    assert "more right answers in a row settle it." in page
