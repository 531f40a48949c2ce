"""Who needs me this week: lines by clock, each with one reason and one act.

*Now* is somebody who stands at the kiosk and cannot go on; *today* somebody who waits, or a shift with too few;
*this week* what ends within it, or what only coaching can move; *book this week* what ends later and must be planned.
"""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta

from flask import url_for

from trainer.bank import Bank
from trainer.records.dues import DueRow
from trainer.records.hazards import HazardRow
from trainer.records.ledger import Entry, EntryKind
from trainer.records.people import PersonRow
from trainer.records.standing import Reason, Standing, StandingWord
from trainer.web.desk.acts import assign_act, sign_act
from trainer.web.desk.judges import Judges
from trainer.web.desk.pages import Line
from trainer.web.desk.shifts import HORIZON, Manning, manning
from trainer.web.filters import day
from trainer.web.language import current
from trainer.web.roster import Roster, named
from trainer.web.sheet import Link, Named
from trainer.web.standings import role_name
from trainer.web.words import _, ngettext
from trainer.wording import Sentence, say

NOW, TODAY, WEEK, BOOK = "now", "today", "week", "book"
ORDER = (NOW, TODAY, WEEK, BOOK)
AT_THE_KIOSK = timedelta(hours=2)  # so long after handing in a person is taken to be still there
SOON = timedelta(days=7)
LATER = timedelta(days=30)
LINE = 160  # characters of a report on its line
LONG = timedelta(days=60)  # papers older than this are not read for the sheet of the week


@dataclass(frozen=True, slots=True, kw_only=True)
class Wait:
    """A line before it has its number: its group, and how urgent it is within it (smaller comes first)."""

    group: str
    tag: str  # hazard, practical, short, failed, due or suspended
    urgency: tuple[int, int]
    line: Line


@dataclass(frozen=True, slots=True, kw_only=True)
class Facts:
    """What the lines are made from."""

    bank: Bank
    roster: Roster
    dues: Sequence[DueRow]
    sittings: Sequence[Entry]  # papers handed in of late, newest first
    events: Sequence[Entry]  # machines changed of late, newest first
    judges: Judges
    hazards: Sequence[HazardRow]
    now: datetime
    me: str  # the key of the trainer who reads it

    @property
    def today(self) -> date:
        """Return the day the sheet is for."""
        return self.roster.on


def waits(facts: Facts) -> list[Wait]:
    """Return every line, most urgent first, numbered from 1."""
    found = [
        *reports(facts),
        *practicals(facts),
        *second_tries(facts),
        *short_shifts(facts),
        *failed(facts),
        *refreshers(facts),
        *suspended(facts),
    ]
    found.sort(key=lambda wait: (ORDER.index(wait.group), wait.urgency, wait.line.kind))
    weight = {NOW: "now", TODAY: "today"}
    return [
        replace(
            wait, line=replace(wait.line, number=number, act=replace(wait.line.act, weight=weight.get(wait.group, "")))
        )
        for number, wait in enumerate(found, start=1)
    ]


def reports(facts: Facts) -> Iterable[Wait]:
    """Yield the open reports of hazards: the oldest first, and before anything else."""
    for row in facts.hazards:
        who = facts.roster.people.get(row.person or "")
        told = say("“{words}”", words=shortened(row.words, LINE))
        yield Wait(
            group=NOW,
            tag="hazard",
            urgency=(-1, -int((facts.now - row.at).total_seconds())),
            line=_line(
                clock=_("open %(time)s", time=lasted(facts.now - row.at)),
                kind=_("hazard report %(number)s", number=row.reference),
                subject=row.machine or _("No machine named"),
                subject_note=who.name if who else _("not named"),
                warning=True,
                reasons=(Reason(sentence=told, entries=()),),
                act=Link(label=_("Answer the report"), url=url_for("desk.hazard", number=row.id), about=row.reference),
            ),
        )


