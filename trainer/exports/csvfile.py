"""CSV as in RFC 4180 (2005): CRLF, quoted where needed; UTF-8 with a mark, so that spreadsheets read accents right.

A cell that a spreadsheet would take for a formula gets an apostrophe in front: it starts with ``= + - @``, a tab, a
carriage return, a line feed or NUL, or one of the wide forms of those signs (OWASP, CSV injection). Numbers of people,
badges and entries are text, zeros and all; days are ISO.
"""

import csv
import io
from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date

from trainer.records.chain import Entry, EntryKind, reference
from trainer.records.history import HistoryRow
from trainer.records.instants import instant_text
from trainer.records.people import PersonRow
from trainer.records.standing import Standing

MARK = "\ufeff"
RISKY = frozenset("=+-@\t\r\n\0\uff1d\uff0b\uff0d\uff20")
CHUNK = 64 * 1024  # characters written at a time

LEDGER = (
    "entry",
    "person number",
    "person name then",
    "kind",
    "happened on",
    "recorded at",
    "entered late days",
    "programme",
    "machine",
    "role",
    "result",
    "right",
    "out of",
    "needed",
    "critical missed",
    "edition",
    "language",
    "due on",
    "refers to",
    "note",
    "by number",
    "by name then",
    "zone",
    "chain position",
    "previous digest",
    "digest",
)
AUTHORISED = (
    "machine",
    "role",
    "person number",
    "person name",
    "standing",
    "may run",
    "holds until",
    "due on",
    "reasons",
    "lacks",
    "entries",
    "on",
    "known on",
)


def safe(cell: object) -> str:
    """Return a cell's text, made harmless for spreadsheets."""
    text = "" if cell is None else str(cell)
    return f"'{text}" if text[:1] in RISKY and text else text


def table(header: Sequence[str], rows: Iterable[Sequence[object]]) -> Iterator[bytes]:
    """Give a table as CSV, in pieces; never more than one piece is held."""
    buffer = io.StringIO(newline="")
    buffer.write(MARK)
    writer = csv.writer(buffer, lineterminator="\r\n")
    writer.writerow(header)
    for row in rows:
        writer.writerow([safe(cell) for cell in row])
        if buffer.tell() >= CHUNK:
            yield buffer.getvalue().encode()
            buffer.seek(0)
            buffer.truncate()
    yield buffer.getvalue().encode()


def ledger_csv(rows: Iterable[HistoryRow]) -> Iterator[bytes]:
    """Give entries of the ledger as CSV, one a line, in the order in which they come."""
    return table(LEDGER, map(_ledger_row, rows))


def authorised_csv(
    standings: Iterable[Standing], people: Mapping[str, PersonRow], *, on: date, known_on: date | None = None
) -> Iterator[bytes]:
    """Give standings as CSV; ``people`` maps keys to people, ``on`` and ``known_on`` say for which days it was asked."""
    return table(AUTHORISED, (_standing_row(each, people, on, known_on) for each in standings))


def _ledger_row(row: HistoryRow) -> list[object]:
    entry, body = row.entry, row.entry.body
    score = body.get("score") or {}
    return [
        entry.reference,
        row.person.number,
        row.person.name,
        entry.kind.value,
        entry.happened_on.isoformat(),
        instant_text(entry.recorded_at),
        row.late_days,
        body.get("programme"),
        body.get("machine"),
        body.get("role") or " ".join(body.get("roles", ())),
        _result(entry),
        score.get("right"),
        score.get("out_of"),
        body.get("needed"),
        " ".join(body.get("critical_missed", ())),
        body.get("edition"),
        " ".join(body.get("languages", ())) or body.get("language"),
        body.get("due_on") or body.get("valid_to") or body.get("until"),
        _refers(entry),
        _note(entry),
        row.by.number if row.by else entry.by,
        row.by.name if row.by else None,
        entry.zone,
        entry.seq,
        entry.previous,
        entry.digest,
    ]


def _result(entry: Entry) -> str | None:
    if entry.kind is EntryKind.SITTING_MARKED:
        return "passed" if entry.body["passed"] else "not passed"
    result: str | None = entry.body.get("result") or entry.body.get("effect") or entry.body.get("event")
    return result


def _refers(entry: Entry) -> str | None:
    names = ("corrects", "suspension", "revokes", "entitlement")
    numbers = [entry.body[name] for name in names if name in entry.body]
    if entry.kind is EntryKind.MOVED:
        numbers.append(entry.body["entry"])
    return " ".join(reference(number) for number in numbers) or None


def _note(entry: Entry) -> str | None:
    for name in ("comment", "reason", "topic", "note", "basis"):
        if entry.body.get(name):
            return str(entry.body[name])
    return None


def _standing_row(standing: Standing, people: Mapping[str, PersonRow], on: date, known_on: date | None) -> list[object]:
    person = people.get(standing.person)
    numbers = sorted({number for reason in standing.reasons for number in reason.entries})
    return [
        standing.machine,
        standing.role,
        person.number if person else None,
        person.name if person else None,
        standing.word.value,
        "yes" if standing.may_run else "no",
        standing.holds_until,
        standing.due_on,
        " ".join(str(reason.sentence) for reason in standing.reasons),
        " ".join(str(sentence) for sentence in standing.lacks),
        " ".join(map(reference, numbers)),
        on,
        known_on,
    ]
