"""The server is killed at any moment of a sitting: what was acknowledged is there afterwards, and the sitting goes on."""

import http.client
import http.cookiejar
import random
import re
import signal
import socket
import subprocess
import sys
import threading
import time
import urllib.error
import urllib.parse
import urllib.request
from collections.abc import Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass, field
from os import kill
from pathlib import Path

import pytest
from banks import shipped_bank
from browser.papers import open_sitting, sheet_of
from web.plant import KIOSK, PIN, Plant, build_plant, open_plant

from trainer.assessment.paper import Sheet
from trainer.bank import Bank
from trainer.bank.model import PickOne
from trainer.records import ledger, sittings
from trainer.settings import read_settings

ENOUGH = 10  # answers, however few a slow machine gave while it was killed
DEATHS = 50
LONGEST = 0.6  # seconds that a server lives
SHEETS = 160
TOKEN = re.compile(r'name="csrf_token"[^>]*value="([^"]+)"')
KEY = re.compile(r'name="key" value="([^"]+)"')
GONE = (urllib.error.URLError, ConnectionError, http.client.HTTPException, TimeoutError)


def kiosk_cookie() -> http.cookiejar.Cookie:
    """Return what an enrolled kiosk holds."""
    where = {"domain": "127.0.0.1", "domain_specified": False, "domain_initial_dot": False, "port": None}
    life = {"expires": None, "discard": True, "secure": False, "comment": None, "comment_url": None, "rest": {}}
    return http.cookiejar.Cookie(
        0, "kiosk", KIOSK, **where, port_specified=False, path="/", path_specified=True, **life
    )


class Stay(urllib.request.HTTPRedirectHandler):
    """Do not follow: the redirect itself is what acknowledges."""

    def redirect_request(self, *_args: object) -> None:
        return None


@dataclass
class Client:
    """A browser without a face, and what the server has acknowledged to it."""

    address: str
    rng: random.Random
    answered: dict[int, str] = field(default_factory=dict)
    locked: set[int] = field(default_factory=set)
    reached: int = 1

    def __post_init__(self) -> None:
        jar = http.cookiejar.CookieJar()
        jar.set_cookie(kiosk_cookie())
        cookies = urllib.request.HTTPCookieProcessor(jar)
        self.opener = urllib.request.build_opener(urllib.request.ProxyHandler({}), cookies, Stay)

    def get(self, path: str) -> str:
        with self.opener.open(self.address + path, timeout=5) as answer:
            return answer.read().decode()

    def post(self, path: str, form: dict[str, str], page: str) -> str:
        """Send a form; return where the answer leads. Anything but a redirect is an error."""
        found = TOKEN.search(page)
        assert found, page
        body = urllib.parse.urlencode({**form, "csrf_token": found[1]}).encode()
        try:
            self.opener.open(self.address + path, body, timeout=5)
        except urllib.error.HTTPError as answer:
            if answer.code == 303:
                return str(answer.headers["Location"])
            raise
        raise AssertionError(f"{path} did not redirect")

    def sign_in(self) -> None:
        assert self.post("/", {"number": "00241", "pin": PIN}, self.get("/")) == "/answers"

    def step(self, sitting: str, sheets: list[Sheet]) -> None:
        """Do the next thing on the sheet that the sitting has come to."""
        number = self.reached
        path = f"/sittings/{sitting}/{number}"
        page = self.get(path)
        if number in self.locked or 'value="feedback"' in page:
            where = self.post(f"{path}/turn", {"stage": "feedback"}, page)
            self.reached = int(where.rsplit("/", 1)[1])
        elif number in self.answered:
            self.post(f"{path}/turn", {"stage": "answer"}, page)
            self.locked.add(number)
        else:
            choice = self.rng.choice(sheets[number - 1].order)
            self.post(path, {"choice": choice, "key": KEY.search(page)[1]}, page)
            self.answered[number] = choice