def lasted(passed: timedelta) -> str:
    """Say how long something has lasted, in the two units that matter."""
    hours, minutes = divmod(int(passed.total_seconds()) // 60, 60)
    if hours == 0:
        return _("%(minutes)s min", minutes=max(minutes, 0))
    days, rest = divmod(hours, 24)
    return _("%(days)s d %(hours)s h", days=days, hours=rest) if days else _("%(hours)s h", hours=hours)


def shortened(text: str, most: int) -> str:
    """Cut a text at a word's end; what was cut is on its own sheet."""
    plain = " ".join(text.split())
    return plain if len(plain) <= most else plain[:most].rsplit(" ", 1)[0] + " …"


def practicals(facts: Facts) -> Iterable[Wait]:
    """Yield those who passed the theory and wait for the practical: now, if they handed in a moment ago."""
    changed: dict[tuple[str, str], list[tuple[Standing, PersonRow, Entry]]] = defaultdict(list)
    for one in facts.roster.standings:
        person = facts.roster.people.get(one.person)
        if one.word is not StandingWord.PRACTICAL_PENDING or person is None or person.status != "active":
            continue
        entry = _newest(facts, one)
        if entry is not None and entry.kind is EntryKind.EVENT:
            changed[one.machine, one.role].append((one, person, entry))
            continue
        yield _practical(facts, one, person, entry)
    for waiting in changed.values():
        yield _rebrief(facts, waiting)


def _practical(facts: Facts, one: Standing, person: PersonRow, entry: Entry | None) -> Wait:
    here = _at_the_kiosk(facts, entry)
    return Wait(
        group=NOW if here else TODAY,
        tag="practical",
        urgency=(0, -_days(facts, entry)),
        line=_line(
            clock=_clock(facts, entry),
            kind=_("practical, %(machine)s %(role)s", machine=one.machine, role=role_name(one.role)),
            people=(named(person, "desk.person"),),
            reasons=(*one.reasons[:1], _who_signs(facts, one, person)),
            act=sign_act(person, one, facts.me),
        ),
    )


def _rebrief(facts: Facts, waiting: Sequence[tuple[Standing, PersonRow, Entry]]) -> Wait:
    """Put everybody who waits for a re-brief at one machine on one line: it is one half hour at the machine."""
    one, person, entry = waiting[0]
    told = say("The machine was changed on {day}.", day=entry.happened_on.isoformat())
    return Wait(
        group=TODAY,
        tag="practical",
        urgency=(0, -_days(facts, entry)),
        line=_line(
            clock=_clock(facts, entry),
            kind=_("re-brief after a change, %(machine)s %(role)s", machine=one.machine, role=role_name(one.role)),
            people=tuple(named(each, "desk.person") for _standing, each, _entry in waiting),
            reasons=(
                Reason(sentence=told, entries=tuple(found.number for _standing, _person, found in waiting)[:3]),
                _who_signs(facts, one, person),
            ),
            act=Link(
                label=_("See them at the machine"),
                url=url_for("desk.practicals", machine=one.machine),
                about=one.machine,
            ),
        ),
    )


def _who_signs(facts: Facts, one: Standing, person: PersonRow) -> Reason:
    return Reason(sentence=facts.judges.sentence(one, facts.roster, person, facts.me), entries=())


def _newest(facts: Facts, one: Standing) -> Entry | None:
    """Return the newest paper or machine change that a standing rests on, if it is not long ago."""
    numbers = {number for reason in one.reasons for number in reason.entries}
    found = [entry for entry in (*facts.sittings, *facts.events) if entry.number in numbers]
    return max(found, key=lambda entry: entry.number, default=None)


def _at_the_kiosk(facts: Facts, entry: Entry | None) -> bool:
    return (
        entry is not None
        and entry.kind is EntryKind.SITTING_MARKED
        and timedelta() <= facts.now - entry.recorded_at < AT_THE_KIOSK
    )


def _days(facts: Facts, entry: Entry | None) -> int:
    return (facts.today - entry.happened_on).days if entry else LONG.days


def _clock(facts: Facts, entry: Entry | None) -> str:
    if entry is not None and _at_the_kiosk(facts, entry):
        return _("waits %(time)s", time=lasted(facts.now - entry.recorded_at))
    days = _days(facts, entry)
    if entry is None:
        return _("over %(days)s days", days=days)
    if days <= 0:
        return _("since today")
    return ngettext("waits %(num)s day", "waits %(num)s days", days)


def second_tries(facts: Facts) -> Iterable[Wait]:
    """Yield those who were watched and did not pass: supervised only, until a second practical."""
    for one in facts.roster.standings:
        person = facts.roster.people.get(one.person)
        if one.word is StandingWord.SUPERVISED and person is not None and person.status == "active":
            yield Wait(
                group=WEEK,
                tag="practical",
                urgency=(0, 0),
                line=_line(
                    clock=_("supervised"),
                    kind=_("second practical, %(machine)s %(role)s", machine=one.machine, role=role_name(one.role)),
                    people=(named(person, "desk.person"),),
                    reasons=one.reasons[-1:],
                    act=sign_act(person, one, facts.me),
                ),
            )


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
            line=_line(
                clock=_("already") if already else _("from %(day)s", day=day(start)),
                kind=_("shift runs short"),
                subject=line.machine,
                subject_note=line.shift,
                reasons=_why_short(line, start),
                act=_book(line, start),
            ),
        )


