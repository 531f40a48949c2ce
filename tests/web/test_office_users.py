"""Users and roles in the office: the list, the acts with their reasons, a password that works once."""

import re

from web.plant import Plant, csrf, post

KEPT = "quiet harbour seven lamps"


def test_a_role_and_a_password_for_one_use_are_given_and_lead_to_a_persons_own(plant: Plant) -> None:
    key = plant.add("00300", "Ines Portela")
    client = plant.client("harriet")
    page = client.get("/office/users").text
    assert "Rosalind" in page
    assert "Ines Portela" not in page
    assert "Ines Portela" in client.get("/office/users?who=portela").text
    here = f"/office/users/{key}"
    assert post(client, here, {"act": "give", "role": "trainer", "reason": ""}).status_code == 400
    assert post(client, here, {"act": "give", "role": "trainer", "reason": "Took the course"}).status_code == 303
    assert "by Harriet" in client.get(here).text
    shown = post(client, here, {"act": "password", "login": "ines", "reason": "New here"}).text
    lent = re.search(r"(?:[a-z2-9]{4}-){4}[a-z2-9]{4}", shown)
    assert lent
    assert lent[0] not in client.get(here).text

    hers = plant.app.test_client()
    form = {"login": "ines", "password": lent[0]}
    assert post(hers, "/sign-in", form).headers["Location"] == "/sign-in/password"
    assert hers.get("/desk/").headers["Location"] == "/sign-in/password"
    choose = "/sign-in/password"
    assert "not the same" in post(hers, choose, {"password": KEPT, "again": "other"}).text
    assert "handed out" in post(hers, choose, {"password": lent[0], "again": lent[0]}).text
    assert post(hers, choose, {"password": KEPT, "again": KEPT}).headers["Location"] == "/desk/"
    assert hers.get("/desk/").status_code == 200
    assert hers.get("/office/users").status_code == 403


def test_nobody_acts_on_themselves_and_sessions_end(plant: Plant) -> None:
    client, trainer = plant.client("harriet"), plant.client("rosalind")
    own = f"/office/users/{plant.site.officer}"
    assert "This is you." in client.get(own).text
    form = {"act": "withdraw", "role": "officer", "reason": "x", "csrf_token": csrf(client.get("/office/users").text)}
    assert client.post(own, data=form).status_code == 403
    here = f"/office/users/{plant.site.trainer}"
    assert trainer.get("/desk/").status_code == 200
    assert post(client, here, {"act": "sessions", "reason": "Left a tablet signed in"}).status_code == 303
    assert trainer.get("/desk/").status_code == 303
