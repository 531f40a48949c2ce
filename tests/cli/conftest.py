"""The demo plant of 9 March 2026, built once for the tests that only read it."""

import pytest
from banks import shipped_bank
from demoplant import demo_plant

from trainer import bank
from trainer.settings import shipped


@pytest.fixture(scope="session")
def demo_folder(tmp_path_factory):
    return demo_plant(tmp_path_factory.getbasetemp())


@pytest.fixture(scope="package", autouse=True)
def bank_that_is_read_once():
    """Give every command the same reading of the shipped bank, which takes over a second and never changes."""

    def opened(folder, extra=None, **given):
        plain = folder == shipped("content") and not extra and not given
        return shipped_bank() if plain else real(folder, extra, **given)

    real = bank.open_bank
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(bank, "open_bank", opened)
        yield
