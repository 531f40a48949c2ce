"""The demo plant of 9 March 2026, built once for the tests that only read it."""

from datetime import date
from functools import cache, partial

import pytest
from click.testing import CliRunner

from trainer import bank
from trainer.cli import main
from trainer.settings import shipped

DAY = date(2026, 3, 9)


@pytest.fixture(scope="session")
def demo_folder(tmp_path_factory):
    folder = tmp_path_factory.mktemp("ostrand")
    built = CliRunner().invoke(main, ["demo", "--no-serve", "--data", str(folder), "--day", DAY.isoformat()])
    assert built.exit_code == 0, built.output
    return folder


@pytest.fixture(scope="package", autouse=True)
def bank_that_is_read_once():
    """Give every command the same reading of the shipped bank, which takes over a second and never changes."""
    first = cache(partial(bank.open_bank, shipped("content")))

    def opened(folder, extra=None, **given):
        plain = folder == shipped("content") and not extra and not given
        return first() if plain else real(folder, extra, **given)

    real = bank.open_bank
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(bank, "open_bank", opened)
        yield
