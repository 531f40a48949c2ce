"""What somebody tells of an event, read and checked; whom it concerns is worked out by the record."""

from collections.abc import Sequence
from datetime import timedelta

from trainer.bank import Bank
from trainer.bank.model import Programme
from trainer.errors import UsageError
from trainer.records import Reading, acts
from trainer.records.concerned import (
    ABSENCE,
    ALONE,
    ALTERED,
    CHANGED,
    HERE,
    INCIDENT,
    KIND,
    MOVED,
    SHIFT,
    UNSAFE,
    Concern,
    Event,
    Plant,
    brief_for,
    scope_of,
    whom,
)
from trainer.records.machines import MachineRow
from trainer.records.people import PersonRow
from trainer.web.days import read_day, read_last_day
from trainer.web.desk.eventpages import EventFields
from trainer.web.roster import Roster
from trainer.web.words import _l
from trainer.wording import say

WHATS = (
    (INCIDENT, _l("incident or near miss")),
    (UNSAFE, _l("unsafe act seen")),
    (CHANGED, _l("machine changed")),
    (MOVED, _l("machine moved")),
    (ABSENCE, _l("back after an absence")),
)
SCOPES = (
    (ALONE, _l("the person alone")),
    (HERE, _l("everybody at this machine")),
    (KIND, _l("everybody at machines of this kind")),
    (SHIFT, _l("everybody at this machine and on the shift of the person")),
)
NOTHING = "none"  # the choice of giving no programme
DAYS = 7  # to take a re-brief, where no day is named
LONGEST = 500  # characters of a note


def read_event(reading: Reading, bank: Bank, roster: Roster, fields: EventFields) -> Event:
    """Check what was told and have it worked out whom it concerns. :class:`UsageError` says what is missing or wrong."""
    today = reading.today()
    if fields.what not in dict(WHATS):
        raise UsageError(say("Choose what happened from the list."))
    machine, person = _machine(roster, fields), _person(roster, fields)
    on = read_last_day(fields.on, today=today)
    note = " ".join(fields.note.split())
    if not note or len(note) > LONGEST:
        raise UsageError(say("Write in a few words what happened; at most {most} characters.", most=LONGEST))
    plant = Plant(people=roster.present(), machines=roster.machines, standings=roster.standings)
    scope = scope_of(fields.what, fields.scope, machine)
    shown = acts.shown_at(reading, machine.id) if machine and fields.what in ALTERED else None
    concerned = whom(plant, fields.what, scope, machine=machine, person=person, shown=shown)
    return Event(
        what=fields.what,
        machine=machine,
        person=person,
        on=on,
        note=note,
        scope=scope,
        programme=_programme(bank, plant, fields, machine, concerned),
        due_on=read_day(fields.due, today=today) if fields.due.strip() else today + timedelta(days=DAYS),
        concerned=concerned,
        left=len(shown - {one.person.key for one in concerned}) if shown is not None else 0,
    )


def _machine(roster: Roster, fields: EventFields) -> MachineRow | None:
    if fields.machine and fields.machine not in roster.machines:
        raise UsageError(say("There is no machine {machine}.", machine=fields.machine))
    if not fields.machine and fields.what in {INCIDENT, *ALTERED}:
        raise UsageError(say("Choose the machine that it is about."))
    return roster.machines.get(fields.machine)


def _person(roster: Roster, fields: EventFields) -> PersonRow | None:
    number = fields.number.strip()
    if fields.what in ALTERED:
        return None
    if not number:
        if fields.what in {UNSAFE, ABSENCE}:
            raise UsageError(say("Write the number of the person whom it is about."))
        return None
    found = [one for one in roster.present() if one.number == number]
    if not found:
        raise UsageError(say("Nobody on the roster has the number {number}.", number=number))
    return found[0]


def _programme(
    bank: Bank, plant: Plant, fields: EventFields, machine: MachineRow | None, concerned: Sequence[Concern]
) -> Programme | None:
    if fields.programme == NOTHING:
        return None
    if fields.programme:
        return bank.programme(fields.programme)
    return brief_for(bank, plant, fields.what, machine, concerned)
