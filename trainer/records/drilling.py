"""Backups, and the drill that shows that one really restores: into an empty folder, read again, counted, compared.

A backup is a folder with the database, the key files beside it and a line on what was in it when it was made. Only a
SQLite file is copied here; a PostgreSQL server has its own tools, and the drill takes the database that they restored.
"""

import json
import shutil
import sqlite3
from collections.abc import Mapping
from contextlib import closing
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from sqlalchemy import func, select

from trainer.clock import Clock
from trainer.errors import Missing, RecordError, UsageError
from trainer.findings import Report
from trainer.records import ledger
from trainer.records.database import Record, open_record
from trainer.records.instants import instant_text
from trainer.records.models import Base
from trainer.records.work import Reading
from trainer.settings import Settings
from trainer.wording import say

DATABASE, LIST = "record.sqlite", "backup.json"
KEYS = ("pepper.key", "session.key")


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """What a record holds: rows by table, its newest entry and that entry's digest; empty for a record without any."""

    counts: Mapping[str, int]
    newest: int
    digest: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Drilled:
    """What a drill came to.

    ``report`` is what reading every restored entry again found, ``held`` what was restored, ``unlike`` the tables whose
    rows are not as many as they were, each with (then, restored). ``since`` counts the entries that the record in use has
    beyond it, ``same`` says whether it holds the newest restored entry word for word; None where there was none to compare.
    """

    report: Report
    held: Held
    unlike: Mapping[str, tuple[int, int]]
    since: int | None
    same: bool | None

    @property
    def good(self) -> bool:
        """Say whether the backup restores."""
        return self.report.good and not self.unlike and self.same is not False


def held(r: Reading) -> Held:
    """Return what a record holds."""
    tables = sorted(Base.metadata.tables.items())
    counts = {name: r.session.scalar(select(func.count()).select_from(table)) or 0 for name, table in tables}
    newest = ledger.size(r)
    return Held(counts=counts, newest=newest, digest=ledger.entry(r, newest).digest if newest else "")


def back_up(record: Record, settings: Settings, folder: Path) -> Held:
    """Copy a record, as it is at one moment, with its keys into an empty folder; return what it held."""
    if record.engine.dialect.name != "sqlite":
        raise RecordError("This record is on a PostgreSQL server; back it up with that server's own tools.")
    _empty(folder)
    folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    with record.reading() as reading:
        found = held(reading)
        source: Any = reading.session.connection().connection.driver_connection
        with closing(sqlite3.connect(folder / DATABASE)) as target:
            source.backup(target)
        made_at = instant_text(reading.now())
    for name in KEYS:
        if (settings.data / name).is_file():
            shutil.copy2(settings.data / name, folder / name)
    told = {"made_at": made_at, "counts": dict(found.counts), "newest": found.newest, "digest": found.digest}
    (folder / LIST).write_text(json.dumps(told, indent=2) + "\n", encoding="utf-8")
    return found


def drill(settings: Settings, clock: Clock, backup: Path, target: Path, *, live: Record | None) -> Drilled:
    """Restore a backup into an empty folder, read every entry again, and compare what is there with what was."""
    told = _list(backup)
    _empty(target)
    target.mkdir(mode=0o700, parents=True, exist_ok=True)
    for name in (DATABASE, *KEYS):
        if (backup / name).is_file():
            shutil.copy2(backup / name, target / name)
    with closing(open_record(replace(settings, data=target, database=""), clock, create=False)) as restored:
        return compared(restored, told, live=live)


def drill_restored(settings: Settings, clock: Clock, address: str, *, live: Record) -> Drilled:
    """Do the same with a database that a server's own tools restored."""
    if address == settings.database_url:
        raise UsageError("That is the record in use. Name the database that was restored.")
    with closing(open_record(replace(settings, database=address), clock, create=False)) as restored:
        return compared(restored, None, live=live)


def compared(restored: Record, told: Held | None, *, live: Record | None) -> Drilled:
    """Read a restored record again and compare it with what its backup said it held, and with the record in use."""
    with restored.reading() as reading:
        report, found = ledger.verify(reading), held(reading)
    expected = found if told is None else told
    names = expected.counts.keys() | found.counts.keys()
    unlike = {
        name: (expected.counts.get(name, 0), found.counts.get(name, 0))
        for name in sorted(names)
        if expected.counts.get(name, 0) != found.counts.get(name, 0)
    }
    since = same = None
    if live is not None:
        with live.reading() as reading:
            since = ledger.size(reading) - found.newest
            same = since >= 0 and (not found.newest or ledger.entry(reading, found.newest).digest == found.digest)
    same = False if found.digest != expected.digest else same
    return Drilled(report=report, held=found, unlike=unlike, since=since, same=same)


def _list(backup: Path) -> Held:
    try:
        told = json.loads((backup / LIST).read_text(encoding="utf-8"))
        counts = {str(name): int(count) for name, count in told["counts"].items()}
        return Held(counts=counts, newest=int(told["newest"]), digest=str(told["digest"]))
    except FileNotFoundError:
        raise Missing(say("{folder} is no backup: it has no {file}.", folder=str(backup), file=LIST)) from None
    except (ValueError, KeyError, TypeError, AttributeError) as error:
        raise RecordError(
            say("{file} of the backup cannot be read: {reason}", file=LIST, reason=repr(error))
        ) from error


def _empty(folder: Path) -> None:
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise UsageError(say("{folder} is not empty. Name a folder that is empty or not there.", folder=str(folder)))
