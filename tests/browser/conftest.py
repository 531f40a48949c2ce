"""A real Chromium in front of the doors: one browser for the run, a plant of its own for every test."""

import shutil
import threading
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import timedelta
from pathlib import Path

import pytest
from banks import shipped_bank
from demoplant import demo_plant
from web.plant import NOW, PIN, Plant, build_plant, open_plant
from werkzeug.serving import make_server

from trainer.bank import Bank
from trainer.records import assignments
from trainer.settings import read_settings

CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
QUIET = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)
INDUCTION = "press-brake-operator-induction"
SPANISH = "00244"  # the number of the second learner, whose language is Spanish


@dataclass(frozen=True, slots=True)
class Served:
    """A plant with its address."""

    plant: Plant
    address: str


@pytest.fixture(scope="session")
def chromium() -> Iterator[object]:
    """Start Chromium once. Without playwright or Chromium the tests are skipped, saying which is missing."""
    playwright = pytest.importorskip("playwright.sync_api", reason="playwright is not installed")
    if CHROMIUM is None:
        pytest.skip("no Chromium on this machine")
    with playwright.sync_playwright() as running:
        browser = running.chromium.launch(executable_path=CHROMIUM, args=list(QUIET))
        yield browser
        browser.close()


@pytest.fixture(scope="session")
def bank() -> Bank:
    return shipped_bank()


@pytest.fixture
def demo_copy(tmp_path_factory: pytest.TempPathFactory, tmp_path: Path) -> Path:
    """Return a copy of the demo plant, to be written to."""
    return Path(shutil.copytree(demo_plant(tmp_path_factory.getbasetemp()), tmp_path / "demo"))


@pytest.fixture(scope="session")
def with_learners(bank: Bank, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Build a plant in which two people have the induction before them, one reading English, one Spanish."""
    folder = tmp_path_factory.mktemp("learners")
    settings = read_settings({}, data=str(folder), zone="America/Chicago")
    build_plant(settings, bank)
    plant = open_plant(settings, bank)
    lucia = plant.add(SPANISH, "Lucía Ferreyra", badge="0013748926", pin=PIN, language="es")
    with plant.site.record.writing() as w:
        assignments.assign(
            w,
            person=lucia,
            programme=INDUCTION,
            by=plant.site.trainer,
            reason="new here",
            happened_on=plant.site.today(),
            machine="PB-1",
        )
    plant.site.record.close()
    return folder


@pytest.fixture
def kiosk_served(with_learners: Path, bank: Bank, tmp_path: Path) -> Iterator[Served]:
    """Serve a copy of the plant with two learners."""
    shutil.copytree(with_learners, tmp_path / "data")
    settings = read_settings({}, data=str(tmp_path / "data"), zone="America/Chicago", site="Ostrand Mill, Plant 2")
    plant = open_plant(settings, bank)
    plant.site.clock.instant = NOW + timedelta(minutes=20)
    server = make_server("127.0.0.1", 0, plant.app, threaded=True)
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    yield Served(plant, f"http://127.0.0.1:{server.server_port}")
    server.shutdown()
    thread.join()
    server.server_close()
    plant.site.record.close()
