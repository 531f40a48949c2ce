"""The roster as a table: who is here, under heads that the import knows, so that it comes back without a change."""

from collections.abc import Iterable

from trainer.exports.tables import Cell, Table
from trainer.records.people import PersonRow
from trainer.wording import mark

ROSTER = (
    mark("number"),
    mark("name"),
    mark("sort name"),
    mark("badge"),
    mark("shift"),
    mark("crew"),
    mark("language"),
    mark("kind"),
    mark("agency"),
    mark("started"),
    mark("ended"),
    mark("born"),
)


def roster_table(people: Iterable[PersonRow]) -> Table:
    """Return people as a table, one a row, in the order in which they come."""
    return Table(header=ROSTER, rows=map(_row, people))


def _row(person: PersonRow) -> list[Cell]:
    return [
        person.number,
        person.name,
        person.sort_name,
        person.badge,
        person.shift,
        person.crew,
        person.language,
        person.kind,
        person.agency,
        person.started,
        person.ended,
        person.born,
    ]
