"""The sheet of the site's rules: set from a day on, with a reason; what was typed is kept when it is refused."""

from web.plant import Plant, post


def test_a_rule_is_set_shown_and_listed(plant: Plant) -> None:
    client = plant.client("harriet")
    here = "/office/rules"
    due = {"act": "due", "programme": "*", "period": "6", "late_grace": "1", "since": "1 May 2026", "reason": "Agreed"}
    refused = post(client, here, {**due, "period": "six"})
    assert refused.status_code == 400
    assert "Write months as a whole number" in refused.text
    assert 'value="Agreed"' in refused.text
    assert post(client, here, {**due, "since": "1 Mar 2026"}).status_code == 400
    assert post(client, here, due).status_code == 303
    page = client.get(here).text
    assert "from 1 May 2026: 6 months, grace: 1 month" in page
    assert "for every programme: Agreed" in page
    assert post(client, here, {"act": "group", "least": "8", "reason": "Agreed"}).status_code == 303
    assert "Today: 8 people." in client.get(here).text
