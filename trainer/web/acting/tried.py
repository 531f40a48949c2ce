"""What an act would come to: done in a transaction that is dropped, with everybody's standing before and after."""

import hashlib
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass

from trainer.errors import UsageError
from trainer.records import Writing, access, people
from trainer.records.ledger import Entry
from trainer.records.people import PersonRow
from trainer.records.standing import Standing, standings
from trainer.web.acting.act import Act, Asked
from trainer.web.roster import known
from trainer.wording import say

Held = dict[tuple[str, str, str], Standing]


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """One standing that an act changes."""

    before: Standing
    after: Standing


@dataclass(frozen=True, slots=True, kw_only=True)
class Tried:
    """The entries of an act, the standings that it changes, and those who are named in either."""

    entries: Sequence[Entry]
    changes: tuple[Change, ...]
    people: Mapping[str, PersonRow]

    @property
    def seen(self) -> str:
        """Return a code of what was shown: what is entered has to be what was looked at."""
        told = [f"{one.person} {one.kind} {one.happened_on} {sorted(one.body.items())!r}" for one in self.entries]
        told += [f"{one.after.person} {one.after.machine} {one.after.role} {one.after.word}" for one in self.changes]
        return hashlib.sha256("\n".join(told).encode()).hexdigest()[:16]


def try_act(w: Writing, act: Act, asked: Asked) -> Tried:
    """Do an act and say what it came to. Nothing is kept unless the caller's transaction is."""
    about = None if act.wide else {asked.person.key}
    before = _held(w, asked, about)
    entries = act.do(w, asked)
    changes = tuple(_changes(before, _held(w, asked, about)))
    named = known(w, entries)
    named |= {one.key: one for change in changes if (one := people.get(w, change.after.person)) is not None}
    return Tried(entries=entries, changes=changes, people=named)


def prove_second(w: Writing, asked: Asked, pin: str, place: str) -> None:
    """Prove that the second person is there; before anything is entered, so that a wrong PIN is counted."""
    number = asked.given.raw("second").strip()
    if not pin:
        raise UsageError(say("The PIN of {number} is missing. Nothing was entered.", number=number))
    access.sign_in_pin(w, number, pin, place=place)


def _held(w: Writing, asked: Asked, about: Collection[str] | None) -> Held:
    person = asked.person.key if about is not None else None
    found = standings(w, asked.bank, on=asked.today, person=person)
    return {(one.person, one.machine, one.role): one for one in found}


def _changes(before: Held, after: Held) -> list[Change]:
    """Return what differs; a role at a machine of which nothing was known before, or is known after, has no row."""
    pairs = ((old, after[place]) for place, old in before.items() if place in after)
    return [Change(before=old, after=new) for old, new in pairs if _shown(old) != _shown(new)]


def _shown(one: Standing) -> tuple[object, ...]:
    return one.word, one.holds_until, one.due_on, one.supervisors
