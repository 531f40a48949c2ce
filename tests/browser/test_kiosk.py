"""The kiosk in a real browser: every way to work it, and what must never happen at it."""

from collections.abc import Callable, Iterator
from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest
from browser.conftest import SPANISH, Served
from browser.papers import PAPER, seat
from browser.walker import HAND, LARGE, WIDE, Walker
from web.glass import BADGE, right, wrong
from web.plant import PIN

from trainer.records import asking

pytestmark = pytest.mark.browser
Make = Callable[..., Walker]

expect = pytest.importorskip("playwright.sync_api", reason="playwright is not installed").expect


@pytest.fixture
def glass(request: pytest.FixtureRequest, chromium: Any, kiosk_served: Served) -> Iterator[Make]:
    """Give a maker of walkers: size, script or none, touch or none, language of the browser."""
    shots, opened = request.config.getoption("--shots"), []

    def make(
        name: str, size: tuple[int, int] = WIDE, *, script: bool = True, touch: bool = False, tongue: str = "en-US"
    ) -> Walker:
        view = {"width": size[0], "height": size[1]}
        context = chromium.new_context(viewport=view, java_script_enabled=script, has_touch=touch, locale=tongue)
        opened.append(context)
        place = Path(shots) / f"kiosk-{name}" if shots else None
        return Walker(context.new_page(), kiosk_served, size=size, shots=place, touch=touch)

    yield make
    for context in opened:
        context.close()


def flawless(walker: Walker) -> None:
    assert not walker.faults, "\n".join(walker.faults)


def go_through(walker: Walker, bank: Any) -> None:
    """Go on with the small paper and hand it in, right but for the last question."""
    while not walker.path.endswith("/hand-in"):
        sheet, kind = walker.sheet(), walker.kind
        walker.see(kind)
        if kind == "question":
            walker.choose(wrong(bank, sheet) if sheet.number == len(PAPER) else right(bank, sheet))
            walker.see("question-saved")
        elif kind == "drill":
            walker.press(walker.page.locator(".pick", has_text="mm"), leads=False)
            for key in right(bank, sheet)["number"]:
                walker.press(key, leads=walker.script_off)
            walker.press(walker.page.locator(".keypad .save"))
            walker.see("drill-saved")
        walker.next()
        if kind != "lesson":
            walker.see(f"feedback-{walker.kind}")
            walker.next()
    walker.see("hand-in")
    for key in PIN:
        walker.press(key, leads=walker.script_off)
    walker.press(walker.page.locator(".handing .key.now"))
    walker.see("standing")


def test_a_whole_paper_by_touch_on_a_hand_held_glass(glass: Make, kiosk_served: Served, bank: Any) -> None:
    seat(kiosk_served.plant, "00241")
    walker = glass("hand", HAND, touch=True)
    walker.sign_in()
    walker.see("my-sheets")
    walker.press(walker.page.locator(".waiting .key").first)
    go_through(walker, bank)
    assert walker.page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    flawless(walker)


def test_a_whole_paper_by_touch_without_script(glass: Make, kiosk_served: Served, bank: Any) -> None:
    seat(kiosk_served.plant, "00241")
    walker = glass("no-script", touch=True, script=False)
    walker.script_off = True
    walker.go("/")
    walker.page.locator("#number").fill("00241")
    for key in PIN:
        walker.press(key)
    walker.press(walker.page.locator(".start .key.now"))
    walker.press(walker.page.locator(".waiting .key").first)
    go_through(walker, bank)
    flawless(walker)


def test_a_whole_paper_on_a_large_glass_in_spanish(glass: Make, kiosk_served: Served, bank: Any) -> None:
    seat(kiosk_served.plant, SPANISH)
    walker = glass("large-spanish", LARGE, tongue="es-MX")
    walker.sign_in(SPANISH)
    walker.press(walker.page.locator(".waiting .key").first)
    go_through(walker, bank)
    assert walker.page.locator("html").get_attribute("lang") == "es"
    flawless(walker)


def test_by_keyboard_alone(glass: Make, kiosk_served: Served, bank: Any) -> None:
    seat(kiosk_served.plant, "00241")
    walker = glass("keyboard")
    walker.page.add_init_script(
        "addEventListener('DOMContentLoaded', () => { window.focused = document.activeElement.id })"
    )
    walker.go("/")
    assert walker.page.evaluate("window.focused") == "number", "what is typed before the first picture would be lost"
    keys = walker.page.keyboard
    keys.type("00241", delay=60)
    tab_to(walker, "#pin")
    keys.type(PIN, delay=60)
    enter(walker)
    assert walker.path == "/sheets"
    tab_to(walker, ".waiting .key")
    enter(walker)
    while not walker.path.endswith("/hand-in"):
        sheet, kind = walker.sheet(), walker.kind
        if kind == "question":
            tab_to(walker, f'.part-row[value="{right(bank, sheet)["choice"]}"]')
            walker.see("question-focus")
            enter(walker)
        elif kind == "drill":
            tab_to(walker, "[data-answer]")
            keys.type(right(bank, sheet)["number"], delay=60)
            enter(walker)
        tab_to(walker, 'button[form="turn"], .keypad .on')
        enter(walker)
    tab_to(walker, "#pin")
    keys.type(PIN, delay=60)
    enter(walker)
    assert walker.path.endswith("/result")
    flawless(walker)


