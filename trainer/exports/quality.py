"""What asks for a second look, as a table."""

from collections.abc import Iterable, Mapping
from datetime import date

from trainer.exports.tables import Cell, Table
from trainer.records.people import PersonRow
from trainer.records.quality import Found, Kind, references
from trainer.wording import mark

QUALITY = (
    mark("kind"),
    mark("person number"),
    mark("person name"),
    mark("what"),
    mark("entries"),
    mark("on"),
)
TITLES: Mapping[Kind, str] = {
    Kind.FUTURE: mark("Recorded before it happened"),
    Kind.BEFORE_HIRE: mark("Before the first day here"),
    Kind.CLOCK: mark("Clock not trusted"),
    Kind.BATCH: mark("Many sign-offs at once"),
    Kind.LATE: mark("Entered a week late or more"),
    Kind.ONE_FOR_MANY: mark("One evaluator for most"),
    Kind.LANGUAGE: mark("Asked in another language"),
    Kind.TOO_FAST: mark("Faster than can be read"),
    Kind.NO_FILE: mark("Evidence without a file"),
    Kind.NO_WAY_IN: mark("No badge or no PIN"),
    Kind.NAMESAKES: mark("People of one name"),
}


def quality_table(found: Iterable[Found], people: Mapping[str, PersonRow], *, on: date) -> Table:
    """Return findings as a table, one for each person concerned."""
    return Table(header=QUALITY, rows=(_row(one, people.get(key), on) for one in found for key in one.people))


def _row(one: Found, person: PersonRow | None, on: date) -> list[Cell]:
    return [
        one.kind.value,
        person.number if person else None,
        person.name if person else None,
        one.told,
        references(one),
        on,
    ]
