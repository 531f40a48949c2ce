"""Where one person stands, and why."""

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from flask import url_for

from trainer.bank import Bank
from trainer.records.concerned import ALTERED
from trainer.records.dues import DueRow
from trainer.records.ledger import Entry
from trainer.records.people import PersonRow
from trainer.records.standing import Standing, StandingWord
from trainer.web.acting.holding import EXCUSE, REINSTATE, SUSPEND
from trainer.web.acting.prior import PRIOR
from trainer.web.acting.using import USE
from trainer.web.acting.ways import ways
from trainer.web.desk.acts import act_for, next_act
from trainer.web.desk.coaching import ToCoach
from trainer.web.desk.frames import desk_frame
from trainer.web.desk.pages import DueLine, Group, HistoryPage, PersonPage, SlipLine, StandingLine
from trainer.web.desk.telling import WHATS
from trainer.web.entries import HistoryRow, history
from trainer.web.filters import day
from trainer.web.language import NAMES, current, translate
from trainer.web.listing import Order, Wish, listed
from trainer.web.roster import Roster, named
from trainer.web.sheet import Box, Link
from trainer.web.standings import SHAPES, any_of, role_name, told_standings
from trainer.web.words import _, ngettext
from trainer.wording import Sentence

NEWEST = 8  # entries on the sheet itself; all of them have a sheet of their own


@dataclass(frozen=True, slots=True, kw_only=True)
class Read:
    """What the sheet about a person is made from."""

    bank: Bank
    roster: Roster
    person: PersonRow
    standings: Sequence[Standing]
    dues: Sequence[DueRow]
    entries: Sequence[Entry]  # newest first
    skills: tuple[Group, ...]
    first: date | None  # the day of the oldest evidence
    slips: tuple[SlipLine, ...]
    to_coach: tuple[ToCoach, ...] = ()
    machines: tuple[str, ...] = ()  # those that something can have happened at
    done: Sentence | None = None


def person_page(read: Read) -> PersonPage:
    """Build the sheet."""
    person = read.person
    standings = told_standings(read.standings)
    return PersonPage(
        frame=desk_frame(
            "desk.people",
            f"{person.name}, {person.number}",
            Box(label=_("As of"), value=day(read.roster.on)),
        ),
        key=person.key,
        person=named(person, "desk.person"),
        about=about(person),
        verdict=verdict(standings),
        act=_first_act(person, standings),
        done=read.done,
        standings=tuple(standing_line(person, one, read.roster.on) for one in standings),
        skills=read.skills,
        since=_("%(day)s to today", day=day(read.first)) if read.first else "",
        slips=read.slips,
        dues=tuple(_due(read.bank, row) for row in read.dues),
        history=history(read.entries[:NEWEST], read.roster.people),
        history_note=_history_note(len(read.entries)),
        all_history=_all_history(person, len(read.entries)),
        events=_events(person),
        to_coach=read.to_coach if person.status == "active" else (),
        machines=any_of(((one, one) for one in read.machines), _("no machine")),
        ways=_ways(read),
    )


def _ways(read: Read) -> tuple[Link, ...]:
    """Return the ways to the acts that make sense now; nobody suspends a leaver."""
    held = any(one.word is StandingWord.SUSPENDED for one in read.standings)
    here = (SUSPEND, EXCUSE, PRIOR, USE) if read.person.status == "active" else ()
    return ways("desk", read.person, (*here, *((REINSTATE,) if held else ())))


def _events(person: PersonRow) -> tuple[tuple[str, str], ...]:
    """Return what can be told of somebody who is here."""
    if person.status != "active":
        return ()
    return tuple((what, str(words)) for what, words in WHATS if what not in ALTERED)


def about(person: PersonRow) -> str:
    """Say number, shift, since when, and in which language the papers are."""
    parts = [person.number, person.shift, _agency(person)]
    if person.started:
        parts.append(_("here since %(day)s", day=day(person.started)))
    parts.append(_("papers in %(language)s", language=NAMES.get(person.language, person.language)))
    if person.status != "active":
        parts.append(_("left on %(day)s", day=day(person.ended)))
    return ", ".join(part for part in parts if part)


