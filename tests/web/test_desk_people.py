"""People, one person, and the entries behind what is said of them."""

import pytest
from web.plant import Plant, post

from trainer.records import hazards, ledger


def names(page: str) -> list[str]:
    return [
        part.split("<")[0]
        for part in page.split('class="c-name"><a class="name" href="')[1:]
        for part in [part.split(">", 1)[1]]
    ]


@pytest.fixture
def crew(plant: Plant) -> Plant:
    plant.authorise("00230", "Søren Dahlgaard", "Night", days=380)
    plant.authorise("00218", "Jun Watanabe-Reyes", "Late", days=100)
    plant.add("00301", "<b>Ana</b> O’Brien", "Late")
    return plant


def test_the_list_shows_standing_by_machine_and_what_each_lacks(crew: Plant) -> None:
    page = crew.client("rosalind").get("/desk/people").text
    assert "Lapsed" in page
    assert "The refresher has to be passed." in page
    assert "7 people of 7, 3 shifts" in page


@pytest.mark.parametrize(
    ("query", "found"),
    [
        ("find=DAHLGAARD", ["Søren Dahlgaard"]),
        ("find=00218", ["Jun Watanabe-Reyes"]),
        ("find=watanabe+jun", ["Jun Watanabe-Reyes"]),
        ("shift=Night", ["Søren Dahlgaard"]),
        ("machine=PB-1&word=authorised", ["Jun Watanabe-Reyes"]),
        ("word=lapsed", ["Søren Dahlgaard"]),
        ("find=nobody+at+all", []),
        ("find=%25", []),
    ],
)
def test_the_list_is_searched_by_name_number_shift_machine_and_standing(
    crew: Plant, query: str, found: list[str]
) -> None:
    assert names(crew.client("rosalind").get(f"/desk/people?{query}").text) == found


def test_the_list_is_put_in_the_order_of_a_column_that_is_chosen(crew: Plant) -> None:
    client = crew.client("rosalind")
    by_end = names(client.get("/desk/people?sort=ends").text)
    assert by_end[0] == "Jun Watanabe-Reyes"  # the only one with an end ahead
    by_number = names(client.get("/desk/people?sort=number").text)
    assert by_number[0] == "Rosalind Achterberg"
    assert names(client.get("/desk/people?sort=nonsense").text) == names(client.get("/desk/people").text)


def test_a_list_of_more_than_fifty_turns_pages_and_keeps_what_was_chosen(plant: Plant) -> None:
    for number in range(60):
        plant.add(f"7{number:03d}", f"Crew {number:03d}", "Swing")
    client = plant.client("rosalind")
    page = client.get("/desk/people?shift=Swing")
    assert len(names(page.text)) == 50
    assert "Page 1 of 2" in page.text
    assert "shift=Swing" in page.text.split("Next page")[0].rsplit("href=", 1)[1]
    assert len(names(client.get("/desk/people?shift=Swing&page=2").text)) == 10
    for page in ("99", "0", "-1", "x", "9" * 400):
        assert client.get(f"/desk/people?shift=Swing&page={page}").status_code == 200


def test_what_people_are_called_is_text_never_markup(crew: Plant) -> None:
    page = crew.client("rosalind").get("/desk/people").text
    assert "<b>Ana</b>" not in page
    assert "&lt;b&gt;Ana&lt;/b&gt; O’Brien" in page


def test_a_person_has_a_verdict_reasons_with_entries_and_a_history(crew: Plant) -> None:
    client = crew.client("rosalind")
    key = crew.site.learner
    crew.site.sit(key)
    page = client.get(f"/desk/people/{key}").text
    assert "Not now: PB-1." in page
    assert "Passed the induction on 9 Mar 2026" in page
    assert "Has to be shown at the machine and signed off." in page
    assert "Passed: Press brake operator, induction, 2 of 2 right" in page
    with crew.site.record.reading() as r:
        last = max(entry.number for entry in ledger.entries(r, person=key))
    assert f'href="/desk/entries/{last}">L-{last}</a>' in page


