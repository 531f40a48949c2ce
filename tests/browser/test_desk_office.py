"""The trainer at the desk and the officer in the office, in a real browser: from a pending practical to the export."""

import csv
import io
import shutil
import threading
from collections.abc import Iterator
from datetime import timedelta
from pathlib import Path
from urllib.parse import urljoin

import pytest
from banks import shipped_bank
from browser.looks import axe_faults
from web.plant import NOW, PASSWORD, PIN, Plant, build_plant, open_plant
from werkzeug.serving import make_server

from trainer.bank import Bank
from trainer.records import hazards
from trainer.settings import read_settings

playwright = pytest.importorskip("playwright.sync_api", reason="playwright is not installed")
expect = playwright.expect
pytestmark = pytest.mark.browser

SIZES = {"wide": (1280, 800), "hand": (390, 844)}


class Walk:
    """One person in front of one browser page; leaves a picture of each sheet where ``--shots`` says."""

    def __init__(self, page: "playwright.Page", address: str, shots: Path | None) -> None:
        self.page, self.address, self.shots = page, address, shots

    def go(self, path: str) -> None:
        answer = self.page.goto(urljoin(self.address, path))
        assert answer is not None
        assert answer.status < 400, f"{path} answered {answer.status}"

    def shoot(self, name: str) -> None:
        if self.shots is not None:
            self.shots.mkdir(parents=True, exist_ok=True)
            self.page.screenshot(path=str(self.shots / f"{name}.png"), full_page=True)

    def sign_in(self, login: str) -> None:
        self.go("/sign-in")
        self.page.get_by_label("Login").fill(login)
        self.page.get_by_label("Password").fill(PASSWORD)
        self.page.get_by_role("button", name="Sign in").click()


@pytest.fixture(scope="module")
def bank() -> Bank:
    return shipped_bank()


