"""Minutes of each person over a span of days, as a table in the order of their names: nobody is ranked by time."""

from collections.abc import Iterable, Mapping

from trainer.exports.tables import Cell, Table
from trainer.records.chain import reference
from trainer.records.minutes import Spent
from trainer.records.people import PersonRow
from trainer.wording import mark

MINUTES = (
    mark("person number"),
    mark("person name"),
    mark("shift"),
    mark("minutes at papers"),
    mark("papers"),
    mark("breaks left out"),
    mark("talks"),
    mark("practicals"),
    mark("entries"),
    mark("from"),
    mark("up to"),
)


def minutes_table(rows: Iterable[Spent], people: Mapping[str, PersonRow], *, since: str, until: str) -> Table:
    """Return what was spent as a table; ``people`` maps keys to people, the rows keep their order."""
    return Table(header=MINUTES, rows=(_row(one, people.get(one.person), since, until) for one in rows))


def _row(one: Spent, person: PersonRow | None, since: str, until: str) -> list[Cell]:
    return [
        person.number if person else None,
        person.name if person else None,
        person.shift if person else None,
        one.minutes,
        one.papers,
        one.breaks,
        one.talks,
        one.practicals,
        " ".join(map(reference, one.entries)),
        since,
        until,
    ]
