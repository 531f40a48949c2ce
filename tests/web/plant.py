"""A small plant behind the doors, for tests of desk and office: a record's site whose people can sign in."""

import hashlib
import random
import re
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from typing import Any

from flask import Flask
from flask.testing import FlaskClient
from records.site import INDUCTION, Site, build_site

from trainer.assessment.paper import build_paper
from trainer.assessment.result import result
from trainer.bank import Bank
from trainer.cli._seeding.answers import answer_paper
from trainer.clock import FixedClock
from trainer.records import Record, assignments, open_record, people, sittings
from trainer.records.ledger import Entry
from trainer.records.models import Kiosk
from trainer.settings import Settings
from trainer.web import create_app

NOW = datetime(2026, 3, 9, 13, 12, tzinfo=UTC)  # 07:12 at the plant, a Monday
PASSWORD = "long enough for a door"
PIN = "7304"
KIOSK = "a-token-of-an-enrolled-kiosk"  # no real one; browsers of the tests hold it
TOKEN = re.compile(r'name="csrf_token"[^>]*value="([^"]+)"')


@dataclass
class Plant:
    """The application, its site, and a client for whoever signs in."""

    app: Flask
    site: Site

    def client(self, login: str | None = None) -> FlaskClient:
        """Return a browser; with ``login`` somebody is signed in at desk and office. By then it is the tests' day."""
        self.site.clock.instant = max(self.site.clock.instant, NOW)
        client = self.app.test_client()
        client.set_cookie("kiosk", KIOSK)
        if login is not None:
            token = csrf(client.get("/sign-in").text)
            form = {"login": login, "password": PASSWORD, "csrf_token": token}
            assert client.post("/sign-in", data=form).status_code == 303
        return client

    def add(self, number: str, name: str, shift: str = "Early", **given: Any) -> str:
        """Add a person and return the key."""
        with self.site.record.writing() as w:
            return people.add(w, number=number, name=name, shift=shift, **given).key

    def at(self, days_ago: int) -> None:
        """Set the clock to a day before the one on which the tests look; it never goes back."""
        wanted = NOW - timedelta(days=days_ago)
        assert wanted >= self.site.clock.instant, "tell what happened in the order in which it happened"
        self.site.clock.instant = wanted

    def authorise(self, number: str, name: str, shift: str = "Early", *, days: int = 60) -> str:
        """Add a person who passed ``days`` ago and was signed off then."""
        self.at(days)
        key = self.add(number, name, shift)
        self.site.sit(key)
        self.site.show(key)
        return key

    def take(self, key: str, *mistakes: str, programme: str = INDUCTION, seed: int = 7) -> Entry:
        """Let a person take a real paper of the bank, making ``mistakes``, and hand it in; a coach is not in the way."""
        self.site.talk_over(key)
        bank, record = self.site.bank, self.site.record
        paper = build_paper(bank, programme, seed)
        given = answer_paper(bank, paper, mistakes, random.Random(seed))
        with record.writing() as w:
            sitting = sittings.start(
                w, bank, person=key, programme=programme, paper=paper, language="en", kiosk="kiosk 2"
            )
            for one in given:
                number = one.sheet.number
                sittings.save_answer(w, sitting.id, number, one.answer, one.mark, key=f"k{number}", took_ms=one.took_ms)
            return sittings.hand_in(w, sitting.id, result(bank, paper, [one.mark for one in given]))


def csrf(page: str) -> str:
    """Return the token that a page's forms carry."""
    found = TOKEN.search(page)
    assert found, "the page has no form with a token"
    return found[1]


def post(client: FlaskClient, address: str, form: dict[str, Any], *, of: str | None = None) -> Any:
    """Send a form as the page at ``of`` (default: the address itself) would."""
    token = csrf(client.get(of or address).text)
    return client.post(address, data={**form, "csrf_token": token})


def enrol(record: Record, by: str) -> None:
    """Put a kiosk on file that the tests' browsers are, without an entry, so that entries keep their numbers."""
    digest = hashlib.sha256(KIOSK.encode()).hexdigest()
    with record.writing() as w:
        made = {"id": "0" * 32, "name": "Hall 2", "token": digest, "invited_by": by}
        w.session.add(Kiosk(**made, invited_at=w.now(), enrolled_at=w.now()))


def build_plant(settings: Settings, bank: Bank) -> None:
    """Build, 500 days before the tests' day: a learner with a programme, a trainer, an officer, one with both roles."""
    clock = FixedClock(NOW - timedelta(days=500))
    record = open_record(settings, clock)
    site = build_site(record, clock, bank)
    with record.writing() as w:
        for key, login in ((site.trainer, "rosalind"), (site.officer, "harriet")):
            people.change(w, key, login=login, shift="Early")
            people.set_password(w, key, PASSWORD)
            people.set_pin(w, key, PIN)
        people.change(w, site.learner, shift="Early")
        people.set_pin(w, site.learner, PIN)
        both = people.add(w, number="00115", name="Abdulrahman Siddiqi", roles=("trainer", "officer"), login="abdul")
        people.set_password(w, both.key, PASSWORD)
        assignments.assign(
            w,
            person=site.learner,
            programme=INDUCTION,
            by=site.trainer,
            reason="new here",
            happened_on=site.today(),
            machine="PB-1",
        )
    enrol(record, site.officer)
    record.close()


def open_plant(settings: Settings, bank: Bank) -> Plant:
    """Open a plant that was built, on the day on which it was built."""
    clock = FixedClock(NOW - timedelta(days=500))
    record = open_record(settings, clock)
    site = Site(record, clock, bank)
    with record.reading() as r:
        site.learner, site.trainer, site.officer = (
            people.with_number(r, number)[0].key for number in ("00241", "00101", "00112")
        )
    return Plant(app=create_app(settings, bank=bank, record=record, clock=clock), site=site)