@pytest.fixture(scope="module")
def lived(bank: Bank, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Build a plant in which one person has passed the theory and waits for the practical."""
    folder = tmp_path_factory.mktemp("plant")
    settings = read_settings({}, data=str(folder), zone="America/Chicago")
    build_plant(settings, bank)
    plant = open_plant(settings, bank)
    plant.authorise("00230", "Søren Dahlgaard", days=390)
    plant.authorise("00218", "Jun Watanabe-Reyes", "Late", days=300)
    plant.authorise("00219", "Aroha Ngata", "Late", days=100)
    plant.at(60)
    plant.take(plant.site.learner, "critical", "critical")
    plant.at(20)
    late = plant.add("00270", "Ramiro Quispe", "Late")
    plant.site.sit(late)
    plant.at(11)
    plant.site.show(late, happened_on=(NOW - timedelta(days=15)).date())
    plant.at(0)
    plant.take(plant.site.learner, seed=11)
    with plant.site.record.writing() as w:
        hazards.report(w, words="The rod did not stop the ram.", kiosk="kiosk 1", machine="PB-1")
    plant.site.record.close()
    return folder


@pytest.fixture
def served(lived: Path, bank: Bank, tmp_path: Path) -> Iterator[tuple[Plant, str]]:
    """Serve a copy of the plant."""
    shutil.copytree(lived, tmp_path / "data")
    settings = read_settings({}, data=str(tmp_path / "data"), zone="America/Chicago", site="Ostrand Mill, Plant 2")
    plant = open_plant(settings, bank)
    plant.site.clock.instant = NOW + timedelta(minutes=20)
    server = make_server("127.0.0.1", 0, plant.app, threaded=True)
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    yield plant, f"http://127.0.0.1:{server.server_port}"
    server.shutdown()
    thread.join()
    server.server_close()
    plant.site.record.close()


@pytest.fixture(params=SIZES)
def walk(request: pytest.FixtureRequest, chromium: "playwright.Browser", served: tuple[Plant, str]) -> Iterator[Walk]:
    width, height = SIZES[request.param]
    context = chromium.new_context(
        viewport={"width": width, "height": height}, java_script_enabled=True, accept_downloads=True
    )
    shots = request.config.getoption("--shots")
    yield Walk(context.new_page(), served[1], Path(shots) / f"desk-office-{request.param}" if shots else None)
    context.close()


def test_a_pending_practical_is_signed_at_the_machine_listed_by_the_office_and_exported(
    walk: Walk, served: tuple[Plant, str]
) -> None:
    page = walk.page
    walk.sign_in("rosalind")
    assert page.get_by_role("heading", level=1).inner_text().startswith("Who needs me this week?")
    walk.shoot("desk-01-week")
    page.get_by_role("link", name="Sign the practical").first.click()
    walk.shoot("desk-02-sign-off-empty")
    expect(page.get_by_text("As it stands: not complete")).to_be_visible()
    for box in page.locator(".choice", has_text="seen right").all():
        box.click()
    expect(page.get_by_text("As it stands: every critical step seen right")).to_be_visible()
    page.get_by_label("I stood at the machine").check()
    page.get_by_role("button", name="Sign as it stands").click()
    assert "The PIN of Dana Ruiz is missing" in page.get_by_role("alert").inner_text()
    walk.shoot("desk-03-sign-off-refused")
    assert page.locator(".choice input:checked").count() == page.locator(".steps > li").count()
    page.get_by_label("PIN of Dana Ruiz").fill(PIN)
    page.get_by_role("button", name="Sign as it stands").click()
    assert "Signed: PB-1, passed." in page.get_by_role("status").inner_text()
    walk.shoot("desk-04-person-authorised")
    page.get_by_role("button", name="sign out").click()
    walk.shoot("desk-05-sign-in")

    walk.sign_in("harriet")
    walk.shoot("office-01-questions")
    page.get_by_role("button", name="Answer").first.click()
    group = page.locator("tbody", has_text="Authorised to run")
    expect(group.get_by_text("Dana Ruiz")).to_be_visible()
    walk.shoot("office-02-list")
    with page.expect_download() as waiting:
        page.get_by_role("link", name="This list as a CSV file").click()
    listed = read_csv(waiting.value.path())
    (dana,) = (row for row in listed if row["person number"] == "00241")
    assert (dana["may run"], dana["machine"]) == ("yes", "PB-1")
    walk.go("/office/")
    with page.expect_download() as waiting:
        page.get_by_role("button", name="CSV file").click()
    entries = read_csv(waiting.value.path())
    assert entries[-1]["kind"] == "practical-signed"
    assert entries[-1]["person name then"] == "Dana Ruiz"
    assert entries[-1]["entry"] in dana["entries"]
    walk.go("/office/changed")
    assert page.get_by_role("heading", level=1).inner_text().startswith("No. The ledger holds.")
    walk.shoot("office-03-ledger")


def test_a_failed_critical_step_asks_what_happened_and_stands_as_not_passed(walk: Walk) -> None:
    page = walk.page
    walk.sign_in("rosalind")
    page.get_by_role("link", name="Sign the practical").first.click()
    third = page.locator(".step").nth(2)
    third.locator(".choice", has_text="failed").click()
    expect(page.get_by_text("As it stands: not passed")).to_be_visible()
    third.get_by_label("What happened").fill("Tried it at one height only.")
    page.get_by_label("I stood at the machine").check()
    page.get_by_label("PIN of Dana Ruiz").fill(PIN)
    walk.shoot("desk-06-sign-off-failed")
    page.get_by_role("button", name="Sign as it stands").click()
    assert "not passed" in page.get_by_role("status").inner_text()


def test_the_practical_can_be_signed_with_the_keyboard_alone(walk: Walk, served: tuple[Plant, str]) -> None:
    page, plant = walk.page, served[0]
    walk.sign_in("rosalind")
    walk.go(f"/desk/practicals/{plant.site.learner}/PB-1/operator")
    page.locator(".choice input").first.focus()
    for _ in page.locator(".steps > li").all():
        page.keyboard.press("Space")
        page.keyboard.press("Tab")
    assert page.locator("input[value=right]:checked").count() == page.locator(".steps > li").count()
    page.keyboard.press("Space")  # the tick that the steps were seen
    page.keyboard.press("Tab")
    page.keyboard.press("Tab")
    page.keyboard.type(PIN)
    page.keyboard.press("Enter")
    assert "Signed: PB-1, passed." in page.get_by_role("status").inner_text()


def test_the_sign_in_sheet_breaks_no_rule_of_access(walk: Walk) -> None:
    walk.go("/sign-in")
    assert axe_faults(walk.page) == []


def read_csv(path: Path) -> list[dict[str, str]]:
    """Read a file as the office hands it over."""
    return list(csv.DictReader(io.StringIO(Path(path).read_text(encoding="utf-8-sig"), newline="")))
