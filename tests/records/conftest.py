"""Fixtures of the record's tests: each test that asks for ``record`` runs on SQLite and on a real PostgreSQL."""

import shutil
import tempfile
import warnings
from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from pathlib import Path

import pytest
from banks import shipped_bank
from records.site import Site, build_site
from sqlalchemy import create_engine, make_url, text

from trainer.bank import Bank
from trainer.clock import FixedClock
from trainer.records import Record, open_record
from trainer.records.database import engine_of
from trainer.records.migrating import upgrade
from trainer.settings import Settings, read_settings


@dataclass
class Postgres:
    """A PostgreSQL server that holds one database per test, each copied from a migrated one."""

    url: str
    made: int = 0

    def run(self, statement: str) -> None:
        engine = create_engine(self.url, isolation_level="AUTOCOMMIT")
        with engine.connect() as connection:
            connection.execute(text(statement))
        engine.dispose()

    def address(self, name: str) -> str:
        return make_url(self.url).set(database=name).render_as_string(hide_password=False)

    def fresh(self, template: str = "model") -> str:
        self.made += 1
        name = f"t{self.made}"
        self.run(f"CREATE DATABASE {name} TEMPLATE {template}")
        return self.address(name)


@pytest.fixture(scope="session")
def postgres() -> Iterator[Postgres]:
    folder = tempfile.mkdtemp(prefix="trainer-pg-")
    try:
        with warnings.catch_warnings():  # its libraries look for a runtime folder and warn where there is none
            warnings.simplefilter("ignore")
            import pgserver

            server = pgserver.get_server(folder, cleanup_mode=None)
    except Exception as error:  # noqa: BLE001  (whatever the reason, it is told)
        shutil.rmtree(folder, ignore_errors=True)
        pytest.skip(f"no PostgreSQL here: {error}")
    url = make_url(server.get_uri()).set(drivername="postgresql+psycopg").render_as_string(hide_password=False)
    database = Postgres(url)
    for quick in ("fsync", "full_page_writes", "synchronous_commit"):  # these databases need not outlive a power cut
        database.run(f"ALTER SYSTEM SET {quick} = off")
    database.run("SELECT pg_reload_conf()")
    database.run("CREATE DATABASE model")
    engine = engine_of(read_settings({}, database=database.address("model")))
    upgrade(engine)
    engine.dispose()
    yield database
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        pgserver.pg_ctl(["-w", "-m", "immediate", "stop"], pgdata=server.pgdata, user=server.system_user)
    shutil.rmtree(folder, ignore_errors=True)


@pytest.fixture(scope="session")
def blank(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return the folder of a migrated SQLite record with nothing in it, to be copied: migrating takes longer than most tests."""
    folder = tmp_path_factory.mktemp("blank")
    open_record(read_settings({}, data=str(folder)), FixedClock(datetime(2026, 1, 5, tzinfo=UTC))).close()
    return folder


@pytest.fixture(params=["sqlite", "postgresql"])
def stored(request: pytest.FixtureRequest, settings: Settings, blank: Path) -> Settings:
    """Return settings that lead to an empty database, once of each kind."""
    if request.param == "postgresql":
        return replace(settings, database=request.getfixturevalue("postgres").fresh())
    shutil.copytree(blank, settings.data, dirs_exist_ok=True)
    return settings


@pytest.fixture
def record(stored: Settings, clock: FixedClock) -> Iterator[Record]:
    opened = open_record(stored, clock)
    yield opened
    opened.close()


@pytest.fixture(scope="session")
def bank() -> Bank:
    return shipped_bank()


@pytest.fixture
def site(record: Record, clock: FixedClock, bank: Bank) -> Site:
    return build_site(record, clock, bank)
