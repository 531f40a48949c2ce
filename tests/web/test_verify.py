"""Anybody may ask for a code: it shows four things; what is none shows the same to everybody and makes them wait."""

from datetime import timedelta

import pytest
from web.plant import Plant

from trainer.exports.claims import Claim, code_of
from trainer.records import acts


@pytest.fixture
def code(plant: Plant) -> str:
    """Return the code of somebody who is authorised."""
    key = plant.authorise("00218", "Jun Watanabe-Reyes", "Late", days=100)
    plant.client()
    with plant.site.record.reading() as r:
        return code_of(r, Claim(person=key, name="Jun Watanabe-Reyes", machine="PB-1", role="operator"))


def test_a_code_shows_four_things_without_signing_in(plant: Plant, code: str) -> None:
    answer = plant.client().get(f"/verify/{code}")

    assert answer.status_code == 200
    for told in ("Jun Watanabe-Reyes", "press brake, hydraulic", "operator", "Authorised", "9 Mar 2026"):
        assert told in answer.text
    for hidden in ("00218", "PB-1", "Late", "L-", "2027", "Rosalind"):
        assert hidden not in answer.text
    assert "noindex" in answer.headers["X-Robots-Tag"]


def test_it_tells_todays_state(plant: Plant, code: str) -> None:
    with plant.site.record.writing() as w:
        (key,) = [row.person for row in _standing(plant)]
        acts.suspend(w, person=key, reason="Reached round.", by=plant.site.trainer, happened_on=w.today())

    page = plant.client().get(f"/verify/{code}").text
    assert "Not authorised" in page
    assert "Reached round" not in page


def _standing(plant: Plant):
    from trainer.records.standing import standings

    with plant.site.record.reading() as r:
        return [one for one in standings(r, plant.site.bank, on=r.today(), machine="PB-1") if one.may_run]


def test_every_code_that_is_none_gets_the_same_sheet(plant: Plant, code: str) -> None:
    near = ("1" if code[0] != "1" else "2") + code[1:]
    answers = [plant.client().get(f"/verify/{wrong}") for wrong in ("x", "7QK4-M2XD-0F9B", near, "é" * 60, "<b>")]

    assert {answer.status_code for answer in answers} == {404}
    assert len({answer.data for answer in answers}) == 1
    assert "Treat whoever shows it as not authorised" in answers[0].text


def test_whoever_tries_many_has_to_wait_and_gets_no_answer_meanwhile(plant: Plant, code: str) -> None:
    client = plant.client()
    statuses = [client.get(f"/verify/{number:012}").status_code for number in range(1, 24)]
    assert statuses[:20] == [404] * 20
    assert statuses[-1] == 429

    waiting = client.get(f"/verify/{code}")
    assert waiting.status_code == 429
    assert int(waiting.headers["Retry-After"]) > 0
    assert "Jun" not in waiting.text
    plant.site.clock.instant += timedelta(minutes=6)
    assert client.get(f"/verify/{code}").status_code == 200


def test_codes_that_are_good_never_make_anybody_wait(plant: Plant, code: str) -> None:
    client = plant.client()

    assert {client.get(f"/verify/{code}").status_code for _ in range(40)} == {200}


def test_a_code_can_be_typed(plant: Plant, code: str) -> None:
    client = plant.client()
    assert 'name="code"' in client.get("/verify").text
    answer = client.get("/verify", query_string={"code": f" {code.lower()} "}, follow_redirects=True)
    assert "Jun Watanabe-Reyes" in answer.text


def test_it_speaks_the_readers_language(plant: Plant, code: str) -> None:
    page = plant.client().get(f"/verify/{code}", headers={"Accept-Language": "es"}).text

    assert "Nombre, como está impreso" in page
    assert "plegadora hidráulica" in page
