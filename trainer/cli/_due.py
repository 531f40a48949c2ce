"""What ``trainer due`` reads and writes."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from trainer.bank import Bank
from trainer.cli._exporting import FORMS, about, base
from trainer.errors import Missing
from trainer.exports.about import Tally
from trainer.exports.calendar import Feed, calendar_pieces
from trainer.exports.files import table_file
from trainer.exports.tables import due_table
from trainer.records import Reading, dues, ledger, machines, people
from trainer.records.dues import DueRow
from trainer.records.people import PersonRow
from trainer.settings import Settings
from trainer.web.language import voice
from trainer.wording import say


@dataclass(frozen=True, slots=True, kw_only=True)
class AskedFor:
    """What was asked, and what the record answers."""

    bank: Bank
    on: date
    days: int
    only: Mapping[str, str | None]
    rows: Sequence[DueRow]
    people: Mapping[str, PersonRow]


def asked_for(reading: Reading, bank: Bank, on: date, days: int, only: Mapping[str, str | None]) -> AskedFor:
    """Read what is due for those who were asked about; :class:`Missing` for an unknown number or machine."""
    if only["machine"] is not None:
        machines.get(reading, only["machine"])
    known = {person.key: person for person in people.everybody(reading, on=on)}
    number = only["person"]
    if number is not None and all(person.number != number for person in known.values()):
        raise Missing(say("Nobody who works here has the number {number}.", number=number))
    rows = [row for row in dues.due_list(reading, bank, on=on, days=days) if _fits(row, known[row.person], only)]
    return AskedFor(bank=bank, on=on, days=days, only=only, rows=rows, people=known)


def _fits(row: DueRow, person: PersonRow, only: Mapping[str, str | None]) -> bool:
    return (
        only["person"] in {None, person.number}
        and only["crew"] in {None, person.crew}
        and only["shift"] in {None, person.shift}
        and (only["machine"] is None or only["machine"] in row.machines)
    )


def due_pieces(
    reading: Reading, settings: Settings, asked: AskedFor, form: str, language: str
) -> tuple[Iterator[bytes], Tally]:
    """Return what is due as a file, in pieces, and what counts its lines as they go by."""
    filters = {"on": asked.on, "days ahead": asked.days, **asked.only}
    told = about(reading, settings, say("Due dates"), filters, asked.bank.edition)
    tally = Tally(told.asked)
    made = due_table(asked.rows, asked.people, on=asked.on)
    if form != "ics":
        return table_file(FORMS[form], made, told, tally, voice(language)), tally
    for _row in made.tallied(tally).rows:
        pass
    feed = Feed(
        about=told,
        bank=asked.bank,
        people=asked.people,
        newest=ledger.newest_by_person(reading),
        base=base(settings),
        alone=asked.only["person"] is not None,
    )
    return calendar_pieces(asked.rows, feed, voice(language)), tally
