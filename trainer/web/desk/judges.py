"""Who may judge a practical, and by which entry."""

from collections.abc import Sequence
from dataclasses import dataclass

from trainer.records.people import PersonRow
from trainer.records.practicals import Entitlement
from trainer.records.standing import Standing
from trainer.web.filters import day
from trainer.web.roster import Roster
from trainer.wording import Sentence, say

MANY = 3  # names in one sentence; the rest are a number


@dataclass(frozen=True, slots=True, kw_only=True)
class Judges:
    """The entitlements in force on a day."""

    rights: Sequence[Entitlement]

    def for_(self, kind: str, role: str, person: str) -> list[Entitlement]:
        """Return those by which somebody other than ``person`` may judge ``role`` at that kind of machine."""
        found: dict[str, Entitlement] = {}
        for right in self.rights:
            if kind in right.machine_kinds and role in right.roles and right.person != person:
                found.setdefault(right.person, right)
        return list(found.values())

    def of(self, person: str) -> list[Entitlement]:
        """Return what one person may judge."""
        return [right for right in self.rights if right.person == person]

    def sentence(self, one: Standing, roster: Roster, person: PersonRow, me: str = "") -> Sentence:
        """Say who may sign: the reader, if ``me`` may; else those of the person's own shift first."""
        machine = roster.machines.get(one.machine)
        rights = self.for_(machine.kind, one.role, person.key) if machine else []
        if any(right.person == me for right in rights):
            return say("You may sign.")
        people = [roster.people[right.person] for right in rights if right.person in roster.people]
        people.sort(key=lambda judge: (judge.shift != person.shift, judge.sort_name))
        if not people:
            return say("Nobody may sign it now: no entitlement in force.")
        names = ", ".join(f"{judge.name} ({judge.shift})" if judge.shift else judge.name for judge in people[:MANY])
        if len(people) > MANY:
            return say("{names} and {count} more may sign.", names=names, count=len(people) - MANY)
        return say("{names} may sign.", names=names)


def until(right: Entitlement) -> str:
    """Say to which day an entitlement runs."""
    return day(right.valid_to)
