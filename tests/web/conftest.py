"""Fixtures of the doors' tests: the bank that comes with the program, and a small plant behind the doors."""

import shutil
from pathlib import Path

import pytest
from banks import shipped_bank
from web.plant import Plant, build_plant, open_plant

from trainer.bank import Bank
from trainer.settings import Settings, read_settings


@pytest.fixture(scope="session")
def bank() -> Bank:
    return shipped_bank()


@pytest.fixture(scope="session")
def built_plant(bank: Bank, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Build the plant once; hashing secrets is slow on purpose."""
    folder = tmp_path_factory.mktemp("plant")
    build_plant(read_settings({}, data=str(folder), zone="America/Chicago"), bank)
    return folder


@pytest.fixture
def plant(settings: Settings, built_plant: Path, bank: Bank) -> Plant:
    """Return a plant of the test's own, 500 days before the day on which the test looks."""
    shutil.copytree(built_plant, settings.data)
    return open_plant(settings, bank)
