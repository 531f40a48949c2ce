"""Options and fixtures that every layer's tests may use.

Every record of a test is written as safely as a real one, with a wait for the disk at each commit. Where the machine has
room in a file system in memory, temporary folders lie there, and the waits cost nothing.
"""

import os
import shutil
from datetime import UTC, datetime
from pathlib import Path

import hypothesis
import pytest

from trainer.clock import FixedClock
from trainer.settings import Settings, read_settings

IN_MEMORY = Path("/dev/shm")
ROOM = 4 * 1024**3  # bytes; a run needs less than half of it
if IN_MEMORY.is_dir() and os.access(IN_MEMORY, os.W_OK) and shutil.disk_usage(IN_MEMORY).free > ROOM:
    os.environ.setdefault("PYTEST_DEBUG_TEMPROOT", str(IN_MEMORY))

# A busy machine makes no test wrong: nothing fails for being slow.
hypothesis.settings.register_profile(
    "patient", deadline=None, suppress_health_check=[hypothesis.HealthCheck.too_slow], database=None
)
hypothesis.settings.load_profile("patient")

MONDAY = datetime(2026, 3, 9, 13, 12, tzinfo=UTC)  # 07:12 at the demo plant


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--slow", action="store_true", help="also run load and endurance tests, which print figures")
    parser.addoption("--rows", type=int, default=1_000_000, help="how many entries or answers a benchmark has")
    parser.addoption("--shots", metavar="DIR", help="leave a PNG of every sheet that a browser test passes in DIR")
    parser.addoption("--update-golden", action="store_true", help="write golden files anew; never in CI")


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    if config.getoption("--slow"):
        return
    skip = pytest.mark.skip(reason="a load test; run it with --slow")
    for item in items:
        if "slow" in item.keywords:
            item.add_marker(skip)


@pytest.fixture
def clock() -> FixedClock:
    return FixedClock(MONDAY)


@pytest.fixture
def settings(tmp_path: Path) -> Settings:
    return read_settings({}, data=str(tmp_path / "data"), zone="America/Chicago", site="Ostrand Mill, Plant 2")
