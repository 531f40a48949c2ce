"""The bank that comes with the program, for what names its programmes."""

import pytest
from banks import shipped_bank

from trainer.bank import Bank


@pytest.fixture(scope="session")
def bank() -> Bank:
    return shipped_bank()
