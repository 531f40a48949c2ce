"""Somebody in front of the kiosk: by touch, by keyboard, with a badge, in either language, at any glass."""

import re
from pathlib import Path
from typing import Any

from browser.conftest import Served
from browser.looks import FIT, REACH, axe_faults
from web.plant import KIOSK, PIN

from trainer.assessment.paper import Paper, Sheet
from trainer.records import sittings
from trainer.records.sittings import SittingRow

WIDE, LARGE, HAND = (1280, 800), (1920, 1080), (390, 844)
QUIET = (
    "Failed to load resource",  # a refused sign-in is answered 403
    "Autofocus processing was blocked",  # the sheet's own script gave the focus before the first picture
)
_PLACE = re.compile(r"/sittings/([0-9a-f]+)/(\d+)")


class Walker:
    """One person at one glass. ``see`` looks a sheet over; what is wrong with any of them is in ``faults``."""

    def __init__(self, page: Any, served: Served, *, size: tuple[int, int], shots: Path | None, touch: bool) -> None:
        self.page, self.served, self.size, self.shots, self.touch = page, served, size, shots, touch
        self.faults: list[str] = []
        self.looked: set[str] = set()
        self.count = 0
        self.script_off = False
        page.context.add_cookies([{"name": "kiosk", "value": KIOSK, "url": served.address}])
        page.on("console", lambda told: self.note(told.text))
        page.on("pageerror", lambda error: self.note(str(error)))

    def note(self, told: str) -> None:
        if not told.startswith(QUIET):
            self.faults.append(told)

    def go(self, path: str) -> None:
        self.page.goto(self.served.address + path)

    @property
    def path(self) -> str:
        return self.page.url.removeprefix(self.served.address)

    @property
    def kind(self) -> str:
        """Return the kind of sheet that is on the glass: ``lesson``, ``question``, ``drill`` …"""
        return str(self.page.locator("main").get_attribute("class")).removeprefix("work ").split()[0]

    def row(self) -> SittingRow:
        """Return the sitting that is on the glass, as it is on disk."""
        found = _PLACE.search(self.path)
        assert found, self.path
        with self.served.plant.site.record.reading() as r:
            return sittings.get(r, found[1])

    def sheet(self) -> Sheet:
        found = _PLACE.search(self.path)
        assert found, self.path
        return Paper.from_data(self.row().paper).sheet(int(found[2]))

    def see(self, name: str) -> None:
        """Look the sheet over, and leave a picture of it where ``--shots`` says."""
        self.count += 1
        if self.shots is not None:
            self.shots.mkdir(parents=True, exist_ok=True)
            hand = self.size == HAND
            self.page.screenshot(path=str(self.shots / f"{self.count:02d}-{name}.png"), full_page=hand)
        faults = [] if self.size == HAND else self.page.evaluate(FIT)
        if name not in self.looked:
            self.looked.add(name)
            faults += self.page.evaluate(REACH, self.size == HAND)
            faults += [] if self.script_off else axe_faults(self.page)  # axe itself is a script
        self.faults += [f"{name} ({self.path}): {fault}" for fault in faults]

    def press(self, target: Any, *, leads: bool = True) -> None:
        """Press a key of the sheet by its words, or what a locator finds; wait for the sheet that it leads to."""
        found = self.page.get_by_role("button", name=target, exact=True) if isinstance(target, str) else target
        act = found.tap if self.touch else found.click
        if not leads:
            act()
            return
        with self.page.expect_navigation():
            act()

    def dial(self, text: str) -> None:
        """Press the keys of the keypad, one by one."""
        for key in text:
            self.press(key, leads=False)

    def scan(self, code: str) -> None:
        """Hold a badge to the reader: it types as fast as it can."""
        self.page.keyboard.type(code)
        self.page.wait_for_timeout(160)

    def sign_in(self, number: str = "00241", pin: str = PIN) -> None:
        self.go("/")
        self.page.locator("#number").fill(number)
        self.page.locator("#pin").fill(pin)
        self.press(self.page.locator(".start .key.now"))
        assert self.path == "/sheets", self.page.content()

    def choose(self, form: dict[str, str]) -> None:
        """Press the answer that a form names, row by row where it takes several presses."""
        if form["choice"]:
            self.press(self.page.locator(f'.part-row[value="{form["choice"]}"]'))
        for row in form.get("given", "").split():
            second = self.page.locator(f'.part-row[value="second:{row}"]')  # partners and reasons
            self.press(second if second.count() else self.page.locator(f'.part-row[value="{row}"]'))

    def next(self) -> None:
        """Press the key that turns the sheet."""
        self.press(self.page.locator('button[form="turn"], .keypad .on'))
