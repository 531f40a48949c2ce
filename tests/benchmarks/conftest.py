"""Plants for benchmarks, built once. ``--rows`` says how many entries the large one has."""

from collections.abc import Iterator

import pytest
from benchmarks.plant import Plant, build

from trainer.bank import Bank, open_bank
from trainer.settings import read_settings, shipped


@pytest.fixture(scope="session")
def rows(request: pytest.FixtureRequest) -> int:
    return request.config.getoption("--rows")


@pytest.fixture(scope="session")
def bank() -> Bank:
    return open_bank(shipped("content"))


@pytest.fixture(scope="session")
def plant_of(tmp_path_factory: pytest.TempPathFactory, bank: Bank):
    """Return a maker of plants; each is taken away when the tests are over."""
    made: list[Plant] = []

    def make(**size: int) -> Plant:
        folder = tmp_path_factory.mktemp("plant")
        settings = read_settings({}, data=str(folder), zone="America/Chicago", site="Ostrand Mill, Plant 2")
        made.append(build(settings, bank, **size))
        return made[-1]

    yield make
    for plant in made:
        plant.record.close()
        plant.path.unlink()


@pytest.fixture(scope="session")
def large(plant_of, rows: int) -> Iterator[Plant]:
    """A plant with all the entries, for a hundredth as many people."""
    return plant_of(headcount=max(rows // 100, 10), machine_count=30, entries=rows)
