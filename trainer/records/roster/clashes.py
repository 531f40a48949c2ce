"""Numbers and badges after an import: no two people who are here may have the same one."""

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import replace

from trainer.records.people import PersonRow
from trainer.records.roster.fates import Act, Fate, Row
from trainer.records.roster.known import Known
from trainer.records.roster.refusals import Refusal
from trainer.wording import say


def without_clashes(rows: Sequence[Row], absent: Sequence[Act], known: Known) -> list[Row]:
    """Return the rows with those refused that would bring a number or badge which somebody else has."""
    holders: dict[str, set[str]] = defaultdict(set)
    acts = {act.key: act for act in (*(row.act for row in rows if row.act), *absent) if act.key}
    for person in known.people.values():
        for code in _held(person, acts.get(person.key), known):
            holders[code].add(person.key)
    for row in rows:
        for code in _new(row):
            holders[code].add(f"line {row.line}")
    return [_judged(row, holders) for row in rows]


def _held(person: PersonRow, act: Act | None, known: Known) -> Iterator[str]:
    """Give the codes that somebody known holds once all is done."""
    here = person.status == "active" or (act is not None and act.back_on is not None)
    gone = act is not None and act.leave_on is not None and act.leave_on < known.today
    if not here or gone:
        return
    yield (act.number if act and act.number else person.number)
    badge = act.fields.get("badge", person.badge) if act else person.badge
    if badge and not (act and "badge" in act.frees):
        yield str(badge)


def _new(row: Row) -> Iterator[str]:
    if row.act is not None and row.act.key is None:
        yield from (code for code in (row.act.number, row.act.fields.get("badge")) if code)


def _judged(row: Row, holders: dict[str, set[str]]) -> Row:
    act = row.act
    if act is None:
        return row
    brought = {code for code in (act.number, act.fields.get("badge")) if code}
    if act.back_on is not None:
        brought.add(row.number)
    clash = sorted(code for code in brought if len(holders[code]) > 1)
    if not clash:
        return row
    told = say("Somebody else has the number or badge {code} already.", code=clash[0])
    right = say("Give one that is free; a leaver’s is free once the last day is over.")
    return replace(row, fate=Fate.REFUSED, refusals=(Refusal(told, right),), reasons=(), changes=(), act=None)
