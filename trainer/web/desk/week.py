"""Who needs me this week: lines by clock, each with one reason and one act.

*Now* is somebody who stands at the kiosk and cannot go on; *today* somebody who waits, or a shift with too few;
*this week* what ends within it, or what only coaching can move; *book this week* what ends later and must be planned.
"""

from collections.abc import Iterable
from dataclasses import replace

from flask import url_for

from trainer.records.hazards import SUGGESTION
from trainer.records.ledger import Entry
from trainer.records.mounts import judge
from trainer.records.people import PersonRow
from trainer.records.standing import Reason, StandingWord
from trainer.safeguarding.stopping import History, Unmeasured
from trainer.units import show
from trainer.web.desk.pending import practicals, second_tries
from trainer.web.desk.planning import refreshers, short_shifts
from trainer.web.desk.waiting import NOW, ORDER, TODAY, WEEK, Facts, Wait, at_the_kiosk, clock, days_since, lasted, line
from trainer.web.language import current
from trainer.web.roster import named
from trainer.web.sheet import Link
from trainer.web.wishes import told_question
from trainer.web.words import _
from trainer.wording import Sentence, say

LINE = 160  # characters of a report on its line


def waits(facts: Facts) -> list[Wait]:
    """Return every line, most urgent first, numbered from 1."""
    found = [
        *reports(facts),
        *asked(facts),
        *too_close(facts),
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
            group=WEEK if row.kind == SUGGESTION else NOW,
            tag="suggestion" if row.kind == SUGGESTION else "hazard",
            urgency=(-1, -int((facts.now - row.at).total_seconds())),
            line=line(
                clock=_("open %(time)s", time=lasted(facts.now - row.at)),
                kind=_("suggestion %(number)s", number=row.reference)
                if row.kind == SUGGESTION
                else _("hazard report %(number)s", number=row.reference),
                subject=row.machine or _("No machine named"),
                subject_note=who.name if who else _("not named"),
                warning=row.kind != SUGGESTION,
                reasons=(Reason(sentence=told, entries=()),),
                act=Link(label=_("Answer the report"), url=url_for("desk.hazard", number=row.id), about=row.reference),
            ),
        )


def asked(facts: Facts) -> Iterable[Wait]:
    """Yield the questions that nobody has answered: first those that were put to who reads this, the oldest first."""
    for row in facts.questions:
        who = facts.roster.people.get(row.person or "")
        yield Wait(
            group=TODAY,
            tag="asked",
            urgency=(-1 if row.to == facts.me else 0, -int((facts.now - row.at).total_seconds())),
            line=line(
                clock=_("open %(time)s", time=lasted(facts.now - row.at)),
                kind=_("question %(number)s", number=row.reference),
                people=(named(who, "desk.person"),) if who else (),
                reasons=(Reason(sentence=say("“{words}”", words=shortened(told_question(row), LINE)), entries=()),),
                act=Link(label=_("Answer"), url=url_for("desk.asked", number=row.id), about=row.reference),
            ),
        )


def too_close(facts: Facts) -> Iterable[Wait]:
    """Yield the machines whose safeguard stands too close by the last reading, or that were not measured in time."""
    for machine in facts.roster.machines.values():
        found = judge(machine, facts.today).found
        if found is None or not machine.in_use or found.report.good:
            continue
        danger = isinstance(found, History) and found.too_close
        yield Wait(
            group=NOW if danger else TODAY,
            tag="machine",
            urgency=(-1, 0) if danger else (1, 0),
            line=line(
                clock=_("already"),
                kind=_("mounted too close") if danger else _("not measured in time"),
                subject=machine.id,
                subject_note=machine.name,
                warning=danger,
                reasons=(Reason(sentence=_why_close(found), entries=()),),
                act=Link(
                    label=_("Look at the machine"), url=url_for("desk.machine", machine=machine.id), about=machine.id
                ),
            ),
        )


def _why_close(found: History | Unmeasured) -> Sentence:
    if isinstance(found, Unmeasured):
        return say("The stopping time was never measured.")
    if found.too_close:
        return say(
            "It needs {needed} and stands at {mounted}. Stop using it.",
            needed=show(found.needed.rounded, "mm"),
            mounted=show(found.mounted, "mm"),
        )
    return say("Last measured on {day}, due by {due}.", day=str(found.measured_on), due=str(found.due))


def shortened(text: str, most: int) -> str:
    """Cut a text at a word's end; what was cut is on its own sheet."""
    plain = " ".join(text.split())
    return plain if len(plain) <= most else plain[:most].rsplit(" ", 1)[0] + " …"


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
        if _passed(entry) or entry.number in facts.coached or person is None or person.status != "active":
            continue
        yield _failed(facts, person, programme, entry, tries[key, programme])


def _failed(facts: Facts, person: PersonRow, programme: str, entry: Entry, tries: int) -> Wait:
    name = facts.bank.programme(programme).name.in_(current())
    kind = _("theory not passed") if tries == 1 else _("theory not passed, %(count)s times", count=tries)
    return Wait(
        group=NOW if at_the_kiosk(facts, entry) else WEEK,
        tag="failed",
        urgency=(0, -days_since(facts, entry)),
        line=line(
            clock=clock(facts, entry),
            kind=kind,
            people=(named(person, "desk.person"),),
            reasons=(Reason(sentence=_why_failed(entry, name), entries=(entry.number,)),),
            act=Link(
                label=_("Coach, then release"),
                url=url_for("desk.person", key=person.key, _anchor="coach"),
                about=person.name,
            ),
        ),
    )


def _passed(entry: Entry) -> bool:
    return bool(entry.body["passed"])


def _why_failed(entry: Entry, programme: str) -> Sentence:
    score = entry.body["score"]
    if entry.body["critical_missed"]:
        return say(
            "{programme}, {day}: {right} of {out_of} right, but a critical one was wrong.",
            programme=programme,
            day=str(entry.happened_on),
            right=score["right"],
            out_of=score["out_of"],
        )
    return say(
        "{programme}, {day}: {right} of {out_of} right, {needed} needed.",
        programme=programme,
        day=str(entry.happened_on),
        right=score["right"],
        out_of=score["out_of"],
        needed=entry.body["needed"],
    )


def suspended(facts: Facts) -> Iterable[Wait]:
    """Yield those who are suspended: somebody has to look into it and lift it, or not."""
    for one in facts.roster.standings:
        person = facts.roster.people.get(one.person)
        if one.word is StandingWord.SUSPENDED and person is not None and person.status == "active":
            act = Link(label=_("Look into it"), url=url_for("desk.person", key=one.person), about="")
            yield Wait(
                group=WEEK,
                tag="suspended",
                urgency=(2, 0),
                line=line(
                    clock=_("open"),
                    kind=_("suspended, %(machine)s", machine=one.machine),
                    people=(named(person, "desk.person"),),
                    reasons=one.reasons[:1],
                    act=act,
                ),
            )