def _why_short(line: Manning, start: date) -> tuple[Reason, ...]:
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


def _book(line: Manning, start: date) -> Link:
    gone = line.ending(start)
    if len(gone) == 1:
        return assign_act(gone[0].person, _("Assign the refresher"), machine=line.machine, kind="refresher")
    where = _("%(machine)s on %(shift)s", machine=line.machine, shift=line.shift)
    if gone:
        url = url_for("desk.assign", machine=line.machine, shift=line.shift, kind="refresher")
        return Link(label=_("Assign the refreshers"), url=url, about=where)
    if line.stopped:
        url = url_for("desk.people", machine=line.machine, shift=line.shift)
        return Link(label=_("Get them back"), url=url, about=where)
    url = url_for("desk.assign", machine=line.machine, shift=line.shift, kind="induction")
    return Link(label=_("Train another"), url=url, about=where)


def failed(facts: Facts) -> Iterable[Wait]:
    """Yield those whose newest paper of a programme was not passed: they need a coach before another try."""
    newest: dict[tuple[str, str], Entry] = {}
    tries: dict[tuple[str, str], int] = {}
    for entry in facts.sittings:  # newest first
        paper = entry.person, str(entry.body["programme"])
        newest.setdefault(paper, entry)
        if not _passed(newest[paper]):
            tries[paper] = tries.get(paper, 0) + (not _passed(entry))
    for (key, programme), entry in newest.items():
        person = facts.roster.people.get(key)
        if _passed(entry) or person is None or person.status != "active":
            continue
        yield _failed(facts, person, programme, entry, tries[key, programme])


def _failed(facts: Facts, person: PersonRow, programme: str, entry: Entry, tries: int) -> Wait:
    name = facts.bank.programme(programme).name.in_(current())
    kind = _("theory not passed") if tries == 1 else _("theory not passed, %(count)s times", count=tries)
    return Wait(
        group=NOW if _at_the_kiosk(facts, entry) else WEEK,
        tag="failed",
        urgency=(0, -_days(facts, entry)),
        line=_line(
            clock=_clock(facts, entry),
            kind=kind,
            people=(named(person, "desk.person"),),
            reasons=(Reason(sentence=_why_failed(entry, name), entries=(entry.number,)),),
            act=Link(
                label=_("Coach on the slips"),
                url=url_for("desk.person", key=person.key, _anchor="c"),
                about=person.name,
            ),
        ),
    )


def _passed(entry: Entry) -> bool:
    return bool(entry.body["passed"])


def _why_failed(entry: Entry, programme: str) -> Sentence:
    score = entry.body["score"]
    return say(
        "{programme}, {day}: {right} of {out_of} right, {needed} needed.",
        programme=programme,
        day=day(entry.happened_on),
        right=score["right"],
        out_of=score["out_of"],
        needed=entry.body["needed"],
    )


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
            line=_line(
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


def suspended(facts: Facts) -> Iterable[Wait]:
    """Yield those who are suspended: somebody has to look into it and lift it, or not."""
    for one in facts.roster.standings:
        person = facts.roster.people.get(one.person)
        act = Link(label=_("Look into it"), url=url_for("desk.person", key=one.person), about="")
        if one.word is StandingWord.SUSPENDED and person is not None and person.status == "active":
            yield Wait(
                group=WEEK,
                tag="suspended",
                urgency=(2, 0),
                line=_line(
                    clock=_("open"),
                    kind=_("suspended, %(machine)s", machine=one.machine),
                    people=(named(person, "desk.person"),),
                    reasons=one.reasons[:1],
                    act=act,
                ),
            )


def _line(
    *,
    clock: str,
    kind: str,
    reasons: tuple[Reason, ...],
    act: Link,
    people: tuple[Named, ...] = (),
    subject: str = "",
    subject_note: str = "",
    warning: bool = False,
) -> Line:
    return Line(
        number=0,
        clock=clock,
        kind=kind,
        subject=subject,
        subject_note=subject_note,
        warning=warning,
        people=people,
        reasons=reasons,
        act=act,
    )
