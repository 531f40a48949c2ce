"""The first induction, end to end: at the kiosk, at the desk, in the office."""

import csv
import io
from pathlib import Path

import pytest
from browser.conftest import INDUCTION, Served
from browser.walker import WIDE, Walker
from web.glass import BADGE, right, slipped
from web.plant import PASSWORD, PIN

pytestmark = pytest.mark.browser
SLIP = ("PB-D02", "nominal-sensitivity")

expect = pytest.importorskip("playwright.sync_api", reason="playwright is not installed").expect


@pytest.fixture
def walker(request: pytest.FixtureRequest, chromium, kiosk_served: Served):
    shots = request.config.getoption("--shots")
    context = chromium.new_context(
        viewport={"width": WIDE[0], "height": WIDE[1]}, has_touch=True, locale="en-US", accept_downloads=True
    )
    place = Path(shots) / "induction" if shots else None
    yield Walker(context.new_page(), kiosk_served, size=WIDE, shots=place, touch=True)
    context.close()


def test_from_badge_to_export(walker: Walker, bank) -> None:
    enter_with_badge(walker)
    answer_every_sheet(walker, bank)
    hand_in_and_stand(walker)
    nothing_is_left_on_the_glass(walker)
    assert not walker.faults, "\n".join(walker.faults)
    trainer_signs(walker)
    office_lists_and_exports(walker)


def enter_with_badge(walker: Walker) -> None:
    walker.go("/")
    walker.see("start")
    walker.scan(f"*{BADGE}\n")
    assert walker.page.locator("#number").input_value() == BADGE
    expect(walker.page.get_by_text("Read. If it is yours, type your PIN.")).to_be_visible()
    walker.dial(PIN)
    walker.see("start-badge")
    walker.press(walker.page.locator(".start .key.now"))
    walker.see("my-sheets")
    expect(walker.page.get_by_text("Dana R., 00241")).to_be_visible()
    walker.press("Start: Press brake operator, induction")


def answer_every_sheet(walker: Walker, bank) -> None:
    while _on_a_sheet(walker):
        sheet, kind = walker.sheet(), walker.kind
        walker.see(kind)
        if kind == "question":
            walker.choose(right(bank, sheet))
            walker.see("question-saved")
        elif kind == "drill":
            answer_a_drill(walker, bank, sheet)
        walker.next()
        if kind != "lesson":
            feedback(walker, sheet)
            walker.next()


def _on_a_sheet(walker: Walker) -> bool:
    return not walker.path.endswith("/hand-in")


def answer_a_drill(walker: Walker, bank, sheet) -> None:
    form = slipped(bank, sheet, SLIP[1]) if sheet.item == SLIP[0] else right(bank, sheet)
    walker.dial(form["number"])
    walker.press(walker.page.locator(".keypad .save"))
    assert walker.row().answers[sheet.number].answer["value"] == f"{form['number']} mm"
    walker.see("drill-saved")


def feedback(walker: Walker, sheet) -> None:
    page = walker.page
    if sheet.item == SLIP[0]:
        walker.see("feedback-slip")
        line = page.locator(".working .slip").inner_text()
        assert "The curtain sees" in line
        assert "You had 14 mm." in line
        assert "the hand gets there first" in page.locator(".verdict").inner_text()
        expect(page.get_by_text("a competent person decide")).to_be_visible()
    else:
        walker.see(f"feedback-{walker.kind}")
        expect(page.locator(".verdict.right")).to_be_visible()


def hand_in_and_stand(walker: Walker) -> None:
    walker.see("hand-in")
    walker.page.locator("#pin").fill(PIN)
    walker.press(walker.page.locator(".handing .key.now"))
    walker.see("standing")
    words = [one.strip() for one in walker.page.locator(".approvals strong").all_inner_texts()]
    assert words == ["passed", "pending", "not yet"]
    expect(walker.page.get_by_text("Do not run PB-1 alone yet.")).to_be_visible()
    walker.press(walker.page.get_by_role("link", name="Look again at sheet"))
    walker.see("look-again")
    walker.next()
    assert walker.path.endswith("/result") or "/sittings/" in walker.path
    walker.go("/standing")
    walker.see("standing-again")


def nothing_is_left_on_the_glass(walker: Walker) -> None:
    walker.press("Sign out")
    for _ in range(4):
        walker.page.go_back()
        assert walker.path in {"/", "about:blank"}
        assert "Dana" not in walker.page.content()
        assert "passed" not in walker.page.content()


def trainer_signs(walker: Walker) -> None:
    page = walker.page
    _enter_desk(walker, "rosalind")
    page.get_by_role("link", name="Sign the practical").first.click()
    for box in page.locator(".choice", has_text="seen right").all():
        box.click()
    page.get_by_label("I stood at the machine").check()
    page.get_by_label("PIN of Dana Ruiz").fill(PIN)
    page.get_by_role("button", name="Sign as it stands").click()
    assert "Signed: PB-1, passed." in page.get_by_role("status").inner_text()
    page.get_by_role("button", name="sign out").click()


def office_lists_and_exports(walker: Walker) -> None:
    page = walker.page
    _enter_desk(walker, "harriet")
    page.get_by_role("button", name="Answer").first.click()
    expect(page.locator("tbody", has_text="Authorised to run").get_by_text("Dana Ruiz")).to_be_visible()
    walker.go("/office/")
    with page.expect_download() as waiting:
        page.get_by_role("button", name="CSV file").click()
    text = Path(waiting.value.path()).read_text(encoding="utf-8-sig")
    rows = list(csv.DictReader(io.StringIO(text, newline="")))
    sat = [row for row in rows if row["kind"] == "sitting-marked"]
    assert [(row["person name then"], row["programme"]) for row in sat] == [("Dana Ruiz", INDUCTION)]
    assert rows[-1]["kind"] == "practical-signed"


def _enter_desk(walker: Walker, login: str) -> None:
    walker.go("/sign-in")
    walker.page.get_by_label("Login").fill(login)
    walker.page.get_by_label("Password").fill(PASSWORD)
    walker.page.get_by_role("button", name="Sign in").click()
