"""Who is on record and not in the file. Nobody is ended for that unasked, and nobody at all when many are missing."""

from collections.abc import Sequence
from dataclasses import dataclass

from trainer.records.people import PersonRow
from trainer.records.roster.fates import Act
from trainer.records.roster.findings import CutRoster, RefusedRow, RosterFinding, found
from trainer.records.roster.known import Known
from trainer.records.roster.questions import Asked, Choice, Question, as_day
from trainer.wording import say

KEEP = "keep"
FEW, SHARE = (
    3,
    10,
)  # own choice: more than three people and more than one in ten missing is a part, not a month's leavers
MOST_NAMED = 5


@dataclass(frozen=True, slots=True)
class Absence:
    """Who is absent, what is done about it, and what stands against that."""

    people: tuple[PersonRow, ...] = ()
    acts: tuple[Act, ...] = ()
    findings: tuple[RosterFinding, ...] = ()


def settle_absent(seen: frozenset[str], unsettled: int, known: Known, asked: Asked) -> Absence:
    """Ask what it means that people are absent; ``seen`` are the keys of those whom the file is about.

    While ``unsettled`` rows may still turn out to be about some of them, only a part is told.
    """
    here = [one for one in known.by_number.values() if one.ended is None]
    absent = tuple(one for one in here if one.key not in seen)
    if not absent:
        return Absence()
    partial = len(absent) - unsettled > max(FEW, len(here) // SHARE)
    if unsettled and not partial:
        return Absence(absent)
    answer = asked.ask(_question(absent, len(here), partial=partial))
    day = as_day(answer or "")
    if partial and answer is None:
        told = say("{absent} of {here} people on record are not in the file.", absent=len(absent), here=len(here))
        return Absence(absent, findings=(found(CutRoster, told),))
    if day is None:
        return Absence(absent)
    later = [one for one in absent if known.spans.get(one.key, (day, day))[1] > day]
    refusals = tuple(
        found(RefusedRow, say("{name} has an entry after {day}.", name=one.name, day=str(day)), key=one.number)
        for one in later
    )
    return Absence(absent, tuple(Act(key=one.key, leave_on=day) for one in absent), refusals)


def _question(absent: Sequence[PersonRow], here: int, *, partial: bool) -> Question:
    names = ", ".join(f"{one.number} {one.name}" for one in absent[:MOST_NAMED])
    more = len(absent) - MOST_NAMED
    told = say(
        "{absent} of {here} people on record are not in the file: {names}. What about them?",
        absent=len(absent),
        here=here,
        names=f"{names} +{more}" if more > 0 else names,
    )
    return Question(
        id="absent",
        sentence=told,
        choices=(Choice(KEEP, say("They stay; the file is about others")),),
        takes_day=not partial,
    )
