"""Bringing the tables up to date, and telling whether they are. There is no ini file: all is said here."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from alembic import command
from alembic.autogenerate import compare_metadata
from alembic.config import Config
from alembic.runtime.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy import Connection, Engine, text

from trainer.errors import Missing, RecordError
from trainer.records import triggers
from trainer.records.models import Base
from trainer.wording import say

SCRIPTS = Path(__file__).parent / "migrations"
LOCK = 0x7261696E  # advisory lock of PostgreSQL: one process migrates, the others wait


def config(connection: Connection | None = None) -> Config:
    """Return Alembic's configuration."""
    made = Config()
    made.set_main_option("script_location", str(SCRIPTS).replace("%", "%%"))
    made.attributes["connection"] = connection
    return made


def head() -> str:
    """Return the revision that this program needs."""
    found = ScriptDirectory.from_config(config()).get_current_head()
    if found is None:
        raise RecordError("The program has no migrations; install it anew.")
    return found


def current(connection: Connection) -> str | None:
    """Return the revision that a database has; None for an empty one."""
    return MigrationContext.configure(connection).get_current_revision()


def upgrade(engine: Engine, *, create: bool = True) -> bool:
    """Bring a database to the revision this program needs; say whether anything had to be done."""
    needed = head()
    with engine.connect() as connection:
        if current(connection) == needed:
            return False
    with _alone(engine) as connection:
        found = current(connection)
        if found is None and not create:
            raise Missing("The database holds no record yet.")
        _refuse_newer(found)
        if found != needed:
            command.upgrade(config(connection), "head")
    return True


def differences(engine: Engine) -> list[str]:
    """Return how a database differs from what this program expects; empty when it does not."""
    with engine.connect() as connection:
        found, needed = current(connection), head()
        if found != needed:
            return [f"revision {found or 'none'}, needs {needed}"]
        context = MigrationContext.configure(connection, opts={"compare_type": True})
        changes = [str(change) for change in compare_metadata(context, Base.metadata)]
        missing = triggers.names(connection.dialect.name) - present_triggers(connection)
    return changes + [f"missing trigger {name}" for name in sorted(missing)]


def present_triggers(connection: Connection) -> frozenset[str]:
    """Return the names of the triggers that a database has and that are switched on."""
    queries = {
        "sqlite": "SELECT name FROM sqlite_master WHERE type = 'trigger'",
        "postgresql": "SELECT tgname FROM pg_trigger WHERE NOT tgisinternal AND tgenabled <> 'D'",
    }
    return frozenset(connection.scalars(text(queries[connection.dialect.name])))


def _refuse_newer(found: str | None) -> None:
    known = {script.revision for script in ScriptDirectory.from_config(config()).walk_revisions()}
    if found is not None and found not in known:
        raise RecordError(say("The record was written by a newer program (revision {found}).", found=found))


@contextmanager
def _alone(engine: Engine) -> Iterator[Connection]:
    with engine.begin() as connection:
        if connection.dialect.name == "postgresql":
            connection.execute(text("SELECT pg_advisory_xact_lock(:lock)"), {"lock": LOCK})
        yield connection
