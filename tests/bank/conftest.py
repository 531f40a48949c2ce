"""Fixtures of the bank's tests."""

from pathlib import Path

import pytest
from bank.scratch import ScratchBank


@pytest.fixture
def scratch_bank(tmp_path: Path) -> ScratchBank:
    return ScratchBank(tmp_path / "content")
