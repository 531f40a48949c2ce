"""The whole job in a real browser: badge, induction, a slip named, practical, authorised list, export."""

import csv
import io
import re
import threading
from collections.abc import Iterator
from datetime import timedelta
from pathlib import Path

import pytest
from web.plant import NOW, PASSWORD, PIN, Plant, build_plant, open_plant
from werkzeug.serving import make_server

from trainer.assessment.drills import worked
from trainer.assessment.paper import Paper, Sheet
from trainer.assessment.selecting import Worth, key_of
from trainer.bank import Bank, open_bank
from trainer.bank.model import ComputeDrill, SelectDrill
from trainer.records import sittings
from trainer.safeguarding.problems import problem
from trainer.settings import read_settings, shipped
from trainer.units import show

playwright = pytest.importorskip("playwright.sync_api", reason="playwright is not installed")
Axe = pytest.importorskip("axe_playwright_python.sync_playwright", reason="axe is not installed").Axe
pytestmark = pytest.mark.browser

SLIP = "leaves-out-penetration"
GRAVE = {"serious", "critical"}


@pytest.fixture(scope="module")
def bank() -> Bank:
    return open_bank(shipped("content"))


@pytest.fixture
def served(bank: Bank, tmp_path: Path) -> Iterator[tuple[Plant, str]]:
    settings = read_settings({}, data=str(tmp_path / "data"), zone="America/Chicago", site="Ostrand Mill, Plant 2")
    build_plant(settings, bank)
    plant = open_plant(settings, bank)
    plant.authorise("00218", "Jun Watanabe-Reyes", days=300)
    plant.at(0)
    server = make_server("127.0.0.1", 0, plant.app, threaded=True)
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    yield plant, f"http://127.0.0.1:{server.server_port}"
    server.shutdown()
    thread.join()
    server.server_close()
    plant.site.record.close()


class Walk:
    """One person in front of one page; every sheet is looked at for what must hold of all of them."""

    def __init__(self, page: "playwright.Page", address: str, shots: Path | None) -> None:
        self.page, self.address, self.shots, self.count = page, address, shots, 0
        self.page.set_default_timeout(15_000)

    def look(self, name: str, *, fits: bool = True) -> None:
        """Leave a picture; the sheet fits the glass and axe finds nothing grave."""
        self.count += 1
        if self.shots is not None:
            self.shots.mkdir(parents=True, exist_ok=True)
            self.page.screenshot(path=str(self.shots / f"{self.count:02d}-{name}.png"), full_page=not fits)
        if fits:
            tall, glass = self.page.evaluate("[document.documentElement.scrollHeight, innerHeight]")
            assert tall <= glass, f"{name} is {tall} px high on a glass of {glass}"
        found = Axe().run(self.page).response["violations"]
        assert [one["id"] for one in found if one["impact"] in GRAVE] == [], name

    def press(self, name: str) -> None:
        with self.page.expect_navigation():
            self.page.get_by_role("button", name=name, exact=True).last.click()


def sitting_of(plant: Plant) -> tuple[str, Paper]:
    with plant.site.record.reading() as r:
        (row,) = sittings.open_for(r, plant.site.learner)
    return row.id, Paper.from_data(row.paper)


def right_answer(bank: Bank, sheet: Sheet) -> str:
    item = bank.item(sheet.item)
    if isinstance(item, ComputeDrill):
        return show(worked(item, sheet.drawn).rounded, "mm", 1).split()[0]
    if isinstance(item, SelectDrill):
        worth = key_of(item, sheet.drawn["setting"]).worth
        return next(code for code, one in worth.items() if one is Worth.RIGHT)
    return item.key.id


def slipped_answer(bank: Bank, sheet: Sheet) -> str:
    sum_ = problem(bank.item(sheet.item).problem)
    return show(sum_.wrong(sum_.read(sheet.drawn), SLIP).rounded, "mm", 1).split()[0]


