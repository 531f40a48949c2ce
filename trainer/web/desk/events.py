"""Telling the desk what happened: first the list of those concerned, then the entries."""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from flask import url_for

from trainer.bank import Bank
from trainer.errors import UsageError
from trainer.records import Writing, acts, assignments
from trainer.records.concerned import (
    ABSENCE,
    ALTERED,
    CHANGED,
    INCIDENT,
    MOVED,
    UNSAFE,
    Concern,
    Event,
    briefs,
)
from trainer.records.ledger import Entry, EntryKind
from trainer.records.people import PersonRow
from trainer.records.standing import Reason, StandingWord
from trainer.web.desk.assigning import MOST
from trainer.web.desk.eventpages import EventFields, EventMadePage, EventPage, Made
from trainer.web.desk.frames import desk_frame
from trainer.web.desk.pages import Candidate, Count
from trainer.web.desk.telling import NOTHING, SCOPES, WHATS
from trainer.web.entries import history_row
from trainer.web.filters import day
from trainer.web.language import current
from trainer.web.roster import Roster, named
from trainer.web.sheet import Link
from trainer.web.standings import SHAPES, any_of
from trainer.web.words import _, ngettext
from trainer.wording import Sentence, say

# What stands in the record as the reason of an assignment; English, as everything that is written there.
REASONS: Mapping[str, str] = {
    INCIDENT: "an incident",
    UNSAFE: "an unsafe act was seen",
    CHANGED: "the machine was changed",
    MOVED: "the machine was moved",
    ABSENCE: "back after an absence",
}


def event_page(
    bank: Bank,
    roster: Roster,
    fields: EventFields,
    event: Event | None = None,
    *,
    ticked: Sequence[str] | None = None,
    refusal: Sentence | None = None,
) -> EventPage:
    """Build the sheet; those concerned are on it once what was told could be read."""
    shown = replace(fields, **_settled(event)) if event else fields
    return EventPage(
        frame=desk_frame("desk.events", _("What happened?")),
        fields=shown,
        whats=any_of(WHATS, _("choose")),
        machines=any_of(((machine, machine) for machine in roster.machines), _("no machine")),
        scopes=any_of(SCOPES, _("as usual for it")),
        programmes=_programmes(bank, fields.what),
        asked=event is not None,
        answer=_answer(event) if event else "",
        told=_told(event) if event else (),
        rows=tuple(_row(one, event, ticked) for one in event.concerned[:MOST]) if event else (),
        seen=event.seen if event else "",
        refusal=refusal,
    )


def _settled(event: Event) -> dict[str, str]:
    """Return what was worked out, so that the form says it."""
    return {
        "scope": "" if event.what in ALTERED else event.scope,
        "programme": event.programme.id if event.programme else NOTHING,
        "due": day(event.due_on),
        "on": day(event.on),
        "note": event.note,
    }


def _programmes(bank: Bank, what: str) -> tuple[tuple[str, str], ...]:
    listed = ((one.id, one.name.in_(current())) for one in briefs(bank, what))
    return (*any_of(listed, _("as usual for it")), (NOTHING, _("nothing")))


def _answer(event: Event) -> str:
    return ngettext("It concerns %(num)s person", "It concerns %(num)s people", len(event.concerned))


def _told(event: Event) -> tuple[str, ...]:
    """Say what entering it does, beside giving the programme."""
    told = {
        CHANGED: _("All of them have to show the machine again and may not run it until then, ticked or not."),
        MOVED: _("All of them have to show the machine again and may not run it until then, ticked or not."),
        ABSENCE: _("What was passed before has to be renewed, and each machine shown again."),
        INCIDENT: _("Nobody loses a standing by it."),
        UNSAFE: _("Nobody loses a standing by it."),
    }
    lines = [told[event.what]]
    if event.what == MOVED:
        lines.append(_("Measure the distance and the stopping time where it stands now, and enter both."))
    if event.what == ABSENCE:
        lines.append(_("Do not write why the person was away if it is about health."))
    if event.left:
        lines.append(
            ngettext(
                "%(num)s who has left is entered too, for the day of a return.",
                "%(num)s who have left are entered too, for the day of a return.",
                event.left,
            )
        )
    if event.programme is None:
        lines.append(_("No programme is given with it."))
    return tuple(lines)


