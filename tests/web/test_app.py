"""What holds for every page: headers, cookies, sessions that really end, errors in one plain sheet."""

import stat

import pytest
from flask import Flask
from web.plant import PASSWORD, Plant, csrf

from trainer.settings import read_settings
from trainer.web.access import doors, init_app
from trainer.web.secrets import session_key


def test_every_answer_forbids_foreign_code_framing_and_keeping(plant: Plant):
    for address in ("/", "/sign-in", "/no-such-sheet", "/desk/"):
        headers = plant.client().get(address).headers

        assert "script-src 'self'" in headers["Content-Security-Policy"]
        assert "unsafe" not in headers["Content-Security-Policy"]
        assert headers["X-Frame-Options"] == "DENY"
        assert headers["X-Content-Type-Options"] == "nosniff"
        assert headers["Cache-Control"] == "no-store"


def test_the_session_cookie_is_hidden_from_scripts_and_other_sites(plant: Plant):
    cookie = plant.client("rosalind").get_cookie("session")

    assert cookie.http_only
    assert cookie.same_site == "Lax"


def test_signing_in_starts_a_new_session_and_a_copied_cookie_dies_with_the_sign_out(plant: Plant):
    client = plant.client()
    client.get("/sign-in")
    before = client.get_cookie("session").value
    form = {"login": "rosalind", "password": PASSWORD, "csrf_token": csrf(client.get("/sign-in").text)}
    client.post("/sign-in", data=form)
    signed_in = client.get_cookie("session").value
    assert signed_in != before

    token = csrf(client.get("/desk/people").text)
    client.post("/sign-out", data={"csrf_token": token})
    thief = plant.app.test_client()
    thief.set_cookie("session", signed_in)
    assert thief.get("/desk/").status_code == 303


def test_a_form_without_its_token_changes_nothing(plant: Plant):
    answer = plant.client().post("/sign-in", data={"login": "rosalind", "password": PASSWORD})

    assert answer.status_code == 400
    assert "open too long" in answer.text


def test_a_wrong_password_says_the_same_as_an_unknown_login(plant: Plant):
    told = set()
    for login in ("rosalind", "nobody-of-that-name"):
        client = plant.client()
        form = {"login": login, "password": "a wrong password", "csrf_token": csrf(client.get("/sign-in").text)}
        answer = client.post("/sign-in", data=form)
        assert answer.status_code == 422
        told.add(answer.text.replace(login, "").replace(csrf(answer.text), ""))

    assert len(told) == 1


@pytest.mark.parametrize(
    "wanted", ["//elsewhere.example/desk", "https://elsewhere.example/", "/\\elsewhere", "javascript:x"]
)
def test_the_way_back_after_the_sign_in_never_leaves_the_house(plant: Plant, wanted: str):
    client = plant.client()
    form = {"login": "rosalind", "password": PASSWORD, "to": wanted, "csrf_token": csrf(client.get("/sign-in").text)}

    assert client.post("/sign-in", data=form).headers["Location"] == "/desk/"


def test_the_language_changes_on_the_sheet_where_one_is(plant: Plant):
    client = plant.client("rosalind")
    page = client.get("/desk/people?sort=name").text
    answer = client.post(
        "/language", data={"language": "es", "back": "/desk/people?sort=name", "csrf_token": csrf(page)}
    )

    assert answer.headers["Location"] == "/desk/people?sort=name"
    assert '<html lang="es">' in client.get("/desk/people").text


@pytest.mark.parametrize("back", ["//elsewhere.example", "https://elsewhere.example/desk", "", "/static/x"])
def test_changing_the_language_never_leaves_the_house(plant: Plant, back: str):
    client = plant.client()
    token = csrf(client.get("/sign-in").text)

    answer = client.post("/language", data={"language": "es", "back": back, "csrf_token": token})
    assert answer.headers["Location"] == "/sign-in"


@pytest.mark.parametrize(("address", "status"), [("/no-such-sheet", 404), ("/desk/no-such-sheet", 404)])
def test_an_error_is_a_plain_sheet_with_a_way_out(plant: Plant, address: str, status: int):
    answer = plant.client().get(address)

    assert answer.status_code == status
    assert "<h1>" in answer.text
    assert "Traceback" not in answer.text


def test_an_application_with_an_unguarded_view_does_not_start():
    app = Flask(__name__)
    app.add_url_rule("/loose", "loose", lambda: "")

    with pytest.raises(LookupError, match="loose"):
        init_app(app)


def test_a_view_cannot_be_for_a_role_that_does_not_exist():
    with pytest.raises(ValueError, match="operator"):
        doors.needs("operator")


def test_the_signing_key_is_made_once_and_only_its_owner_may_read_it(tmp_path):
    settings = read_settings({}, data=str(tmp_path / "data"))
    key = session_key(settings)

    assert session_key(settings) == key
    assert len(key) == 64
    assert stat.S_IMODE((tmp_path / "data" / "session.key").stat().st_mode) == 0o600
    assert session_key(read_settings({}, data=str(tmp_path), secret="given")) == "given"
