"""The files that the office hands over. They are written as they are sent; nothing is kept on the server."""

from collections.abc import Callable, Iterator, Sequence
from datetime import date, datetime

from flask import Response

from trainer.exports.about import About, Tally
from trainer.exports.csvfile import authorised_csv, ledger_csv
from trainer.exports.files import TYPES, Form, table_file
from trainer.exports.pack.asked import Asked
from trainer.exports.pack.sealed import sealed_pack
from trainer.exports.roster import roster_table
from trainer.records.history import history
from trainer.records.people import PersonRow
from trainer.records.work import Reading
from trainer.web.language import voice
from trainer.web.office.about import Held
from trainer.web.office.asof import Answer
from trainer.web.rooms import rooms
from trainer.wording import say

CSV = "text/csv; charset=utf-8"
SIGNS = 16  # of a pack's code in the name of its file


def asof_file(answer: Answer) -> Response:
    """Hand over the list of a day, with both days on every line."""
    asked = answer.asked
    rows = authorised_csv(answer.standings, answer.roster.people, on=asked.on, known_on=asked.known_on)
    return handed(rows, f"authorised-{asked.machine}-{asked.on}-known-{asked.known_on}.csv")


def person_file(held: Held) -> Response:
    """Hand over every entry of a person up to a day."""
    return handed(_entries(person=held.person.key, until=held.on), f"person-{held.person.number}-{held.on}.csv")


def records_file(first: date, last: date) -> Response:
    """Hand over what happened from a day to a day."""
    return handed(_entries(since=first, until=last), f"records-{first}-{last}.csv")


def pack_file(ask: Callable[[Reading], Asked], on: date) -> Response:
    """Hand over an audit pack. Its name holds the start of its code, which people compare by another way."""
    opened = rooms()
    made, pieces = sealed_pack(opened.record, opened.bank, ask, site=opened.settings.site)
    return handed(pieces, f"audit-pack-{on}-{made.code.replace(' ', '')[:SIGNS]}.zip", "application/zip")


def roster_file(people: Sequence[PersonRow], made_at: datetime, today: date) -> Response:
    """Hand over people as a spreadsheet; heads are in the reader's language, which the import knows too."""
    settings = rooms().settings
    asked = {"on": today.isoformat()}
    about = About(
        what=say("People on the roster"), site=settings.site, zone=settings.zone, made_at=made_at, asked=asked
    )
    pieces = table_file(Form.XLSX, roster_table(people), about, Tally(asked), voice())
    return handed(pieces, f"roster-{today}.xlsx", TYPES[Form.XLSX])


def _entries(*, person: str | None = None, since: date | None = None, until: date | None = None) -> Iterator[bytes]:
    """Read while sending: the transaction lives as long as the answer does."""
    record = rooms().record

    def pieces() -> Iterator[bytes]:
        with record.reading() as reading:
            yield from ledger_csv(history(reading, person=person, since=since, until=until))

    return pieces()


def handed(pieces: Iterator[bytes], name: str, content_type: str = CSV) -> Response:
    """Hand over a file under a name that every system takes."""
    plain = "".join(
        character if (character.isascii() and character.isalnum()) or character in "-." else "_" for character in name
    )
    return Response(
        pieces, content_type=content_type, headers={"Content-Disposition": f'attachment; filename="{plain}"'}
    )
