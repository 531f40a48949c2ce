"""Who judged and by what right, as a table: a row for each practical that was signed."""

from collections.abc import Iterable, Mapping
from datetime import date

from trainer.exports.tables import Cell, Table
from trainer.records.chain import reference
from trainer.records.judges import Judge, Right, Signed
from trainer.records.people import PersonRow
from trainer.wording import mark

SIGNED = (
    mark("entry"),
    mark("happened on"),
    mark("evaluator number"),
    mark("evaluator name"),
    mark("right"),
    mark("basis"),
    mark("valid from"),
    mark("valid to"),
    mark("person number"),
    mark("person name"),
    mark("machine"),
    mark("role"),
    mark("result"),
    mark("counts"),
    mark("on"),
)


def signed_table(found: Iterable[Judge], people: Mapping[str, PersonRow], *, on: date) -> Table:
    """Return every sign-off up to a day, in the order of the entries; ``people`` maps keys to people."""
    rows = sorted(((judge, one) for judge in found for one in judge.signed), key=lambda pair: pair[1].entry.number)
    return Table(header=SIGNED, rows=(_row(judge, one, people, on) for judge, one in rows))


def _row(judge: Judge, one: Signed, people: Mapping[str, PersonRow], on: date) -> list[Cell]:
    by, person, body = people.get(judge.person), people.get(one.entry.person), one.entry.body
    right: Right | None = next((right for right in judge.rights if right.entry == one.right), None)
    return [
        one.entry.reference,
        one.entry.happened_on,
        by.number if by else None,
        by.name if by else None,
        None if one.right is None else reference(one.right),
        right.basis if right else None,
        right.valid_from if right else None,
        right.valid_to if right else None,
        person.number if person else None,
        person.name if person else None,
        body["machine"],
        body["role"],
        body["result"],
        "yes" if one.counts else "no",
        on,
    ]
