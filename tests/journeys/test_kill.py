"""`kill -9` of the server at any moment of a sitting: every acknowledged answer is there and the sitting goes on."""

import contextlib
import http.client
import os
import random
import signal
import socket
import subprocess
import sys
import threading
import time
import urllib.error
from pathlib import Path

import pytest
from journeys.browsing import Browser, Page

from trainer.assessment.drills import worked
from trainer.assessment.paper import Paper
from trainer.bank import Bank, open_bank
from trainer.bank.model import ComputeDrill
from trainer.clock import Clock
from trainer.records import assignments, ledger, open_record, people, sittings
from trainer.records.verifying import verify
from trainer.settings import Settings, read_settings, shipped
from trainer.units import show

KILLS = 50
NUMBER, PIN = "00241", "4071"
INDUCTION = "press-brake-operator-induction"
LOST = (http.client.HTTPException, urllib.error.URLError, OSError)


@pytest.fixture(scope="module")
def bank() -> Bank:
    return open_bank(shipped("content"))


@pytest.fixture
def settings(tmp_path: Path) -> Settings:
    made = read_settings({}, data=str(tmp_path / "data"))
    record = open_record(made, Clock())
    with record.writing() as w:
        trainer = people.add(w, number="00101", name="Ada Quill", roles=("trainer",))
        learner = people.add(w, number=NUMBER, name="Bo Lind", pin=PIN)
        assignments.assign(
            w, person=learner.key, programme=INDUCTION, by=trainer.key, reason="New here.", happened_on=w.today()
        )
    record.close()
    return made


class Server:
    """A real server that can be killed and is there again at once, at the same address."""

    def __init__(self, settings: Settings) -> None:
        with socket.socket() as probe:
            probe.bind(("127.0.0.1", 0))
            self.port = probe.getsockname()[1]
        self.nursery = subprocess.Popen(
            [sys.executable, str(Path(__file__).with_name("nursery.py"))],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            env={**os.environ, "TRAINER_DATA": str(settings.data)},
            text=True,
        )
        assert self.nursery.stdout.readline() == "ready\n"
        self.child = self.start()

    @property
    def address(self) -> str:
        return f"http://127.0.0.1:{self.port}"

    def start(self) -> int:
        self.nursery.stdin.write(f"{self.port}\n")
        self.nursery.stdin.flush()
        return int(self.nursery.stdout.readline())

    def kill(self) -> None:
        os.kill(self.child, signal.SIGKILL)

    def again(self) -> None:
        with contextlib.suppress(ProcessLookupError):
            self.kill()
        self.child = self.start()

    def close(self) -> None:
        with contextlib.suppress(ProcessLookupError):
            self.kill()
        self.nursery.stdin.close()
        self.nursery.wait(timeout=10)
        self.nursery.stdout.close()


@pytest.fixture
def server(settings: Settings):
    if not hasattr(os, "fork"):
        pytest.skip("this system cannot fork a server")
    made = Server(settings)
    yield made
    made.close()


def sign_in(browser: Browser) -> Page:
    start = browser.get("/")
    page = browser.post("/", start.hidden("csrf_token"), number=NUMBER, pin=PIN)
    assert page.path == "/sheets", page.text
    return page


def stored(settings: Settings, sitting: str) -> dict[int, str]:
    """Read, past the server, what is on disk: the chosen option or the number of each answered sheet."""
    record = open_record(settings, Clock(), create=False)
    with record.reading() as r:
        answers = sittings.get(r, sitting).answers
    record.close()
    return {number: str(row.answer["chosen"] or row.answer["value"]) for number, row in answers.items()}


def form_of(bank: Bank, paper: Paper, page: Page, number: int, rng: random.Random) -> tuple[dict[str, str], str]:
    """Return a form for the sheet and what of it will be on disk."""
    item = bank.item(paper.sheet(number).item)
    if isinstance(item, ComputeDrill):
        value = show(worked(item, paper.sheet(number).drawn).rounded, "mm", 1)
        return {"number": value.split()[0], "unit": "mm", "key": page.hidden("key")}, value
    assert page.values("choice"), f"{page.path} instead of {number}: {page.text[-3000:]}"
    choice = rng.choice(sorted(set(page.values("choice"))))
    return {"choice": choice, "key": page.hidden("key")}, choice


def test_every_acknowledged_answer_survives_and_the_sitting_goes_on(server: Server, settings: Settings, bank: Bank):
    rng = random.Random(20_417)
    browser = Browser(server.address)
    page = sign_in(browser)
    page = browser.post("/sittings", page.hidden("csrf_token"), programme=INDUCTION)
    sitting = page.path.split("/")[2]
    paper = paper_of(settings, sitting)
    acknowledged: dict[int, str] = {}
    kills = unacknowledged = 0
    for number in range(1, len(paper.sheets) + 1):
        if paper.sheet(number) in paper.marked:
            for _ in range(-(-KILLS // len(paper.marked))):
                page = browser.get(f"/sittings/{sitting}/{number}")
                form, value = form_of(bank, paper, page, number, rng)
                kept = answer_and_kill(server, browser, page, form, delay=rng.random() * 0.06)
                kills += 1
                found = stored(settings, sitting)
                if kept:
                    acknowledged[number] = value
                    assert found == acknowledged
                else:  # on disk or not, but never half, and nothing else lost
                    unacknowledged += 1
                    assert found in ({**acknowledged, number: value}, acknowledged)
                    acknowledged = found
        go_on(browser, sitting, number)
    page = browser.get(f"/sittings/{sitting}/hand-in")
    browser.post(f"/sittings/{sitting}/hand-in", page.hidden("csrf_token"))

    print(f"{kills} kills, {unacknowledged} before the answer was acknowledged")
    assert kills >= KILLS
    assert stored(settings, sitting) == acknowledged
    assert handed_in(settings) == 1


def answer_and_kill(server: Server, browser: Browser, page: Page, form: dict[str, str], *, delay: float) -> bool:
    """Send an answer, kill the server ``delay`` seconds later, bring it back; say whether the answer was acknowledged."""

    def strike() -> None:
        time.sleep(delay)
        server.kill()

    striker = threading.Thread(target=strike)
    striker.start()
    try:
        browser.post(page.path, page.hidden("csrf_token"), **form)
        kept = True
    except LOST:
        kept = False
    striker.join()
    server.again()
    return kept


def go_on(browser: Browser, sitting: str, number: int) -> None:
    """Turn to the next sheet: past an answer's feedback too."""
    for _ in range(2):
        page = browser.get(f"/sittings/{sitting}/{number}")
        if page.path != f"/sittings/{sitting}/{number}":
            return
        page = browser.post(f"{page.path}/turn", page.hidden("csrf_token"), stage=page.hidden("stage"))
        if page.path != f"/sittings/{sitting}/{number}":
            return


def paper_of(settings: Settings, sitting: str) -> Paper:
    record = open_record(settings, Clock(), create=False)
    with record.reading() as r:
        paper = Paper.from_data(sittings.get(r, sitting).paper)
    record.close()
    return paper


def handed_in(settings: Settings) -> int:
    """Return how many papers are on record, after checking that the record is whole."""
    record = open_record(settings, Clock(), create=False)
    with record.reading() as r:
        assert verify(r).good
        count = sum(entry.kind == "sitting-marked" for entry in ledger.entries(r))
    record.close()
    return count
