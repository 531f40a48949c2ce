"""Whom an event concerns, and which programme briefs them anew. Pure: it is handed who and what there is on the day."""

import hashlib
from collections.abc import Iterable, Mapping, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass
from datetime import date

from trainer.bank import Bank
from trainer.bank.model import Programme, ProgrammeKind
from trainer.records.machines import MachineRow
from trainer.records.people import PersonRow
from trainer.records.standing import Standing, StandingWord

INCIDENT, UNSAFE, CHANGED, MOVED, ABSENCE = "incident", "unsafe-act", "machine-changed", "machine-moved", "absence"
WHATS = (INCIDENT, UNSAFE, CHANGED, MOVED, ABSENCE)
ALTERED = frozenset({CHANGED, MOVED})
ALONE, HERE, KIND, SHIFT = "alone", "machine", "kind", "shift"
SCOPES = (ALONE, HERE, KIND, SHIFT)
USUAL = {INCIDENT: KIND, UNSAFE: ALONE, ABSENCE: ALONE}
# Which of two standings at like machines says more of a person: what lets them run it, then what stopped them.
_TELLING = (
    StandingWord.AUTHORISED,
    StandingWord.REFRESH_DUE,
    StandingWord.SUPERVISED,
    StandingWord.SUSPENDED,
    StandingWord.LAPSED,
    StandingWord.PAUSED,
    StandingWord.PRACTICAL_PENDING,
    StandingWord.THEORY_OPEN,
    StandingWord.ATTENDED,
    StandingWord.NO_EVIDENCE,
)
_RANK = {word: place for place, word in enumerate(_TELLING)}


@dataclass(frozen=True, slots=True, kw_only=True)
class Plant:
    """Who is at the plant, its machines by id, and where everybody stands, on the day an event is told."""

    people: Sequence[PersonRow]
    machines: Mapping[str, MachineRow]
    standings: Sequence[Standing]

    def kind_of(self, one: Standing) -> str:
        """Return the kind of the machine that a standing is for; empty where there is no such machine any more."""
        return self.machines[one.machine].kind if one.machine in self.machines else ""


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


def scope_of(what: str, wanted: str, machine: MachineRow | None) -> str:
    """Return how far an event reaches: as wanted, else as is usual for it; without a machine it is the person alone."""
    scope = wanted if wanted in SCOPES else USUAL.get(what, HERE)
    return ALONE if scope in {HERE, KIND} and machine is None else scope


def whom(
    plant: Plant,
    what: str,
    scope: str,
    *,
    machine: MachineRow | None,
    person: PersonRow | None,
    shown: AbstractSet[str] | None = None,
) -> tuple[Concern, ...]:
    """Return those whom an event concerns, the person whom it is about first.

    ``shown`` holds the keys of whoever was signed off at a machine that was changed or moved: exactly they have to show
    it again, whatever the scope.
    """
    near = _near(plant, machine)
    if shown is not None:
        keys = set(shown)
    elif what == ABSENCE or scope == ALONE:
        keys = set()
    else:
        keys = _exposed(plant, near, scope, machine, person)
    if person is not None:
        keys.add(person.key)
    found = [one for one in plant.people if one.key in keys]
    found.sort(key=lambda one: person is None or one.key != person.key)
    return tuple(Concern(person=one, standing=near.get(one.key)) for one in found)


def _exposed(
    plant: Plant, near: Mapping[str, Standing], scope: str, machine: MachineRow | None, person: PersonRow | None
) -> set[str]:
    """Return the keys of those who work at the machine, at one of its kind, or on the shift of the person."""
    keys: set[str] = set()
    if machine is not None:
        keys = {key for key, one in near.items() if one.machine == machine.id or scope == KIND}
    if scope == SHIFT and person is not None:
        keys |= {one.key for one in plant.people if one.shift == person.shift}
    return keys


def _near(plant: Plant, machine: MachineRow | None) -> Mapping[str, Standing]:
    """Return of each person the standing that lies nearest: at the machine, at one of its kind, then what is held."""

    def distance(one: Standing) -> tuple[bool, int]:
        return machine is not None and one.machine != machine.id, _RANK[one.word]

    present = {one.key for one in plant.people}
    found: dict[str, Standing] = {}
    for one in plant.standings:
        if one.person in present and (machine is None or plant.kind_of(one) == machine.kind):
            held = found.get(one.person)
            found[one.person] = one if held is None else min(held, one, key=distance)
    return found


def brief_for(
    bank: Bank, plant: Plant, what: str, machine: MachineRow | None, concerned: Sequence[Concern]
) -> Programme | None:
    """Return the programme that is usual for an event: for its kind of machine, and for a role that somebody has."""
    held = [one.standing for one in concerned if one.standing]
    kinds = {machine.kind} if machine else {plant.kind_of(one) for one in held}
    roles = {one.role for one in held}
    return next(iter(_fitting(briefs(bank, what), what, kinds, roles)), None)


def _fitting(found: Iterable[Programme], what: str, kinds: set[str], roles: set[str]) -> list[Programme]:
    fit = [one for one in found if kinds & {kind.value for kind in one.machine_kinds}]
    return sorted(fit, key=lambda one: (one.kind is not _wanted(what), one.role.value not in roles))


def briefs(bank: Bank, what: str = "") -> list[Programme]:
    """Return the programmes that brief people anew, those for this kind of event first."""
    word = "change" if what in ALTERED else "incident"
    found = [one for one in bank.programmes.values() if one.kind in {ProgrammeKind.RETURN, ProgrammeKind.REBRIEF}]
    return sorted(found, key=lambda one: (one.kind is not _wanted(what), word not in one.id))


def _wanted(what: str) -> ProgrammeKind:
    return ProgrammeKind.RETURN if what == ABSENCE else ProgrammeKind.REBRIEF
