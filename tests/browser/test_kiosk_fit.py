"""Every sheet that the bank can make fits the glass, in every language: each lesson, question, answer, slip.

By default the fullest of each kind are opened, in the language that runs longest; ``--slow`` opens every one in all.
"""

from typing import Any

import pytest
from browser.conftest import SPANISH, Served
from browser.looks import FIT
from browser.papers import asked, fullest, seated, told, told_once
from browser.walker import WIDE, Walker

pytestmark = pytest.mark.browser
SLOW = pytest.mark.slow
READERS = {"en": "00241", "es": SPANISH}


@pytest.mark.parametrize("rows", [asked, told_once, pytest.param(told, marks=SLOW)])
@pytest.mark.parametrize("only", ["fullest", pytest.param("all", marks=SLOW)])
@pytest.mark.parametrize("tongue", [pytest.param("en", marks=SLOW), "es"])  # Spanish runs longer
def test_every_sheet_fits_without_scrolling(
    chromium: Any, kiosk_served: Served, bank: Any, *, tongue: str, only: str, rows: Any
) -> None:
    context = chromium.new_context(viewport={"width": WIDE[0], "height": WIDE[1]}, locale=tongue)
    walker = Walker(context.new_page(), kiosk_served, size=WIDE, shots=None, touch=False)
    walker.sign_in(READERS[tongue])
    faults = []
    some = rows(bank) if only == "all" else fullest(bank, rows(bank))
    for address in seated(kiosk_served.plant, READERS[tongue], some, lock=rows is not asked):
        walker.page.goto(kiosk_served.address + address, wait_until="domcontentloaded")
        faults += [f"{walker.page.title()} ({address}): {fault}" for fault in walker.page.evaluate(FIT)]
    assert walker.page.locator("html").get_attribute("lang") == tongue
    context.close()
    assert not faults, "\n".join(faults)