def tab_to(walker: Walker, selector: str) -> None:
    """Press Tab until the focus is there; it can be seen wherever it stands."""
    for _ in range(60):
        walker.page.keyboard.press("Tab")
        if walker.page.evaluate("(s) => document.activeElement.matches(s)", selector):
            outline = walker.page.evaluate("getComputedStyle(document.activeElement).outlineStyle")
            assert outline == "solid", selector
            return
    raise AssertionError(f"Tab does not lead to {selector}")


def enter(walker: Walker) -> None:
    with walker.page.expect_navigation():
        walker.page.keyboard.press("Enter")


@pytest.mark.parametrize("read", [f"*{BADGE}\n", f"{BADGE}\n", f"\n{BADGE}", BADGE, f";{BADGE}?\r\n"])
def test_a_badge_in_the_answer_box_changes_nothing_and_sends_nothing(
    glass: Make, kiosk_served: Served, read: str
) -> None:
    seat(kiosk_served.plant, "00241", at=3)
    walker = glass("badge")
    walker.sign_in()
    walker.press(walker.page.locator(".waiting .key").first)
    walker.page.locator("[data-answer]").focus()
    walker.page.keyboard.type("335", delay=80)
    walker.page.wait_for_timeout(80)
    with walker.page.expect_navigation(url="**/badge"):
        walker.scan(read)
    walker.see("badge")
    expect(walker.page.get_by_text("That was your own badge. It changed nothing.")).to_be_visible()
    walker.press("Go on")
    assert walker.page.locator("[data-answer]").input_value() == "335"
    assert walker.row().answers == {}


def test_words_typed_as_fast_as_a_reader_types_stay_where_they_are_written(glass: Make, kiosk_served: Served) -> None:
    walker = glass("fast")
    walker.sign_in()
    walker.press("Ask")
    words = "Who gives me a holder at 14 mm?"
    walker.page.locator("textarea").focus()
    walker.page.keyboard.type(words)
    walker.page.wait_for_timeout(160)
    assert walker.path.startswith("/ask")
    assert walker.page.locator("textarea").input_value() == words


def test_the_keypad_writes_the_pin_once_a_number_was_typed_on_a_keyboard(glass: Make, kiosk_served: Served) -> None:
    walker = glass("keypad")
    walker.go("/")
    walker.page.keyboard.type("00241", delay=60)
    walker.dial(PIN)
    assert walker.page.locator("#number").input_value() == "00241"
    walker.press(walker.page.locator(".start .key.now"))
    assert walker.path == "/sheets"


def test_a_sign_in_with_nothing_typed_is_refused_on_the_sheet_itself(glass: Make, kiosk_served: Served) -> None:
    walker = glass("empty")
    walker.go("/")
    walker.press(walker.page.locator(".start .key.now"))
    expect(walker.page.get_by_role("alert")).to_be_visible()
    walker.see("start-refused")


def test_a_badge_on_a_question_presses_no_answer(glass: Make, kiosk_served: Served) -> None:
    seat(kiosk_served.plant, "00241", at=2)
    walker = glass("badge-question")
    walker.sign_in()
    walker.press(walker.page.locator(".waiting .key").first)
    walker.page.locator(".part-row").first.focus()
    with walker.page.expect_navigation(url="**/badge"):
        walker.scan(f"\n{BADGE}\n")
    expect(walker.page.get_by_text("Is this you?").first).to_be_visible()
    walker.press("Go on")
    assert walker.row().answers == {}


def test_two_presses_at_once_store_one_answer_and_skip_nothing(glass: Make, kiosk_served: Served) -> None:
    seat(kiosk_served.plant, "00241", at=2)
    walker = glass("twice")
    walker.sign_in()
    walker.press(walker.page.locator(".waiting .key").first)
    sheet = walker.sheet()
    walker.page.locator(".part-row").first.dblclick()  # the second press may cut the first one's page off
    walker.page.locator(".stored").wait_for()
    walker.page.wait_for_load_state("networkidle")
    assert walker.row().answers[sheet.number].answer["chosen"] == sheet.order[0]
    walker.page.locator('button[form="turn"]').dblclick()
    walker.page.locator(".explained").wait_for()
    walker.page.wait_for_load_state("networkidle")
    assert (walker.kind, walker.row().at) == ("explained", sheet.number)


