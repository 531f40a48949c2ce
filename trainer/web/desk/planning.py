"""Lines of the week for what can be planned: shifts that run short, and refreshers."""

from collections.abc import Iterable
from datetime import date

from flask import url_for

from trainer.records.dues import DueRow
from trainer.records.standing import Reason
from trainer.web.desk.acts import assign_act
from trainer.web.desk.shifts import HORIZON, Manning, manning
from trainer.web.desk.waiting import BOOK, LATER, SOON, TODAY, WEEK, Facts, Wait
from trainer.web.desk.waiting import line as put
from trainer.web.filters import day
from trainer.web.language import current
from trainer.web.roster import named
from trainer.web.sheet import Link, address
from trainer.web.words import _
from trainer.wording import say


def short_shifts(facts: Facts) -> Iterable[Wait]:
    """Yield the shifts on which fewer than two may run a machine, today or within 90 days."""
    for line in manning(facts.roster.standings, facts.roster.people):
        start = line.short_from(facts.today)
        machine = facts.roster.machines.get(line.machine)
        if start is None or start > facts.today + HORIZON or machine is None or not machine.in_use:
            continue
        already = start <= facts.today
        yield Wait(
            group=TODAY if already else BOOK,
            tag="short",
            urgency=(1, (start - facts.today).days),
            line=put(
                clock=_("already") if already else _("from %(day)s", day=day(start)),
                kind=_("shift runs short"),
                subject=line.machine,
                subject_note=line.shift,
                reasons=why_short(line, start),
                act=book(line, start),
            ),
        )


def why_short(line: Manning, start: date) -> tuple[Reason, ...]:
    """Say who ends before a shift runs short, and who is left."""
    gone = [
        Reason(
            sentence=say("{person} ends {day}.", person=holder.person.name, day=str(holder.until)),
            entries=holder.entries[:1],
        )
        for holder in line.ending(start)
    ]
    stay = " ".join(holder.person.name for holder in line.staying(start))
    if gone:
        last = say("Leaves {person} alone.", person=stay) if stay else say("Leaves nobody.")
    else:
        last = say("One person may run it: {person}.", person=stay) if stay else say("Nobody may run it.")
    stopped = ", ".join(holder.person.name for holder in line.stopped)
    held = [Reason(sentence=say("May not now, but did: {people}.", people=stopped), entries=())] if stopped else []
    return (*gone, Reason(sentence=last, entries=()), *held)


def book(line: Manning, start: date, *, role: str = "") -> Link:
    """Lead to what heals a shift that runs short; without a role it is the operator's."""
    gone = line.ending(start)
    if len(gone) == 1:
        return assign_act(gone[0].person, _("Assign the refresher"), machine=line.machine, kind="refresher", role=role)
    where = _("%(machine)s on %(shift)s", machine=line.machine, shift=line.shift)
    if gone:
        url = address("desk.assign", machine=line.machine, shift=line.shift, kind="refresher", role=role)
        return Link(label=_("Assign the refreshers"), url=url, about=where)
    if line.stopped:
        url = url_for("desk.people", machine=line.machine, shift=line.shift)
        return Link(label=_("Get them back"), url=url, about=where)
    url = address("desk.assign", machine=line.machine, shift=line.shift, kind="induction", role=role)
    return Link(label=_("Train another"), url=url, about=where)


def refreshers(facts: Facts) -> Iterable[Wait]:
    """Yield what is over, ends within 7 days or within 30."""
    for row in facts.dues:
        person = facts.roster.people.get(row.person)
        days = (row.due_on - facts.today).days
        if row.state == "assigned" or person is None or person.status != "active" or days > LATER.days:
            continue
        soon = days <= SOON.days
        yield Wait(
            group=WEEK if soon else BOOK,
            tag="due",
            urgency=(1 if soon else 0, days),
            line=put(
                clock=_("over %(days)s d", days=-days) if days < 0 else _("by %(day)s", day=day(row.due_on)),
                kind=_due_kind(facts, row),
                people=(named(person, "desk.person"),),
                reasons=(Reason(sentence=row.reason, entries=(row.entry,) if row.entry else ()),),
                act=assign_act(
                    person, _("Assign the refresher"), machine=row.machines[0] if row.machines else "", kind="refresher"
                ),
            ),
        )


def _due_kind(facts: Facts, row: DueRow) -> str:
    name = facts.bank.programme(row.programme).name.in_(current())
    return f"{name}, {', '.join(row.machines)}" if row.machines else name
