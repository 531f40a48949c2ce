"""JSON lines (one canonical object a line, RFC 8785) with everything that the ledger holds, exact to the last sign.

The first line says what was asked and when it was made, each further one is an entry, the last one says how many there
were and gives the check code; a file without it was cut off. ``entry`` holds the very columns of the ledger: the
SHA-256 of its canonical JSON without ``digest`` is ``digest``.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any

import rfc8785

from trainer.exports.about import About, Tally
from trainer.exports.tables import Table, text
from trainer.records.chain import Entry
from trainer.records.history import HistoryRow, Identity
from trainer.records.instants import instant_text

CHUNK = 256  # lines handed over at a time


def ledger_json(rows: Iterable[HistoryRow], about: About, tally: Tally) -> Iterator[bytes]:
    """Give entries as JSON lines, in pieces. ``tally`` has to count these very rows."""
    return _file(map(_entry_line, rows), about, tally)


def table_json(made: Table, about: About, tally: Tally) -> Iterator[bytes]:
    """Give a table as JSON lines, in pieces: one object a row, under the names of its head."""
    return _file((_named(made.header, row) for row in made.rows), about, tally)


def lines(found: Iterable[Mapping[str, Any]]) -> Iterator[bytes]:
    """Give objects as canonical JSON, one a line, some at a time."""
    held: list[bytes] = []
    for one in found:
        held.append(rfc8785.dumps(dict(one)))
        if len(held) == CHUNK:
            yield b"\n".join(held) + b"\n"
            held.clear()
    if held:
        yield b"\n".join(held) + b"\n"


def columns(entry: Entry) -> dict[str, Any]:
    """Return every column of an entry as the ledger keeps it."""
    return {
        "number": entry.number,
        "person": entry.person,
        "seq": entry.seq,
        "kind": entry.kind.value,
        "happened_on": entry.happened_on.isoformat(),
        "recorded_at": instant_text(entry.recorded_at),
        "zone": entry.zone,
        "by": entry.by,
        "body": dict(entry.body),
        "previous": entry.previous,
        "digest": entry.digest,
    }


def _file(found: Iterable[Mapping[str, Any]], about: About, tally: Tally) -> Iterator[bytes]:
    yield from lines([{"about": _about(about)}])
    yield from lines(found)
    yield from lines([{"end": {"rows": tally.rows, "check_code": tally.code}}])


def _about(about: About) -> dict[str, Any]:
    return {
        "what": str(about.what),
        "site": about.site,
        "zone": str(about.zone),
        "made_at": instant_text(about.made_at),
        "asked": dict(about.asked),
        "edition": about.edition,
    }


def _entry_line(row: HistoryRow) -> dict[str, Any]:
    return {
        "entry": columns(row.entry),
        "person_then": _who(row.person),
        "by_then": None if row.by is None else _who(row.by),
        "late_days": row.late_days,
    }


def _who(identity: Identity) -> dict[str, str]:
    return {"number": identity.number, "name": identity.name}


def _named(header: Sequence[str], row: Sequence[Any]) -> dict[str, Any]:
    return {
        name: cell if cell is None or isinstance(cell, int) else text(cell)
        for name, cell in zip(header, row, strict=True)
    }