def test_while_the_network_is_away_an_answer_waits_and_is_stored_once(glass: Make, kiosk_served: Served) -> None:
    seat(kiosk_served.plant, "00241", at=2)
    walker = glass("away-network")
    walker.sign_in()
    walker.press(walker.page.locator(".waiting .key").first)
    sheet = walker.sheet()
    walker.page.context.set_offline(True)
    walker.page.locator(".part-row").first.click()
    expect(walker.page.get_by_text("Not saved yet.")).to_be_visible()
    walker.page.locator(".part-row").nth(1).click()  # changes nothing while the first one waits
    assert walker.row().answers == {}
    walker.see("not-saved-yet")
    walker.page.context.set_offline(False)
    walker.page.locator(".stored").wait_for(timeout=8_000)
    assert walker.row().answers[sheet.number].answer["chosen"] == sheet.order[0]
    expect(walker.page.get_by_text("Not saved yet.")).not_to_be_visible()
    flawless(walker)


def test_nobody_there_is_asked_and_what_was_typed_is_kept(glass: Make, kiosk_served: Served) -> None:
    kiosk_served.plant.app.config["KIOSK_IDLE_SECONDS"] = 1
    seat(kiosk_served.plant, "00241", at=3)
    walker = glass("idle")
    walker.sign_in()
    walker.press(walker.page.locator(".waiting .key").first)
    walker.page.locator("[data-answer]").fill("335")
    walker.page.wait_for_url("**/away", timeout=5_000)
    walker.see("away")
    walker.press("I am here")
    assert walker.page.locator("[data-answer]").input_value() == "335"
    walker.page.wait_for_url("**/away", timeout=5_000)
    kiosk_served.plant.site.clock.instant += timedelta(seconds=20)
    walker.go("/")
    expect(walker.page.get_by_role("heading", name="Start here")).to_be_visible()
    walker.page.go_back()
    assert "Dana" not in walker.page.content()
    flawless(walker)


def test_a_pause_hides_the_sheet_and_goes_on_with_the_pin(glass: Make, kiosk_served: Served) -> None:
    seat(kiosk_served.plant, "00241", at=3)
    walker = glass("pause", touch=True)
    walker.sign_in()
    walker.press(walker.page.locator(".waiting .key").first)
    here = walker.path
    walker.dial("33")
    walker.press("Pause")
    walker.see("pause")
    walker.page.go_back()
    assert walker.path == "/pause"
    walker.dial("9999")
    walker.press("Go on")
    walker.see("pause-refused")
    walker.dial(PIN)
    walker.press("Go on")
    assert walker.path == here
    assert walker.page.locator("[data-answer]").input_value() == "33"
    flawless(walker)


def test_the_language_changes_in_the_middle_of_a_drill_and_nothing_is_lost(glass: Make, kiosk_served: Served) -> None:
    seat(kiosk_served.plant, "00241", at=3)
    walker = glass("language", touch=True)
    walker.sign_in()
    walker.press(walker.page.locator(".waiting .key").first)
    here = walker.path
    walker.dial("335")
    walker.press("Español")
    walker.see("drill-spanish")
    assert walker.path == here
    assert walker.page.locator("[data-answer]").input_value() == "335"
    assert walker.page.locator("html").get_attribute("lang") == "es"
    flawless(walker)


def test_an_unclear_number_is_asked_back_and_what_is_none_is_refused(glass: Make, kiosk_served: Served) -> None:
    seat(kiosk_served.plant, "00241", at=3)
    walker = glass("unclear", touch=True)
    walker.sign_in()
    walker.press(walker.page.locator(".waiting .key").first)
    box = walker.page.locator("[data-answer]")
    box.fill("about so far")
    walker.press(walker.page.locator(".keypad .save"))
    walker.see("drill-refused")
    assert box.input_value() == "about so far"
    box.fill("1,234")
    walker.press(walker.page.locator(".keypad .save"))
    walker.see("drill-asked-back")
    assert walker.page.locator(".readings .key").count() == 2
    walker.press(walker.page.locator(".readings .key").last)
    walker.see("drill-answered")
    assert walker.row().answers[3].answer["value"] == "1234 mm"
    walker.dial("5")
    expect(walker.page.locator(".stored")).not_to_be_visible()
    expect(walker.page.locator(".keypad .on")).not_to_be_visible()
    flawless(walker)