def test_an_entry_is_shown_as_it_was_written_with_its_codes(crew: Plant) -> None:
    client = crew.client("rosalind")
    with crew.site.record.reading() as r:
        found = max(ledger.entries(r), key=lambda entry: entry.number)
    page = client.get(f"/desk/entries/{found.number}").text
    assert found.digest in page
    assert found.previous in page
    assert "America/Chicago" in page
    assert client.get("/desk/entries/99999").status_code == 404
    assert client.get(f"/desk/entries/{10**30}").status_code == 404


def test_a_person_without_any_entry_is_unknown_not_weak(plant: Plant) -> None:
    key = plant.add("00400", "Nobody Yet")
    page = plant.client("rosalind").get(f"/desk/people/{key}").text
    assert "Nothing on record, so not authorised for any machine." in page
    assert "That is not weak: it is unknown." in page
    assert plant.client("rosalind").get("/desk/people/ffff").status_code == 404


def test_the_history_of_a_person_turns_pages(plant: Plant) -> None:
    plant.at(100)
    for _ in range(9):
        plant.site.sit(plant.site.learner)
    client = plant.client("rosalind")
    page = client.get(f"/desk/people/{plant.site.learner}").text
    assert "All 10 entries" in page
    assert "10 entries" in client.get(f"/desk/people/{plant.site.learner}/history").text


def test_the_due_list_groups_by_urgency_and_filters(crew: Plant) -> None:
    client = crew.client("rosalind")
    page = client.get("/desk/due").text
    assert page.index("Søren Dahlgaard") < page.index("Dana Ruiz")
    assert "1 is over." in page
    assert "Søren Dahlgaard" not in client.get("/desk/due?shift=Early").text
    assert "Nothing is due for this choice." in client.get("/desk/due?machine=PB-4&shift=Night").text


def test_the_machines_show_facts_and_how_many_may_run_each(crew: Plant) -> None:
    page = crew.client("rosalind").get("/desk/machines").text
    assert "Made in" in page
    assert "One person alone may run: PB-1 on Late. Nobody may run, but somebody did: PB-1 on Night." in page
    assert "Jun Watanabe-Reyes, 29 Nov 2026" in page


def test_a_hazard_report_is_answered_and_closed_and_an_empty_answer_is_refused(plant: Plant) -> None:
    plant.at(0)
    with plant.site.record.writing() as w:
        number = hazards.report(w, words="The left cover is loose.", kiosk="kiosk 2", machine="PB-1").id
    client = plant.client("rosalind")
    address = f"/desk/hazards/{number}"
    empty = post(client, address, {"words": "  ", "closes": "yes"})
    assert empty.status_code == 400
    assert "Say what is wrong" in empty.text
    done = post(client, address, {"words": "Cover bolted on, tried.", "closes": "yes"})
    assert done.status_code == 303
    page = client.get(address).text
    assert "Cover bolted on, tried." in page
    assert "Closed with this." in page
    assert "hazard report" not in client.get("/desk/").text
    assert client.get("/desk/hazards/77").status_code == 404


def test_slips_and_evidence_of_real_papers_are_named_weakest_first(plant: Plant) -> None:
    plant.at(40)
    plant.take(plant.site.learner, "slip:nominal-sensitivity", "critical", seed=3)
    plant.at(4)
    plant.take(plant.site.learner, "critical", seed=5)
    page = plant.client("rosalind").get(f"/desk/people/{plant.site.learner}").text
    skills = page.split("What the answers show")[1].split("Slips made")[0]
    assert skills.index("Gap") < skills.index("No evidence") < skills.index("Not settled")
    assert "of 100, most likely" in skills
    assert "right, 2 wrong" in skills or "right, 1 wrong" in skills
    slips = page.split("Slips made")[1].split("</table>")[0]
    assert "Uses the object sensitivity as if no beam were blanked" in slips
    assert " mm needed" in slips
    assert "“" in slips
    assert "last on 5 Mar 2026" in slips
