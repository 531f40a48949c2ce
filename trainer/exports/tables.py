"""Tables: what CSV, spreadsheets and JSON lists are made from. Heads are fixed names; rows come one at a time."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from trainer.exports.about import Tally
from trainer.exports.voice import Voice
from trainer.records.chain import Entry, EntryKind, reference
from trainer.records.dues import DueRow
from trainer.records.history import HistoryRow
from trainer.records.instants import instant_text
from trainer.records.people import PersonRow
from trainer.records.standing import Standing
from trainer.wording import Sentence, mark

Cell = str | int | date | Sentence | tuple[Sentence, ...] | None

LEDGER = (
    mark("entry"),
    mark("person number"),
    mark("person name then"),
    mark("kind"),
    mark("happened on"),
    mark("recorded at"),
    mark("entered late days"),
    mark("programme"),
    mark("machine"),
    mark("role"),
    mark("result"),
    mark("right"),
    mark("out of"),
    mark("needed"),
    mark("critical missed"),
    mark("edition"),
    mark("language"),
    mark("due on"),
    mark("refers to"),
    mark("note"),
    mark("by number"),
    mark("by name then"),
    mark("zone"),
    mark("chain position"),
    mark("previous digest"),
    mark("digest"),
)
AUTHORISED = (
    mark("machine"),
    mark("role"),
    mark("person number"),
    mark("person name"),
    mark("standing"),
    mark("may run"),
    mark("holds until"),
    mark("due on"),
    mark("reasons"),
    mark("lacks"),
    mark("entries"),
    mark("on"),
    mark("known on"),
)
DUE = (
    mark("due on"),
    mark("state"),
    mark("person number"),
    mark("person name"),
    mark("shift"),
    mark("crew"),
    mark("programme"),
    mark("machines"),
    mark("because"),
    mark("entry"),
    mark("on"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """A head and rows. ``rows`` may be read once only."""

    header: tuple[str, ...]
    rows: Iterable[Sequence[Cell]]

    def tallied(self, tally: Tally) -> "Table":
        """Return the same table with its rows counted as they go by."""
        return replace(self, rows=_counted(self.rows, tally))


def _counted(rows: Iterable[Sequence[Cell]], tally: Tally) -> Iterator[Sequence[Cell]]:
    for row in rows:
        tally.note([text(cell) for cell in row])
        yield row


def text(cell: Cell, voice: Voice | None = None) -> str:
    """Return a cell's text: sentences in a voice, or without one in English with days as ISO writes them."""
    if type(cell) is str:  # most cells are, and there are many
        return cell
    tell = str if voice is None else voice.tell
    if cell is None:
        return ""
    if isinstance(cell, tuple):
        return " ".join(map(tell, cell))
    return tell(cell) if isinstance(cell, Sentence) else str(cell)


def ledger_table(rows: Iterable[HistoryRow]) -> Table:
    """Return entries of the ledger as a table, one a row, in the order in which they come."""
    return Table(header=LEDGER, rows=map(_ledger_row, rows))


def authorised_table(
    standings: Iterable[Standing], people: Mapping[str, PersonRow], *, on: date, known_on: date | None = None
) -> Table:
    """Return standings as a table; ``people`` maps keys to people, ``on`` and ``known_on`` say for which days."""
    rows = (_standing_row(each, people.get(each.person), on, known_on) for each in standings)
    return Table(header=AUTHORISED, rows=rows)


def due_table(rows: Iterable[DueRow], people: Mapping[str, PersonRow], *, on: date) -> Table:
    """Return what is due as a table; ``people`` maps keys to people, ``on`` says as of which day."""
    return Table(header=DUE, rows=(_due_row(row, people[row.person], on) for row in rows))


def _ledger_row(row: HistoryRow) -> list[Cell]:
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


def _standing_row(standing: Standing, person: PersonRow | None, on: date, known_on: date | None) -> list[Cell]:
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
        tuple(reason.sentence for reason in standing.reasons),
        standing.lacks,
        " ".join(map(reference, numbers)),
        on,
        known_on,
    ]


def _due_row(row: DueRow, person: PersonRow, on: date) -> list[Cell]:
    return [
        row.due_on,
        row.state,
        person.number,
        person.name,
        person.shift,
        person.crew,
        row.programme,
        " ".join(row.machines),
        row.reason,
        reference(row.entry),
        on,
    ]
