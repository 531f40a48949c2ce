"""Whom an event concerns, and which programme they get: worked out before anything is entered."""

import hashlib
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from trainer.bank import Bank
from trainer.bank.model import Programme, ProgrammeKind
from trainer.errors import UsageError
from trainer.records import Reading, acts
from trainer.records.machines import MachineRow
from trainer.records.people import PersonRow
from trainer.records.standing import Standing
from trainer.web.days import read_day, read_last_day
from trainer.web.desk.eventpages import EventFields
from trainer.web.roster import Roster
from trainer.web.standings import ORDER
from trainer.web.words import _l
from trainer.wording import say

INCIDENT, UNSAFE, CHANGED, MOVED, ABSENCE = "incident", "unsafe-act", "machine-changed", "machine-moved", "absence"
ALTERED = frozenset({CHANGED, MOVED})
WHATS = (
    (INCIDENT, _l("incident or near miss")),
    (UNSAFE, _l("unsafe act seen")),
    (CHANGED, _l("machine changed")),
    (MOVED, _l("machine moved")),
    (ABSENCE, _l("back after an absence")),
)
ALONE, HERE, KIND, SHIFT = "alone", "machine", "kind", "shift"
SCOPES = (
    (ALONE, _l("the person alone")),
    (HERE, _l("everybody at this machine")),
    (KIND, _l("everybody at machines of this kind")),
    (SHIFT, _l("everybody at this machine and on the shift of the person")),
)
USUAL = {INCIDENT: KIND, UNSAFE: ALONE, ABSENCE: ALONE}
NOTHING = "none"  # the choice of giving no programme
DAYS = 7  # to take a re-brief, where no day is named
LONGEST = 500  # characters of a note


@dataclass(frozen=True, slots=True, kw_only=True)
class Concern:
    """Somebody whom an event concerns, with the standing that it bears on, if there is one."""

    person: PersonRow
    standing: Standing | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Event:
    """An event as it was told, checked. ``left`` counts those whom it concerns who are not here any more."""

    what: str
    machine: MachineRow | None
    person: PersonRow | None
    on: date
    note: str
    scope: str
    programme: Programme | None
    due_on: date
    concerned: tuple[Concern, ...]
    left: int

    @property
    def seen(self) -> str:
        """Return a code of what and whom it is about, so that only what was looked at is entered."""
        keys = sorted(one.person.key for one in self.concerned)
        machine = self.machine.id if self.machine else ""
        text = "\n".join([self.what, machine, self.person.key if self.person else "", *keys])
        return hashlib.sha256(text.encode()).hexdigest()[:16]


def read_event(reading: Reading, bank: Bank, roster: Roster, fields: EventFields) -> Event:
    """Check what was told and work out whom it concerns. :class:`UsageError` says what is missing or wrong."""
    today = reading.today()
    if fields.what not in dict(WHATS):
        raise UsageError(say("Choose what happened from the list."))
    machine, person = _machine(roster, fields), _person(roster, fields)
    on = read_last_day(fields.on, today=today)
    note = " ".join(fields.note.split())
    if not note or len(note) > LONGEST:
        raise UsageError(say("Write in a few words what happened; at most {most} characters.", most=LONGEST))
    scope = fields.scope if fields.scope in dict(SCOPES) else USUAL.get(fields.what, HERE)
    if scope in {HERE, KIND} and machine is None:
        scope = ALONE
    shown = acts.shown_at(reading, machine.id) if machine and fields.what in ALTERED else None
    concerned = _concerned(roster, fields.what, scope, machine=machine, person=person, shown=shown)
    return Event(
        what=fields.what,
        machine=machine,
        person=person,
        on=on,
        note=note,
        scope=scope,
        programme=_programme(bank, fields, machine, concerned, roster),
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


def _concerned(
    roster: Roster,
    what: str,
    scope: str,
    *,
    machine: MachineRow | None,
    person: PersonRow | None,
    shown: Collection[str] | None,
) -> tuple[Concern, ...]:
    """Return those whom it concerns, the person whom it is about first."""
    near = _near(roster, machine)
    if shown is not None:
        keys = {one.key for one in roster.present() if one.key in shown}
    elif what == ABSENCE or scope == ALONE:
        keys = set()
    else:
        kind = machine.kind if machine else ""
        keys = {
            key
            for key, one in near.items()
            if (machine and one.machine == machine.id) or (scope == KIND and _kind(roster, one) == kind)
        }
        keys |= {one.key for one in roster.present() if scope == SHIFT and person and one.shift == person.shift}
    if person is not None:
        keys.add(person.key)
    found = [one for one in roster.present() if one.key in keys]
    found.sort(key=lambda one: person is None or one.key != person.key)
    return tuple(Concern(person=one, standing=near.get(one.key)) for one in found)


def _near(roster: Roster, machine: MachineRow | None) -> Mapping[str, Standing]:
    """Return of each person the standing that lies nearest: at the machine, at one of its kind, then what is held."""

    def distance(one: Standing) -> tuple[bool, bool, int]:
        same = machine is not None and one.machine == machine.id
        alike = machine is not None and _kind(roster, one) == machine.kind
        return not same, not alike, ORDER[one.word]

    present = {one.key for one in roster.present()}
    found = {key: min(held, key=distance) for key, held in roster.of_person().items() if key in present and held}
    if machine is None:
        return found
    return {key: one for key, one in found.items() if _kind(roster, one) == machine.kind}


def _kind(roster: Roster, one: Standing) -> str:
    return roster.machines[one.machine].kind if one.machine in roster.machines else ""


def _programme(
    bank: Bank, fields: EventFields, machine: MachineRow | None, concerned: Sequence[Concern], roster: Roster
) -> Programme | None:
    if fields.programme == NOTHING:
        return None
    if fields.programme:
        return bank.programme(fields.programme)
    kinds = {machine.kind} if machine else {_kind(roster, one.standing) for one in concerned if one.standing}
    roles = {one.standing.role for one in concerned if one.standing}
    fit = [one for one in briefs(bank, fields.what) if kinds & {kind.value for kind in one.machine_kinds}]
    return min(fit, key=lambda one: (one.kind is not _wanted(fields.what), one.role.value not in roles), default=None)


def briefs(bank: Bank, what: str = "") -> list[Programme]:
    """Return the programmes that brief people anew, those for this kind of event first."""
    word = "change" if what in ALTERED else "incident"
    found = [one for one in bank.programmes.values() if one.kind in {ProgrammeKind.RETURN, ProgrammeKind.REBRIEF}]
    return sorted(found, key=lambda one: (one.kind is not _wanted(what), word not in one.id))


def _wanted(what: str) -> ProgrammeKind:
    return ProgrammeKind.RETURN if what == ABSENCE else ProgrammeKind.REBRIEF
