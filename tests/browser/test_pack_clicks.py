"""From signing in at the office of the demo plant to the whole pack for ten people: the clicks are counted."""

import io
import threading
import zipfile

import pytest
from werkzeug.serving import make_server

from trainer.cli._seeding.life import PASSWORD
from trainer.clock import Clock
from trainer.records import open_record, people
from trainer.settings import read_settings
from trainer.web import create_app

pytestmark = pytest.mark.browser
MOST = 6  # clicks, and fewer than that are wanted


def test_the_pack_for_ten_people_takes_fewer_than_six_clicks(chromium, bank, demo_copy):
    settings = read_settings({}, data=str(demo_copy))
    record = open_record(settings, Clock())
    with record.reading() as r:
        everybody = people.everybody(r)
    officer = next(person for person in everybody if person.login == "harriet")
    numbers = [person.number for person in everybody][:10]
    server = make_server("127.0.0.1", 0, create_app(settings, bank=bank, record=record), threaded=True)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    context = chromium.new_context(viewport={"width": 1280, "height": 800}, accept_downloads=True)
    page, clicks = context.new_page(), 0

    def click(name: str) -> None:
        nonlocal clicks
        clicks += 1
        page.get_by_role("button", name=name).click()

    try:
        page.goto(f"http://127.0.0.1:{server.server_port}/sign-in")
        page.get_by_label("Login").fill(officer.login)
        page.get_by_label("Password").fill(PASSWORD)
        click("Sign in")
        page.wait_for_load_state()
        if "/office/" not in page.url:  # somebody who has the desk as well
            clicks += 1
            page.get_by_role("link", name="Office").first.click()
        page.get_by_placeholder("numbers, or empty").fill(" ".join(numbers))
        with page.expect_download() as waiting:
            click("Make the pack")
        with zipfile.ZipFile(io.BytesIO(waiting.value.path().read_bytes())) as pack:
            named = pack.read(
                next(name for name in pack.namelist() if name.endswith("data/identity/people.jsonl"))
            ).decode()
    finally:
        context.close()
        server.shutdown()
        record.close()

    assert clicks < MOST
    print(f"\nclicks from sign-in to the pack for ten people: {clicks}")
    assert [number for number in numbers if number not in named] == []
