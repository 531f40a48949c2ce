"""Fixtures of the privacy tests: a site where somebody learned, signed in, reported, and left."""

from dataclasses import dataclass
from datetime import date, timedelta

import pytest
from records.site import Site

from trainer.records import access, acts, hashing, hazards, people, sessions
from trainer.records.privacy import rules

PIN = "7304"
LAST_DAY = date(2026, 3, 9)


@dataclass
class Office:
    """The site, and shortcuts for what an officer does."""

    site: Site

    def rule(self, kind: str, years: int | None, counts_from: str = "leaving") -> None:
        with self.site.record.writing() as w:
            rules.set_rule(w, kind=kind, years=years, counts_from=counts_from, by=self.site.officer, reason="policy")

    def leaves(self, key: str | None = None) -> None:
        """Let the learner leave today; by the next day the last day is over."""
        with self.site.record.writing() as w:
            people.leave(w, key or self.site.learner, on=w.today(), by=self.site.officer)
        self.on(self.site.today() + timedelta(days=1))

    def on(self, day: date) -> None:
        """Set the clock to noon of a later day."""
        self.site.clock.advance(timedelta(days=(day - self.site.today()).days))


@pytest.fixture
def office(site: Site) -> Office:
    site.sit(site.learner)
    site.show(site.learner)
    with site.record.writing() as w:
        hashing.set_pin(w, site.learner, PIN)
        access.sign_in_pin(w, "00241", PIN, place="kiosk 2")
        sessions.begin(w, person=site.learner, door="kiosk", place="kiosk 2")
        hazards.report(w, words="The foot switch has no cover.", kiosk="kiosk 2", person=site.learner)
        acts.event(
            w,
            person=site.learner,
            event="incident",
            note="Dana Ruiz was helped by Rosalind Achterberg.",
            by=site.trainer,
            happened_on=w.today(),
        )
    return Office(site)