def answer(walk: Walk, bank: Bank, sheet: Sheet, *, slip: bool) -> None:
    if isinstance(bank.item(sheet.item), ComputeDrill):
        walk.page.locator("[data-answer]").fill(slipped_answer(bank, sheet) if slip else right_answer(bank, sheet))
        walk.press("Save answer")
    else:
        with walk.page.expect_navigation():
            walk.page.locator(f"[name=choice][value='{right_answer(bank, sheet)}']").click()
    walk.page.locator(".stored").wait_for()
    walk.look(f"sheet-{sheet.number}-saved")
    walk.press("Next sheet")


def induct(walk: Walk, plant: Plant, bank: Bank) -> None:
    """Sign in, take the induction with one drill got wrong by a slip, hand it in."""
    page = walk.page
    page.goto(walk.address)
    walk.look("start")
    page.locator("[name=number]").fill("00241")
    page.locator("[name=pin]").fill(PIN)
    walk.press("Start")
    walk.look("my-sheets")
    with page.expect_navigation():
        page.get_by_role("button", name=re.compile("^Start")).click()
    _, paper = sitting_of(plant)
    slip_at = next(s.number for s in paper.marked if s.item == "PB-D01")
    for sheet in paper.sheets:
        walk.look(f"sheet-{sheet.number}")
        if sheet in paper.marked:
            answer(walk, bank, sheet, slip=sheet.number == slip_at)
            walk.look(f"sheet-{sheet.number}-feedback")
            if sheet.number == slip_at:
                told = page.locator("main").inner_text()
                assert "hand gets there first" in told
                assert problem("ansi-presence-sensing").slip(SLIP).tell.rstrip(".") in told
        walk.press("Next sheet")
    walk.look("hand-in")
    walk.press("Hand it in")
    walk.look("result")


def test_from_badge_to_export(chromium: "playwright.Browser", served: tuple[Plant, str], bank: Bank, request):
    plant, address = served
    shots = request.config.getoption("--shots")
    context = chromium.new_context(viewport={"width": 1280, "height": 800}, accept_downloads=True)
    walk = Walk(context.new_page(), address, Path(shots) / "story" if shots else None)

    induct(walk, plant, bank)
    told = walk.page.locator("main").inner_text()
    assert "Theory" in told
    assert "pending" in told
    assert "not yet" in told

    plant.site.clock.instant = NOW + timedelta(minutes=30)
    context.clear_cookies()
    sign_practical(walk, plant)

    context.clear_cookies()
    rows = export(walk)
    (signed,) = (row for row in rows if row["kind"] == "practical-signed" and row["person number"] == "00241")
    assert signed["person name then"] == "Dana Ruiz"
    context.close()


def sign_practical(walk: Walk, plant: Plant) -> None:
    page = walk.page
    sign_in(walk, "rosalind")
    walk.look("week", fits=False)
    page.goto(f"{walk.address}/desk/practicals/{plant.site.learner}/PB-1/operator")
    for box in page.locator(".choice", has_text="seen right").all():
        box.click()
    page.get_by_label("I stood at the machine").check()
    page.get_by_label("PIN of Dana Ruiz").fill(PIN)
    walk.look("sign-off", fits=False)
    walk.press("Sign as it stands")
    assert "Signed: PB-1, passed." in page.get_by_role("status").inner_text()
    walk.look("signed", fits=False)


def export(walk: Walk) -> list[dict[str, str]]:
    """See the person on the office's list, and open its export of the records."""
    page = walk.page
    sign_in(walk, "harriet")
    walk.look("questions", fits=False)
    page.goto(f"{walk.address}/office/authorised?machine=PB-1&day=9+Mar+2026&known=9+Mar+2026")
    walk.look("as-of", fits=False)
    assert page.locator("tbody", has_text="Authorised to run").get_by_text("Dana Ruiz").is_visible()
    page.goto(f"{walk.address}/office/")
    with page.expect_download() as waiting:
        page.get_by_role("button", name="CSV file").click()
    text = Path(waiting.value.path()).read_text(encoding="utf-8-sig")
    return list(csv.DictReader(io.StringIO(text, newline="")))


def sign_in(walk: Walk, login: str) -> None:
    walk.page.goto(f"{walk.address}/sign-in")
    walk.page.get_by_label("Login").fill(login)
    walk.page.get_by_label("Password").fill(PASSWORD)
    with walk.page.expect_navigation():
        walk.page.get_by_role("button", name="Sign in").click()