def _row(one: Concern, event: Event, ticked: Sequence[str] | None) -> Candidate:
    word = one.standing.word if one.standing else StandingWord.NO_EVIDENCE
    name = str(SHAPES[word].words)
    told = one.standing.reasons if one.standing else ()
    about = [Reason(sentence=say("It is about this person."), entries=())] if one.person == event.person else []
    return Candidate(
        key=one.person.key,
        ticked=one.person.key in ticked if ticked is not None else True,
        person=named(one.person, "desk.person"),
        mark=SHAPES[word].mark,
        label=_("%(word)s, %(machine)s", word=name, machine=one.standing.machine) if one.standing else name,
        reasons=(*about, *(told or (Reason(sentence=say("Nothing on record for it."), entries=()),))),
    )


def enter(w: Writing, event: Event, *, ticked: Sequence[str], seen: str, by: str) -> list[Entry]:
    """Enter the event and the assignments, all or none; refused when it is not what was looked at."""
    if seen != event.seen:
        raise UsageError(say("The list below is new. Look at it, then enter it."))
    if len(event.concerned) > MOST:
        raise UsageError(say("That is more than {most} people at once. Narrow the choice.", most=MOST))
    made = _events(w, event, by)
    chosen = [one for one in event.concerned if one.person.key in set(ticked)] if event.programme else []
    made += [_assigned(w, event, one, by) for one in chosen]
    if not made:
        raise UsageError(say("Nothing would be entered: nobody is ticked and no person is named."))
    return made


def _events(w: Writing, event: Event, by: str) -> list[Entry]:
    common = {"by": by, "happened_on": event.on}
    machine = event.machine.id if event.machine else None
    if event.what in ALTERED and machine is not None:
        note = f"Moved. {event.note}" if event.what == MOVED else event.note
        return acts.machine_changed(w, machine=machine, note=note, by=by, happened_on=event.on)
    if event.person is None:
        return []
    name = "returned" if event.what == ABSENCE else event.what
    at = None if event.what == ABSENCE else machine
    return [acts.event(w, person=event.person.key, event=name, note=event.note, machine=at, **common)]  # type: ignore[arg-type]


def _assigned(w: Writing, event: Event, one: Concern, by: str) -> Entry:
    """Assign the programme at the machine where the person stands, so that nobody is put to a machine by it."""
    assert event.programme is not None  # noqa: S101  (only called where there is one)
    return assignments.assign(
        w,
        person=one.person.key,
        programme=event.programme.id,
        by=by,
        reason=reason_of(event),
        happened_on=w.today(),
        machine=one.standing.machine if one.standing else None,
        due_on=event.due_on,
    )


def reason_of(event: Event) -> str:
    """Say for the record why it was assigned. What is told of a named person stays in that person's chain."""
    where = f" at {event.machine.id}" if event.machine else ""
    key = f"{REASONS[event.what]}{where} on {event.on.isoformat()}"
    return key if event.person is not None else f"{key}: {event.note}"


def event_made_page(entries: Sequence[Entry], people: Mapping[str, PersonRow], machine: str) -> EventMadePage:
    """Show the entries that an event made."""
    given = sum(entry.kind is EntryKind.ASSIGNED for entry in entries)
    told = len(entries) - given
    counts = (
        Count(number=told, words=ngettext("event entered.", "events entered.", told)),
        Count(number=given, words=ngettext("programme assigned.", "programmes assigned.", given)),
    )
    return EventMadePage(
        frame=desk_frame("desk.events", _("Entered")),
        answer=_("Entered"),
        counts=tuple(count for count in counts if count.number),
        rows=tuple(_made(entries, people)),
        acts=_next(machine),
    )


def _made(entries: Iterable[Entry], people: Mapping[str, PersonRow]) -> Iterable[Made]:
    found: dict[str, list[Entry]] = defaultdict(list)
    for entry in entries:
        found[entry.person].append(entry)
    for key, mine in found.items():
        if key in people:
            rows = tuple(history_row(entry, people) for entry in mine)
            yield Made(person=named(people[key], "desk.person"), rows=rows)


def _next(machine: str) -> tuple[Link, ...]:
    more = Link(label=_("Tell what else happened"), url=url_for("desk.events"))
    if not machine:
        return (more,)
    waiting = Link(label=_("Who waits at the machine"), url=url_for("desk.practicals", machine=machine), about=machine)
    return (Link(label=_("Back to the machine"), url=url_for("desk.machine", machine=machine)), waiting, more)
