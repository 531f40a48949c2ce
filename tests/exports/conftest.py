"""The bank that comes with the program, for what names its programmes."""

import pytest

from trainer.bank import Bank, open_bank
from trainer.settings import shipped


@pytest.fixture(scope="session")
def bank() -> Bank:
    return open_bank(shipped("content"))
