"""Every sheet that the bank can make fits the glass, in every language: each lesson, question, answer, slip."""

from typing import Any

import pytest
from browser.conftest import SPANISH, Served
from browser.looks import FIT
from browser.papers import answer_all, everything, open_sitting, sheet_of
from browser.walker import WIDE, Walker

pytestmark = pytest.mark.browser
READERS = {"en": "00241", "es": SPANISH}
REFRESHER = "press-brake-operator-refresher"


@pytest.mark.parametrize("tongue", READERS)
def test_every_sheet_fits_without_scrolling(chromium: Any, kiosk_served: Served, bank: Any, tongue: str) -> None:
    context = chromium.new_context(viewport={"width": WIDE[0], "height": WIDE[1]}, locale=tongue)
    walker = Walker(context.new_page(), kiosk_served, size=WIDE, shots=None, touch=False)
    walker.sign_in(READERS[tongue])
    faults = []
    for path in paths(kiosk_served, bank, READERS[tongue]):
        walker.page.goto(kiosk_served.address + path, wait_until="domcontentloaded")
        faults += [f"{walker.page.title()} ({path}): {fault}" for fault in walker.page.evaluate(FIT)]
    assert walker.page.locator("html").get_attribute("lang") == tongue
    context.close()
    assert not faults, "\n".join(faults)


def paths(served: Served, bank: Any, number: str) -> list[str]:
    """Seat a person at two papers that hold everything: one answered, one with the feedback to each answer."""
    plant, made = served.plant, list(everything(bank))
    once = {(item, tuple((drawn or {}).items())): (item, drawn, answer) for item, drawn, answer in made}
    asked, told = list(once.values()), [one for one in made if one[2] is not None]
    found = []
    for rows, programme, lock in ((asked, "press-brake-operator-induction", False), (told, REFRESHER, True)):
        sheets = [sheet_of(bank, place, item, drawn) for place, (item, drawn, _answer) in enumerate(rows, 1)]
        sitting = open_sitting(plant, number, sheets, at=len(sheets), programme=programme)
        answer_all(plant, sitting, sheets, [answer for _item, _drawn, answer in rows], lock=lock)
        found += [f"/sittings/{sitting}/{sheet.number}" for sheet in sheets]
    return found