class Lives:
    """Starts the server and kills it."""

    def __init__(self, folder: Path, port: int) -> None:
        script = Path(__file__).with_name("lives.py")
        self.port = port
        self.parent = subprocess.Popen(
            [sys.executable, str(script), str(folder)], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
        )

    def begin(self) -> int:
        """Start a server, wait until it takes requests, return its process id."""
        self.parent.stdin.write(f"{self.port}\n")
        self.parent.stdin.flush()
        child = int(self.parent.stdout.readline())
        wait_for(self.port)
        return child

    def close(self) -> None:
        self.parent.stdin.close()
        self.parent.wait(timeout=10)
        self.parent.stdout.close()


@contextmanager
def as_started_by_hand(folder: Path, port: int) -> Iterator[None]:
    """Serve with the command that an administrator gives."""
    command = [sys.executable, "-m", "trainer", "serve", "--data", str(folder), "--port", str(port)]
    with subprocess.Popen(command, stdout=subprocess.DEVNULL) as server:
        wait_for(port)
        yield
        server.kill()


def wait_for(port: int) -> None:
    for _ in range(1_000):
        with socket.socket() as probe:
            if probe.connect_ex(("127.0.0.1", port)) == 0:
                return
        time.sleep(0.02)
    raise AssertionError("the server does not start")


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


@pytest.fixture(scope="module")
def bank() -> Bank:
    return shipped_bank()


@pytest.fixture
def folder(tmp_path: Path, bank: Bank) -> Path:
    settings = read_settings({}, data=str(tmp_path / "data"), zone="America/Chicago")
    build_plant(settings, bank)
    return tmp_path / "data"


@pytest.fixture
def plant(folder: Path, bank: Bank) -> Iterator[Plant]:
    """Look at the same record from beside the server."""
    plant = open_plant(read_settings({}, data=str(folder), zone="America/Chicago"), bank)
    yield plant
    plant.site.record.close()


@pytest.mark.skipif(not hasattr(signal, "SIGKILL"), reason="this system has no kill -9 and no fork")
def test_every_acknowledged_answer_is_there_after_each_of_fifty_kills(folder: Path, plant: Plant, bank: Bank) -> None:
    items = [name for name, question in bank.questions.items() if isinstance(question, PickOne)]
    sheets = [sheet_of(bank, number, items[number % len(items)]) for number in range(1, SHEETS + 1)]
    sitting = open_sitting(plant, "00241", sheets)
    rng, port = random.Random(20260309), free_port()
    client = Client(f"http://127.0.0.1:{port}", rng)
    caught = 0
    with closing(Lives(folder, port)) as lives:
        for life in range(DEATHS):
            child = lives.begin()
            if life == 0:
                client.sign_in()
            caught += killed_in_the_middle(client, sitting, sheets, child, rng.uniform(0.005, LONGEST))
            compare(client, plant, sitting)
    with as_started_by_hand(folder, port):
        for _ in range(40):
            if len(client.answered) >= ENOUGH:
                break
            client.step(sitting, sheets)
        compare(client, plant, sitting)
    assert caught >= DEATHS // 2, "the kills came too late to interrupt anything"
    assert len(client.answered) >= ENOUGH
    with plant.site.record.reading() as r:
        assert ledger.verify(r).good


def killed_in_the_middle(client: Client, sitting: str, sheets: list[Sheet], child: int, after: float) -> bool:
    """Go on with the sitting until the server is dead; say whether a request was on its way just then."""
    timer = threading.Timer(after, kill, (child, signal.SIGKILL))
    timer.start()
    try:
        while True:
            client.step(sitting, sheets)
    except urllib.error.HTTPError:
        raise  # it answered, and not as it should
    except GONE as error:
        return "refused" not in str(error)
    finally:
        timer.join()


def compare(client: Client, plant: Plant, sitting: str) -> None:
    """What the server acknowledged stands in the record, and nothing else for those sheets."""
    with plant.site.record.reading() as r:
        row = sittings.get(r, sitting)
    stored = {number: row.answers[number].answer["chosen"] for number in client.answered}
    assert stored == client.answered
    assert all(row.answers[number].locked for number in client.locked)
    assert client.reached <= row.at <= client.reached + 1
    assert row.state == "open"