def _agency(person: PersonRow) -> str:
    return {"agency": _("agency worker"), "contractor": _("contractor")}.get(person.kind, "")


def verdict(standings: Sequence[Standing]) -> tuple[str, ...]:
    """Say in words what a person may do, then what not."""
    groups: dict[str, list[str]] = defaultdict(list)
    for one in standings:
        label = one.machine if one.role == "operator" else f"{one.machine} ({role_name(one.role)})"
        key = "may" if one.may_run else SHAPES[one.word].mark
        groups[key].append(label)
    lines = {
        "may": _("Authorised: %(machines)s."),
        "hatched": _("Only beside a named supervisor: %(machines)s."),
        "struck": _("Not now: %(machines)s."),
        "broken": _("Nothing on record: %(machines)s."),
    }
    found = tuple(line % {"machines": ", ".join(sorted(groups[key]))} for key, line in lines.items() if groups[key])
    return found or (_("Nothing on record, so not authorised for any machine."),)


def _first_act(person: PersonRow, standings: Sequence[Standing]) -> Link | None:
    act = next_act(person, standings) if person.status == "active" else None
    return replace(act, weight="now") if act else None


def standing_line(person: PersonRow, one: Standing, today: date) -> StandingLine:
    """Show one machine and role, with what it lacks and the act that takes it further."""
    until, days = held(one, today)
    return StandingLine(
        machine=one.machine,
        role=role_name(one.role),
        mark=SHAPES[one.word].mark,
        label=str(SHAPES[one.word].words),
        reasons=one.reasons,
        lacks=one.lacks,
        until=until,
        days=days,
        act=act_for(person, one) if person.status == "active" else None,
    )


def held(one: Standing, today: date) -> tuple[str, str]:
    """Say to when a standing holds or held, and how many days are left."""
    if not one.may_run:
        ended = one.due_on is not None and one.due_on < today
        return (_("ended %(day)s", day=day(one.due_on)) if ended else "", "")
    if one.holds_until is None:
        return "", ""
    left = (one.holds_until - today).days
    return _("to %(day)s", day=day(one.holds_until)), ngettext("%(num)s day", "%(num)s days", left)


def _due(bank: Bank, row: DueRow) -> DueLine:
    name = bank.programme(row.programme).name.in_(current())
    what = f"{name}, {', '.join(row.machines)}" if row.machines else name
    return DueLine(day=day(row.due_on), what=what, reason=row.reason)


def _history_note(count: int) -> str:
    return ngettext("%(num)s entry; none is ever changed", "newest of %(num)s entries; none is ever changed", count)


def _all_history(person: PersonRow, count: int) -> Link | None:
    if count <= NEWEST:
        return None
    return Link(label=_("All %(count)s entries", count=count), url=url_for("desk.history", key=person.key))


def history_page(
    person: PersonRow, entries: Sequence[Entry], people: Mapping[str, PersonRow], wish: Wish
) -> HistoryPage:
    """Build the sheet of every entry of a person, in the order of recording, newest first."""
    orders: dict[str, Order[HistoryRow]] = {
        "recorded": Order(label=_("Recorded")),
        "happened": Order(label=_("Happened"), key=lambda row: (row.happened, row.number)),
    }
    listing = listed(history(entries, people), wish, "desk.history", orders, _searched, key=person.key)
    return HistoryPage(
        frame=desk_frame("desk.people", _("History of %(person)s", person=person.name)),
        person=named(person, "desk.person"),
        note=ngettext("%(num)s entry", "%(num)s entries", len(entries)),
        listing=listing,
    )


def _searched(row: HistoryRow) -> str:
    return f"L-{row.number} {day(row.happened)} {row.recorded} {translate(row.what)} {row.by}"
