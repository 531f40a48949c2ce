"""Every sheet that the bank can make opens: each lesson, question and drill, and what is said to each answer."""

import pytest
from browser.papers import asked, seated, told
from web.glass import Glass


@pytest.mark.parametrize("rows", [asked, told])
def test_every_sheet_opens(plant, bank, rows):
    addresses = seated(plant, "00241", rows(bank), lock=rows is told)
    glass = Glass(plant, plant.client())
    glass.sign_in()

    answers = {address: glass.client.get(address).status_code for address in addresses}

    assert {address: status for address, status in answers.items() if status != 200} == {}
