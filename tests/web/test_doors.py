"""Every route refuses every role that is not meant to have it.

The table is written by hand, beside and not from the marks on the views: a new route is refused to everybody but the
people of its door until it is named here.
"""

from collections.abc import Iterator
from datetime import timedelta

import pytest
from flask import session
from flask.testing import FlaskClient
from web.plant import KIOSK, NOW, Plant
from werkzeug.routing import Rule

from trainer.records import people
from trainer.web.access import enter

NOBODY, LEARNER, TRAINER_PIN = "nobody", "learner with a PIN", "trainer with a PIN"
TRAINER, OFFICER, BOTH = "trainer", "officer", "trainer and officer"
EVERYBODY = frozenset({NOBODY, LEARNER, TRAINER_PIN, TRAINER, OFFICER, BOTH})

# Whom a blueprint is for, and the endpoints that are for others than the rest of it.
DOORS = {
    "static": EVERYBODY,
    "signin": EVERYBODY,
    "verify": EVERYBODY,
    "kiosk": frozenset({LEARNER, TRAINER_PIN}),
    "desk": frozenset({TRAINER, BOTH}),
    "office": frozenset({OFFICER, BOTH}),
}
# Before anybody signed in: the start, the keys in the head, a badge that is read, a wiped screen, a hazard report.
OPEN_AT_THE_KIOSK = frozenset(
    f"kiosk.{name}"
    for name in ("start", "aside", "tongues", "badge_read", "wipe", "sign_out", "hazard", "reported", "hazard_done")
)
OTHERS = dict.fromkeys(OPEN_AT_THE_KIOSK, EVERYBODY)
ENDS_THE_SESSION = frozenset({"signin.sign_out", "kiosk.sign_out"})  # asked for last
FILLED = {"int": 1, "default": "x", "string": "x", "path": "x"}


def meant_for(rule: Rule) -> frozenset[str]:
    return OTHERS.get(rule.endpoint) or DOORS[rule.endpoint.partition(".")[0]]


def address(plant: Plant, rule: Rule) -> str:
    given = {name: FILLED[_kind(rule, name)] for name in rule.arguments}
    return str(plant.app.url_map.bind("localhost").build(rule.endpoint, given))


def _kind(rule: Rule, name: str) -> str:
    return "int" if "Integer" in type(rule._converters[name]).__name__ else "string"


def seated(plant: Plant, who: str) -> FlaskClient:
    """Return a browser in which somebody has just signed in."""
    plant.site.clock.instant = NOW
    client = plant.app.test_client()
    client.set_cookie("kiosk", KIOSK)
    if who == NOBODY:
        return client
    number = {LEARNER: "00241", TRAINER_PIN: "00101", TRAINER: "00101", OFFICER: "00112", BOTH: "00115"}[who]
    with plant.site.record.reading() as r:
        (person,) = people.with_number(r, number)
    with plant.app.test_request_context():
        enter(person, door="kiosk" if "PIN" in who else "office", now=NOW)
        kept = dict(session)
    with client.session_transaction() as fresh:
        fresh.update(kept)
    return client


def asked(plant: Plant) -> Iterator[tuple[Rule, str]]:
    rules = sorted(plant.app.url_map.iter_rules(), key=lambda rule: rule.endpoint in ENDS_THE_SESSION)
    for rule in rules:
        for method in sorted(set(rule.methods or ()) - {"HEAD", "OPTIONS"}):
            yield rule, method


def is_refused(answer: object) -> bool:
    status = answer.status_code  # type: ignore[attr-defined]
    location = answer.headers.get("Location", "")  # type: ignore[attr-defined]
    return status == 403 or (status == 303 and location.split("?")[0] in {"/", "/sign-in"})


@pytest.mark.parametrize("who", sorted(EVERYBODY))
def test_every_route_refuses_who_is_not_meant_to_have_it(plant: Plant, who: str) -> None:
    plant.app.config["WTF_CSRF_ENABLED"] = False  # what is asked here is the role, not the form
    client = seated(plant, who)
    let_in = [
        f"{method} {rule.rule}"
        for rule, method in asked(plant)
        if who not in meant_for(rule) and not is_refused(client.open(address(plant, rule), method=method))
    ]
    assert let_in == []


@pytest.mark.parametrize("who", [TRAINER, OFFICER, BOTH])
def test_desk_and_office_let_in_who_is_meant_to_have_them(plant: Plant, who: str) -> None:
    plant.app.config["WTF_CSRF_ENABLED"] = False
    client = seated(plant, who)
    shut_out = [
        f"{method} {rule.rule}"
        for rule, method in asked(plant)
        if rule.endpoint.startswith(("desk.", "office."))
        and who in meant_for(rule)
        and is_refused(client.open(address(plant, rule), method=method))
    ]
    assert shut_out == []


def test_the_table_names_only_what_there_is(plant: Plant) -> None:
    endpoints = {rule.endpoint for rule in plant.app.url_map.iter_rules()}
    assert endpoints >= OPEN_AT_THE_KIOSK
    assert {endpoint.partition(".")[0] for endpoint in endpoints} == set(DOORS)


def test_a_session_ends_when_nothing_was_done_for_an_hour(plant: Plant) -> None:
    client = seated(plant, TRAINER)
    assert client.get("/desk/").status_code == 200
    plant.site.clock.instant = NOW.replace(hour=NOW.hour + 1, minute=NOW.minute + 1)
    answer = client.get("/desk/")
    assert (answer.status_code, answer.headers["Location"].split("?")[0]) == (303, "/sign-in")


def test_who_is_sent_to_the_sign_in_comes_back_to_the_sheet_that_was_asked_for(plant: Plant) -> None:
    client = plant.client()
    answer = client.get("/desk/people")
    assert answer.status_code == 303
    page = client.get(answer.headers["Location"]).text
    assert 'value="/desk/people"' in page


def test_a_leaver_is_signed_out_at_the_next_sheet(plant: Plant) -> None:
    client = seated(plant, TRAINER)
    with plant.site.record.writing() as w:
        people.leave(w, plant.site.trainer, on=w.today() - timedelta(days=1), by=plant.site.officer)
    assert is_refused(client.get("/desk/"))


def test_a_role_that_is_taken_away_closes_the_door_at_once(plant: Plant) -> None:
    client = seated(plant, TRAINER)
    with plant.site.record.writing() as w:
        people.change(w, plant.site.trainer, roles={"learner"})
    assert client.get("/desk/").status_code == 403
