"""Opening the database: engine and transactions.

SQLite runs in WAL mode with ``synchronous=FULL``, so what was acknowledged survives a power cut, and every
transaction is begun explicitly: ``BEGIN IMMEDIATE`` for writing, so that two writers wait for each other instead of
failing half-way. PostgreSQL reads in one repeatable snapshot and writes in read-committed transactions.
"""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Engine, create_engine, event, make_url
from sqlalchemy.exc import DatabaseError, DataError, NoSuchModuleError, SQLAlchemyError
from sqlalchemy.orm import Session

from trainer.clock import Clock
from trainer.errors import Missing, RecordError, UsageError
from trainer.records import migrating, pepper
from trainer.records.work import Reading, Writing
from trainer.settings import Settings
from trainer.wording import say

WAIT = 30  # seconds that a writer waits for another


class Record:
    """The record of the site: makes transactions."""

    def __init__(self, engine: Engine, settings: Settings, clock: Clock, key: bytes) -> None:
        self.engine = engine
        self._given = (clock, settings.zone, key)
        reading: dict[str, Any] = {"writing": False}
        writing: dict[str, Any] = {"writing": True}
        if engine.dialect.name == "postgresql":
            reading |= {"isolation_level": "REPEATABLE READ", "postgresql_readonly": True}
            writing |= {"isolation_level": "READ COMMITTED"}
        self._reading = engine.execution_options(**reading)
        self._writing = engine.execution_options(**writing)

    @contextmanager
    def reading(self) -> Iterator[Reading]:
        """Give a transaction that sees one consistent state and changes nothing."""
        with _readable(), Session(self._reading, expire_on_commit=False) as session:
            yield Reading(session, *self._given)

    @contextmanager
    def writing(self) -> Iterator[Writing]:
        """Give a transaction that is kept when the block ends, and dropped on an exception.

        An error that says ``keeps_work`` (a refused sign-in: the failed try has to count) is raised after keeping.
        """
        with _readable(), Session(self._writing, expire_on_commit=False) as session:
            try:
                yield Writing(session, *self._given)
            except RecordError as error:
                if getattr(error, "keeps_work", False):
                    session.commit()
                raise
            session.commit()

    @contextmanager
    def trying(self) -> Iterator[Writing]:
        """Give a transaction for seeing what an act would come to: nothing of it is kept."""
        with _readable(), Session(self._writing, expire_on_commit=False) as session:
            yield Writing(session, *self._given)

    def close(self) -> None:
        """Close every connection."""
        self.engine.dispose()


def open_record(settings: Settings, clock: Clock, *, create: bool = True) -> Record:
    """Open the site's record, bring its tables up to date and return it.

    With ``create`` false a record that is not there yet raises :class:`Missing` instead of being made. Raises
    :class:`RecordError` when the database cannot be opened or was written by a newer program.
    """
    engine = engine_of(settings, create=create)
    try:
        upgrade(engine, create=create)
        key = pepper.read(settings.data)
        with _told(), engine.connect() as connection:
            pepper.must_fit(connection, key)
    except BaseException:
        engine.dispose()
        raise
    return Record(engine, settings, clock, key)


def upgrade(engine: Engine, *, create: bool = True) -> bool:
    """Bring the tables up to date; say whether anything had to be done."""
    with _told():
        return migrating.upgrade(engine, create=create)


def differences(engine: Engine) -> list[str]:
    """Return how the tables differ from what this program needs; empty when they do not."""
    with _told():
        return migrating.differences(engine)


@contextmanager
def _readable() -> Iterator[None]:
    """Turn a value that no database can hold (a NUL, half a character, a number too large) into one sentence."""
    try:
        yield
    except (DataError, UnicodeEncodeError, OverflowError) as error:
        raise UsageError("A value is too long, or holds a sign that cannot be stored.") from error


@contextmanager
def _told() -> Iterator[None]:
    try:
        yield
    except DatabaseError as error:
        raise RecordError(say("The database cannot be opened: {reason}", reason=reason_of(error))) from error


def engine_of(settings: Settings, *, create: bool = True) -> Engine:
    """Return the engine for the database that the settings name; its folder is made when ``create`` is true."""
    try:
        url = make_url(settings.database_url)
        if url.drivername in {"postgresql", "postgres"}:
            url = url.set(drivername="postgresql+psycopg")
        arguments: dict[str, Any] = {"timeout": WAIT} if url.get_backend_name() == "sqlite" else {}
        engine = create_engine(url, connect_args=arguments, pool_pre_ping=url.get_backend_name() != "sqlite")
    except ImportError as error:
        raise UsageError(say("The driver of that database is missing: {reason}.", reason=str(error))) from error
    except (SQLAlchemyError, NoSuchModuleError) as error:
        raise UsageError(say("TRAINER_DATABASE is no address of a database: {reason}", reason=str(error))) from error
    if engine.dialect.name not in {"sqlite", "postgresql"}:
        raise UsageError(say("{name} is not supported; use SQLite or PostgreSQL.", name=engine.dialect.name))
    if engine.dialect.name == "sqlite":
        _prepare_file(Path(url.database or ""), create=create)
        event.listen(engine, "connect", _configure_sqlite)
        event.listen(engine, "begin", _begin_sqlite)
    return engine


def reason_of(error: DatabaseError) -> str:
    """Return the database's own words, on one line."""
    return " ".join(str(error.orig or error).split())


def _prepare_file(path: Path, *, create: bool) -> None:
    if create:
        path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
    elif not path.is_file():
        raise Missing(say("There is no record at {path}.", path=str(path)))


def _configure_sqlite(connection: Any, _record: Any) -> None:
    connection.isolation_level = None  # the driver begins nothing by itself; see the listener below
    for pragma in ("journal_mode=WAL", "synchronous=FULL", "foreign_keys=ON", "recursive_triggers=ON"):
        connection.execute(f"PRAGMA {pragma}")


def _begin_sqlite(connection: Connection) -> None:
    writing = connection.get_execution_options().get("writing", True)
    connection.exec_driver_sql(f"PRAGMA query_only={'OFF' if writing else 'ON'}")
    connection.exec_driver_sql("BEGIN IMMEDIATE" if writing else "BEGIN")
