"""How many may run each machine on each shift, and from which day on there are too few.

The count is what stays if nobody refreshes: a booking heals nothing, passing does.
"""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from trainer.records.people import PersonRow
from trainer.records.standing import Standing, StandingWord

LEAST = 2  # people on a shift; with one, a sick day stops the machine or tempts somebody who may not run it
HORIZON = timedelta(days=90)
STOPPED = {StandingWord.LAPSED, StandingWord.SUSPENDED, StandingWord.PAUSED, StandingWord.PRACTICAL_PENDING}


@dataclass(frozen=True, slots=True, kw_only=True)
class Holder:
    """Somebody who may run a machine alone, and the last day of it (None: no end in the record)."""

    person: PersonRow
    until: date | None
    entries: tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Manning:
    """Those who may run one machine alone on one shift, the first end first; and those who did and may not now."""

    machine: str
    shift: str
    holders: tuple[Holder, ...]
    stopped: tuple[Holder, ...] = ()

    def short_from(self, today: date) -> date | None:
        """Return the first day, today or later, on which fewer than two hold; None where there is no such day."""
        if len(self.holders) < LEAST:
            return today
        end = self.holders[-LEAST].until
        return None if end is None else end + timedelta(days=1)

    def ending(self, day: date) -> tuple[Holder, ...]:
        """Return those whose standing has ended by ``day``."""
        return tuple(holder for holder in self.holders if holder.until is not None and holder.until < day)

    def staying(self, day: date) -> tuple[Holder, ...]:
        """Return those who still hold on ``day``."""
        gone = self.ending(day)
        return tuple(holder for holder in self.holders if holder not in gone)


def manning(standings: Iterable[Standing], people: Mapping[str, PersonRow], *, role: str = "operator") -> list[Manning]:
    """Sort people by shift and machine; a shift where nobody ever might run a machine has no line."""
    found: dict[tuple[str, str], list[Holder]] = defaultdict(list)
    stopped: dict[tuple[str, str], list[Holder]] = defaultdict(list)
    for one in standings:
        person = people.get(one.person)
        if person is None or one.role != role or person.status != "active":
            continue
        if one.may_run:
            found[person.shift, one.machine].append(_holder(person, one))
        elif did_run(one):
            stopped[person.shift, one.machine].append(_holder(person, one))
    return [
        Manning(
            machine=machine,
            shift=shift,
            holders=tuple(sorted(found[shift, machine], key=_by_end)),
            stopped=tuple(stopped[shift, machine]),
        )
        for shift, machine in sorted({*found, *stopped})
    ]


def did_run(one: Standing) -> bool:
    """Say whether somebody who may not run a machine now could before: lapsed, suspended, or waiting for a re-brief.

    Only a standing that rests on a practical of its own tells of the past; theory alone never let anybody run it.
    """
    return one.word in STOPPED and len(one.reasons) > 1


def _holder(person: PersonRow, one: Standing) -> Holder:
    entries = tuple(entry for reason in one.reasons for entry in reason.entries)
    return Holder(person=person, until=one.holds_until, entries=entries)


def _by_end(holder: Holder) -> tuple[date, str]:
    return holder.until or date.max, holder.person.sort_name
