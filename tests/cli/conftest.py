"""The demo plant of 9 March 2026, built once for the tests that only read it."""

from datetime import date

import pytest
from click.testing import CliRunner

from trainer.cli import main

DAY = date(2026, 3, 9)


@pytest.fixture(scope="session")
def demo_folder(tmp_path_factory):
    folder = tmp_path_factory.mktemp("ostrand")
    built = CliRunner().invoke(main, ["demo", "--no-serve", "--data", str(folder), "--day", DAY.isoformat()])
    assert built.exit_code == 0, built.output
    return folder