def test_the_sides_can_be_swapped_for_the_left_hand(glass: Make, kiosk_served: Served) -> None:
    seat(kiosk_served.plant, "00241", at=2)
    walker = glass("swapped", touch=True)
    walker.go("/")
    walker.press("Swap sides")
    walker.see("start-swapped")
    walker.page.locator("#number").fill("00241")
    walker.page.locator("#pin").fill(PIN)
    walker.press(walker.page.locator(".start .key.now"))
    walker.press(walker.page.locator(".waiting .key").first)
    walker.see("question-swapped")
    answers, drawing = (walker.page.locator(name).first.bounding_box() for name in (".parts", ".draw-side"))
    assert answers["x"] + answers["width"] <= drawing["x"]
    walker.press("Pause")
    walker.press("Sign out")
    assert walker.page.locator("body.swapped").count() == 0
    flawless(walker)


def test_the_sheet_is_read_aloud_only_where_there_is_a_voice(glass: Make, kiosk_served: Served) -> None:
    seat(kiosk_served.plant, "00241", at=2)
    walker = glass("aloud")
    walker.sign_in()
    expect(walker.page.locator("[data-aloud-key]")).not_to_be_visible()
    walker.page.add_init_script(VOICE)
    walker.press(walker.page.locator(".waiting .key").first)
    walker.see("question-aloud")
    walker.press("Read aloud", leads=False)
    said = walker.page.evaluate("window.said")
    assert said[0] == walker.page.locator("h1").inner_text()
    assert all(text.strip() in " ".join(said) for text in walker.page.locator(".parts .words").all_inner_texts())
    flawless(walker)


VOICE = """
window.said = [];
window.SpeechSynthesisUtterance = function (text) { this.text = text; };
const speech = { speaking: false, addEventListener() {}, cancel() {}, getVoices: () => [{ lang: 'en-GB' }],
                 speak: (one) => window.said.push(one.text) };
Object.defineProperty(window, 'speechSynthesis', { value: speech });
"""


def test_a_hazard_is_reported_before_anybody_signs_in(glass: Make, kiosk_served: Served) -> None:
    walker = glass("hazard", touch=True)
    walker.go("/")
    walker.press("Report a hazard")
    walker.see("hazard-nobody")
    walker.press(walker.page.locator(".pick", has_text="PB-1"), leads=False)
    walker.page.locator("#words").fill("The left end cover is loose.")
    walker.press("Send the report")
    walker.see("hazard-kept")
    expect(walker.page.get_by_text("H-001")).to_be_visible()
    walker.press("Go back")
    assert walker.path == "/"
    walker.press("Wipe the glass")
    walker.see("wipe")
    flawless(walker)


def test_a_hazard_is_reported_from_a_sheet_and_leads_back_to_it(glass: Make, kiosk_served: Served) -> None:
    seat(kiosk_served.plant, "00241", at=3)
    walker = glass("hazard-sheet", touch=True)
    walker.sign_in()
    walker.press(walker.page.locator(".waiting .key").first)
    here = walker.path
    walker.dial("12")
    walker.press("Report a hazard")
    walker.see("hazard")
    walker.press("Go back")
    assert walker.path == here
    assert walker.page.locator("[data-answer]").input_value() == "12"
    flawless(walker)


def test_who_may_run_the_machine_is_told_so(glass: Make, kiosk_served: Served) -> None:
    plant = kiosk_served.plant
    plant.take(plant.site.learner, seed=11)
    plant.site.show(plant.site.learner)
    walker = glass("authorised")
    walker.sign_in()
    walker.see("my-sheets-none")
    walker.press(walker.page.get_by_role("link", name="Where I stand"))
    walker.see("standing-authorised")
    expect(walker.page.get_by_text("You may run PB-1.")).to_be_visible()
    flawless(walker)


def test_a_question_is_asked_from_a_sheet_and_its_answer_shown_at_the_next_sign_in(
    glass: Make, kiosk_served: Served
) -> None:
    seat(kiosk_served.plant, "00241")
    walker = glass("ask", touch=True)
    walker.sign_in()
    walker.see("my-sheets-ask")
    walker.press(walker.page.locator(".waiting .key").first)
    here = walker.path
    walker.press("Ask")
    walker.see("ask")
    walker.press("Send the question")
    walker.see("ask-kept")
    walker.press("Go back")
    assert walker.path == here
    with kiosk_served.plant.site.record.writing() as w:
        asking.answer(w, 1, by=kiosk_served.plant.site.trainer, words="Come to PB-1 at nine. I show you.")
    walker.go("/sheets")
    walker.press("Sign out")
    walker.page.locator("#number").fill("00241")
    walker.page.locator("#pin").fill(PIN)
    walker.press(walker.page.locator(".start .key.now"))
    walker.see("answered")
    walker.press("I have read it")
    walker.press(walker.page.get_by_role("link", name="My record"))
    walker.see("my-record")
    walker.press(walker.page.get_by_role("link", name="What is written"))
    walker.see("written")
    flawless(walker)
