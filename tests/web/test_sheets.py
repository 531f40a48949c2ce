"""What every sheet of desk and office has in common."""

import re

import pytest
from web.plant import Plant, csrf

from trainer.records import hazards

DESK = (
    "/desk/",
    "/desk/people",
    "/desk/people/{learner}",
    "/desk/people/{learner}/history",
    "/desk/entries/1",
    "/desk/due",
    "/desk/machines",
    "/desk/machines/PB-1",
    "/desk/questions",
    "/desk/questions/PB-S14/q1",
    "/desk/practicals",
    "/desk/practicals/{learner}/PB-1/operator",
    "/desk/assign?programme=press-brake-operator-induction&shift=Early",
    "/desk/assigned?first=1&last=2",
    "/desk/hazards/1",
)
OFFICE = (
    "/office/",
    "/office/authorised?machine=PB-1",
    "/office/person?who=a",
    "/office/people/{learner}",
    "/office/changed",
    "/office/overdue",
    "/office/entries/1",
)


@pytest.fixture
def busy(plant: Plant) -> Plant:
    plant.authorise("00230", "Søren Dahlgaard", days=380)
    plant.at(1)
    with plant.site.record.writing() as w:
        hazards.report(w, words="The left cover is loose.", kiosk="kiosk 2", machine="PB-1")
    plant.site.sit(plant.site.learner, right=False)
    return plant


@pytest.mark.parametrize("path", [*DESK, *OFFICE])
def test_a_sheet_has_one_heading_a_title_labels_and_nothing_inline(busy: Plant, path: str) -> None:
    answer = busy.client("abdul").get(path.format(learner=busy.site.learner))
    page = answer.text
    assert answer.status_code == 200
    assert page.count("<h1") == 1
    assert re.search(r"<title>[^<]+ · (Desk|Office)</title>", page)
    assert page.count("<main") == 1
    assert "style=" not in page
    assert "<script" not in page
    assert not re.search(r"\son[a-z]+=", page)
    assert not re.search(r"\bNone\b(?! on record)", re.sub(r"<[^>]*>", " ", page))
    for form in re.findall(r"<form[^>]*method=\"post\".*?</form>", page, re.DOTALL):
        assert 'name="csrf_token"' in form


@pytest.mark.parametrize("path", [*DESK, *OFFICE])
def test_a_sheet_keeps_nothing_in_the_browser_and_runs_no_foreign_code(busy: Plant, path: str) -> None:
    headers = busy.client("abdul").get(path.format(learner=busy.site.learner)).headers
    assert headers["Cache-Control"] == "no-store"
    assert "script-src 'self'" in headers["Content-Security-Policy"]
    assert "unsafe" not in headers["Content-Security-Policy"]


def test_who_has_both_roles_finds_the_way_to_the_other_door(busy: Plant) -> None:
    assert 'href="/office/">to the office' in busy.client("abdul").get("/desk/").text
    assert 'href="/desk/">to the desk' in busy.client("abdul").get("/office/").text
    assert "to the office" not in busy.client("rosalind").get("/desk/").text


def test_the_sign_in_sheet_says_why_it_refuses_and_keeps_the_login(plant: Plant) -> None:
    client = plant.client()
    page = client.get("/sign-in").text
    assert page.count("<h1") == 1
    form = {"login": "rosalind", "password": "wrong wrong wrong", "csrf_token": csrf(page)}
    answer = client.post("/sign-in", data=form)
    assert answer.status_code == 422
    assert 'role="alert"' in answer.text
    assert 'value="rosalind"' in answer.text
    assert "wrong wrong wrong" not in answer.text
    empty = client.post("/sign-in", data={"csrf_token": csrf(page)})
    assert "Type your login." in empty.text
