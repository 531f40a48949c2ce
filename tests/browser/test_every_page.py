"""Every page of desk, office and verification at the demo plant, found by its links: rules of access, width, policy."""

import re
import threading
from collections.abc import Iterator
from html import unescape
from typing import Any
from urllib.parse import urljoin, urlsplit

import pytest
from browser.looks import SMALL_TEXT, axe_faults
from flask import Flask
from werkzeug.serving import make_server

from trainer.bank import Bank
from trainer.cli._seeding.life import PASSWORD
from trainer.clock import Clock
from trainer.records import open_record
from trainer.settings import read_settings
from trainer.web import create_app

pytestmark = pytest.mark.browser
WIDTHS = (390, 1280, 1920)
SPECIMENS = 3
LINK = re.compile(r'(?:href|method="get" action)="([^"#]+)')
BEGIN = ("/desk/", "/office/", "/verify")
ONLY_AFTER = {  # sheets that follow something done, so that no link of a quiet plant leads to them
    "desk.assigned",
    "desk.events_made",
    "desk.talk_door",
    "desk.talk_sheet",
    "verify.verify",
}


@pytest.fixture
def served(demo_copy: Any, bank: Bank) -> Iterator[tuple[Flask, str]]:
    settings = read_settings({}, data=str(demo_copy), zone="America/Chicago")
    record = open_record(settings, Clock())
    app = create_app(settings, bank=bank, record=record)
    server = make_server("127.0.0.1", 0, app, threaded=True)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    yield app, f"http://127.0.0.1:{server.server_port}"
    server.shutdown()
    record.close()


def test_every_page_that_a_link_leads_to_can_be_used_by_all(chromium: Any, served: tuple[Flask, str]) -> None:
    app, address = served
    context = chromium.new_context(viewport={"width": 1280, "height": 800})
    page, told, faults = context.new_page(), [], []
    page.on("console", lambda message: told.append(message.text))
    page.goto(urljoin(address, "/sign-in"))
    page.get_by_label("Login").fill("abdul")
    page.get_by_label("Password").fill(PASSWORD)
    page.get_by_role("button", name="Sign in").click()
    found = linked(app, context.request, address)
    for path in found.values():
        page.goto(urljoin(address, path))
        faults += look(page, path)
    context.close()
    assert faults == []
    assert [line for line in told if "Content Security Policy" in line] == []
    assert pages(app) - set(found) - ONLY_AFTER == set(), "no link leads there"


def linked(app: Flask, asking: Any, address: str) -> dict[str, str]:
    """Follow the links of up to ``SPECIMENS`` pages of each kind; return one path for each kind of page."""
    found: dict[str, list[str]] = {}
    waiting = list(BEGIN)
    while waiting:
        path = waiting.pop(0)
        endpoint = endpoint_of(app, path)
        known = found.setdefault(endpoint, []) if endpoint else None
        if known is None or path in known or len(known) >= SPECIMENS:
            continue
        answer = asking.get(urljoin(address, path))
        assert answer.status < 400, f"{path} answered {answer.status}"
        known.append(path)
        waiting += [urljoin(path, unescape(link)) for link in LINK.findall(answer.text())]
        if endpoint == "desk.person":  # linked only from those of whom much is known
            waiting.append(f"{path}/history")
    return {endpoint: paths[0] for endpoint, paths in found.items()}


def endpoint_of(app: Flask, path: str) -> str | None:
    """Return whose page a path is; None for a file, and for what is not of desk, office or verification."""
    plain = urlsplit(path).path
    if not plain.startswith(BEGIN) or "." in plain.rsplit("/", 1)[-1]:
        return None
    return str(app.url_map.bind("").match(plain, method="GET")[0])


def pages(app: Flask) -> set[str]:
    rules = [rule for rule in app.url_map.iter_rules() if "GET" in (rule.methods or ())]
    return {rule.endpoint for rule in rules if rule.rule.startswith(BEGIN) and "." not in rule.rule}


def look(page: Any, path: str) -> list[str]:
    faults = [f"{path}: {fault}" for fault in axe_faults(page)]
    faults += [f"{path}: text of {size} px: {text}" for text, size in page.evaluate(SMALL_TEXT)]
    for width in WIDTHS:
        page.set_viewport_size({"width": width, "height": 800})
        if page.evaluate("document.documentElement.scrollWidth > window.innerWidth"):
            faults.append(f"{path}: runs over the edge at {width} px")
    return faults
