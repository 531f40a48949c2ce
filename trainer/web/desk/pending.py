"""Lines of the week for practicals: those who passed the theory, those to be briefed anew, second tries."""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from flask import url_for

from trainer.records.ledger import Entry, EntryKind
from trainer.records.people import PersonRow
from trainer.records.standing import Reason, Standing, StandingWord
from trainer.web.desk.acts import sign_act
from trainer.web.desk.waiting import NOW, TODAY, WEEK, Facts, Wait, at_the_kiosk, clock, days_since, line, newest
from trainer.web.roster import named
from trainer.web.sheet import Link
from trainer.web.standings import role_name
from trainer.web.words import _
from trainer.wording import say


@dataclass(frozen=True, slots=True, kw_only=True)
class Pending:
    """A practical that somebody waits for, and the paper or change since which they do, if it is not long ago."""

    standing: Standing
    person: PersonRow
    entry: Entry | None


def practicals(facts: Facts) -> Iterable[Wait]:
    """Yield those who passed the theory and wait for the practical: now, if they handed in a moment ago.

    A person has one line for all machines of a role; a changed machine has one line for all its people.
    """
    changed: dict[tuple[str, str], list[Pending]] = defaultdict(list)
    waiting: dict[tuple[str, str], list[Pending]] = defaultdict(list)
    for one in facts.roster.standings:
        person = facts.roster.people.get(one.person)
        if one.word is not StandingWord.PRACTICAL_PENDING or person is None or person.status != "active":
            continue
        pending = Pending(standing=one, person=person, entry=newest(facts, one))
        if pending.entry is not None and pending.entry.kind is EntryKind.EVENT:
            changed[one.machine, one.role].append(pending)
        else:
            waiting[one.person, one.role].append(pending)
    yield from (_practical(facts, found) for found in waiting.values())
    yield from (_rebrief(facts, found) for found in changed.values())


def _practical(facts: Facts, waiting: Sequence[Pending]) -> Wait:
    first = waiting[0]
    one, person, entry = first.standing, first.person, first.entry
    here = at_the_kiosk(facts, entry)
    machines = ", ".join(found.standing.machine for found in waiting)
    act = sign_act(person, one, facts.me) if len(waiting) == 1 else _choose_machine(person)
    return Wait(
        group=NOW if here else TODAY if _together(facts, person) else WEEK,
        tag="practical",
        urgency=(0, -days_since(facts, entry)),
        line=line(
            clock=clock(facts, entry),
            kind=_("practical, %(machine)s %(role)s", machine=machines, role=role_name(one.role)),
            people=(named(person, "desk.person"),),
            reasons=(*one.reasons[:1], _who_signs(facts, one, person)),
            act=act,
        ),
    )


def _choose_machine(person: PersonRow) -> Link:
    return Link(label=_("Choose the machine"), url=url_for("desk.person", key=person.key), about=person.name)


def _together(facts: Facts, person: PersonRow) -> bool:
    """Say whether the reader works on the same shift: then the practical can be seen today."""
    reader = facts.roster.people.get(facts.me)
    return reader is not None and person.key != facts.me and reader.shift == person.shift


def _rebrief(facts: Facts, waiting: Sequence[Pending]) -> Wait:
    """Put everybody who waits for a re-brief at one machine on one line: it is one half hour at the machine."""
    one, entry = waiting[0].standing, waiting[0].entry
    day_changed = str(entry.happened_on) if entry else ""
    numbers = tuple(found.entry.number for found in waiting if found.entry)[:3]
    told = Reason(sentence=say("The machine was changed on {day}.", day=day_changed), entries=numbers)
    return Wait(
        group=TODAY,
        tag="practical",
        urgency=(0, -days_since(facts, entry)),
        line=line(
            clock=clock(facts, entry),
            kind=_("re-brief after a change, %(machine)s %(role)s", machine=one.machine, role=role_name(one.role)),
            people=tuple(named(found.person, "desk.person") for found in waiting),
            reasons=(told, _who_signs(facts, one, waiting[0].person)),
            act=Link(
                label=_("See them at the machine"),
                url=url_for("desk.practicals", machine=one.machine),
                about=one.machine,
            ),
        ),
    )


def _who_signs(facts: Facts, one: Standing, person: PersonRow) -> Reason:
    return Reason(sentence=facts.judges.sentence(one, facts.roster, person, facts.me), entries=())


def second_tries(facts: Facts) -> Iterable[Wait]:
    """Yield those who were watched and did not pass: supervised only, until a second practical."""
    for one in facts.roster.standings:
        person = facts.roster.people.get(one.person)
        if one.word is StandingWord.SUPERVISED and person is not None and person.status == "active":
            yield Wait(
                group=WEEK,
                tag="practical",
                urgency=(0, 0),
                line=line(
                    clock=_("supervised"),
                    kind=_("second practical, %(machine)s %(role)s", machine=one.machine, role=role_name(one.role)),
                    people=(named(person, "desk.person"),),
                    reasons=one.reasons[-1:],
                    act=sign_act(person, one, facts.me),
                ),
            )
