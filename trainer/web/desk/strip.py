"""The strip of the next 90 days under the week's lines: who ends when, and where too few are left."""

from collections.abc import Mapping, Sequence

from trainer.figures import Figure, StripEnd, StripRow, due_strip
from trainer.web.desk.shifts import HORIZON, Manning, manning
from trainer.web.desk.waiting import Facts, Wait
from trainer.web.filters import day
from trainer.web.language import translate


def strip(facts: Facts, found: Sequence[Wait]) -> Figure | None:
    """Draw the strip; None while nobody is authorised on any machine."""
    rows = strip_rows(facts, found)
    if not rows:
        return None
    return due_strip(rows, today=facts.today, days=HORIZON.days, write_day=day, translate=translate)


def strip_rows(facts: Facts, found: Sequence[Wait]) -> tuple[StripRow, ...]:
    """Return the rows of the strip, tied to the list by the numbers of its lines."""
    due: dict[str, int] = {}
    for wait in found:
        for one in wait.line.people if wait.tag == "due" else ():
            due.setdefault(one.number, wait.line.number)
    return tuple(_row(facts, line, found, due) for line in manning(facts.roster.standings, facts.roster.people))


def _row(facts: Facts, line: Manning, found: Sequence[Wait], due: Mapping[str, int]) -> StripRow:
    last = facts.today + HORIZON
    short = line.short_from(facts.today)
    within = [(holder, holder.until) for holder in line.holders if holder.until is not None and holder.until <= last]
    return StripRow(
        shift=line.shift,
        machine=line.machine,
        now=len(line.holders),
        ends=tuple(
            StripEnd(name=holder.person.name, on=until, item=due.get(holder.person.number)) for holder, until in within
        ),
        beyond=len(line.holders) - len(within),
        short_from=short if short is not None and short <= last else None,
        item=_short_item(found, line),
    )


def _short_item(found: Sequence[Wait], line: Manning) -> int | None:
    short = (wait.line for wait in found if wait.tag == "short")
    return next((one.number for one in short if (one.subject, one.subject_note) == (line.machine, line.shift)), None)
