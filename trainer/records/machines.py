"""The machines of the site: what is on file about them, and the stopping times that were measured on each.

Facts and readings are only ever added. A fact that is put right is a new one; the newest counts.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime

from sqlalchemy import select
from sqlalchemy.orm import selectinload

from trainer.errors import Missing, RecordError, UsageError
from trainer.records import names
from trainer.records.models import Machine, MachineFact, MachineReading
from trainer.records.work import Reading, Writing
from trainer.units import has_dimension, magnitude, parse
from trainer.wording import say

STOPPING_TIME, MEASURED = "stopping-time", "measured"
LONGEST = 200  # characters of one fact


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadingRow:
    """One stopping time as it was measured: the day, the time with its unit, who entered it, when."""

    on: date
    time: str
    note: str
    by: str | None
    at: datetime


@dataclass(frozen=True, slots=True, kw_only=True)
class FactRow:
    """One fact as it came to be known; an empty value means that it was not known any more."""

    key: str
    value: str
    on: date
    by: str | None
    at: datetime


@dataclass(frozen=True, slots=True, kw_only=True)
class MachineRow:
    """A machine. A fact that nobody has measured is not in ``facts``; ``readings`` are in the order of their days.

    Once there are readings, the facts ``stopping-time`` and ``measured`` are the newest day's highest and that day.
    """

    id: str
    kind: str
    name: str
    facts: Mapping[str, str]
    in_use: bool
    readings: tuple[ReadingRow, ...] = ()
    changes: tuple[FactRow, ...] = ()


def add(
    w: Writing,
    *,
    id: str,  # noqa: A002  (what it is called everywhere)
    kind: str,
    name: str,
    facts: Mapping[str, str] | None = None,
    in_use: bool = True,
) -> MachineRow:
    """Add a machine; :class:`RecordError` when there is one of that id already."""
    key = names.code(id, "machine number")
    if w.session.get(Machine, key) is not None:
        raise RecordError(say("There is a machine {machine} already.", machine=key))
    made = Machine(
        id=key,
        kind=names.code(kind, "kind"),
        name=names.checked(name),
        facts=dict(facts or {}),
        in_use=in_use,
        recorded_at=w.now(),
    )
    w.session.add(made)
    w.session.flush()
    return _row(made)


def note_fact(w: Writing, machine: str, key: str, value: str, *, on: date | None = None, by: str | None) -> MachineRow:
    """Put a fact on file; an empty value says that it is not known any more. The newest of a key counts."""
    found = _stored(w, machine)
    if key in {STOPPING_TIME, MEASURED} and found.readings:
        raise UsageError(
            say("The stopping time of {machine} comes from its readings. Enter a reading.", machine=machine)
        )
    text = value.strip()
    if len(text) > LONGEST:
        raise UsageError(say("That is {count} characters long. Use at most {most}.", count=len(text), most=LONGEST))
    found.later.append(MachineFact(key=names.code(key, "fact"), value=text, on=_past(w, on), by=by, at=w.now()))
    w.session.flush()
    return _row(found)


def note_reading(w: Writing, machine: str, time: str, *, on: date, by: str | None, note: str = "") -> MachineRow:
    """Put a stopping time on file, with its unit; :class:`UsageError` where it is none, or its day has not come yet."""
    found = _stored(w, machine)
    measured = parse(time, "time")
    if not has_dimension(measured, "time") or magnitude(measured, "ms") <= 0:
        raise UsageError(say("Write the stopping time with its unit, such as 186 ms."))
    found.readings.append(
        MachineReading(time=time.strip(), note=note.strip()[:LONGEST], on=_past(w, on), by=by, at=w.now())
    )
    w.session.flush()
    return _row(found)


def get(r: Reading, machine: str) -> MachineRow:
    """Return a machine; :class:`Missing` where there is none of that id."""
    return _row(_stored(r, machine))


def all_machines(r: Reading, *, in_use: bool | None = None) -> list[MachineRow]:
    """Return every machine in the order of the ids; with ``in_use`` only those that are, or are not, in use."""
    query = select(Machine).order_by(Machine.id).options(selectinload(Machine.later), selectinload(Machine.readings))
    if in_use is not None:
        query = query.where(Machine.in_use == in_use)
    return [_row(found) for found in r.session.scalars(query)]


def _stored(r: Reading, machine: str) -> Machine:
    found = r.session.get(Machine, machine)
    if found is None:
        raise Missing(say("There is no machine {machine}.", machine=machine))
    return found


def _past(w: Writing, on: date | None) -> date:
    today = w.today()
    if on is not None and on > today:
        raise UsageError(say("{day} has not come yet. Enter the day on which it was found out.", day=on.isoformat()))
    return on or today


def _row(machine: Machine) -> MachineRow:
    readings = tuple(
        ReadingRow(on=one.on, time=one.time, note=one.note, by=one.by, at=one.at)
        for one in sorted(machine.readings, key=lambda one: (one.on, one.id))
    )
    changes = tuple(FactRow(key=one.key, value=one.value, on=one.on, by=one.by, at=one.at) for one in machine.later)
    return MachineRow(
        id=machine.id,
        kind=machine.kind,
        name=machine.name,
        facts=_facts(machine, readings, changes),
        in_use=machine.in_use,
        readings=readings,
        changes=changes,
    )


def _facts(machine: Machine, readings: tuple[ReadingRow, ...], changes: tuple[FactRow, ...]) -> dict[str, str]:
    facts = {**machine.facts, **{one.key: one.value for one in changes}}
    if readings:
        newest = [one for one in readings if one.on == readings[-1].on]
        facts[STOPPING_TIME] = max(newest, key=lambda one: magnitude(parse(one.time, "time"), "ms")).time
        facts[MEASURED] = newest[0].on.isoformat()
    return {key: value for key, value in facts.items() if value}
