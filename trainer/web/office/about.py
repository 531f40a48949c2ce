"""What is held about one person: where they stood on a day, and every entry up to it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from flask import url_for

from trainer.records.effects import Fact
from trainer.records.ledger import Entry
from trainer.records.lines import line
from trainer.records.people import PersonRow
from trainer.records.privacy.holds import Hold
from trainer.records.standing import Standing, StandingWord
from trainer.web.acting.correcting import CONFIRM, MOVE, MOVED, WITHDRAW
from trainer.web.acting.holding import EXCUSE, REINSTATE, SUSPEND
from trainer.web.acting.preserving import HOLD, LIFT
from trainer.web.acting.prior import PRIOR
from trainer.web.acting.rights import JUDGE, REVOKE, SUPERVISE
from trainer.web.acting.ways import ways
from trainer.web.entries import history, names
from trainer.web.filters import day
from trainer.web.office.frames import office_frame
from trainer.web.office.pages import AboutPage, Found, RightRow
from trainer.web.office.paperlinks import person_papers
from trainer.web.roster import named
from trainer.web.sheet import Link, address, turn
from trainer.web.standings import SHAPES, StandingRow, role_name, told_standings
from trainer.web.words import _, ngettext
from trainer.wording import Sentence, say


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """What the record holds about a person up to a day; ``entries`` are newest first."""

    person: PersonRow
    on: date
    today: date
    standings: Sequence[Standing]
    entries: Sequence[Entry]
    people: Mapping[str, PersonRow]
    rights: Sequence[Fact] = ()
    hold: Hold | None = None


def search_page(found: Sequence[PersonRow], *, who: str, on: date, refusal: Sentence | None = None) -> AboutPage:
    """Build the sheet for a search: those who fit, or nobody."""
    fit = ngettext("%(num)s person fits “%(who)s”.", "%(num)s people fit “%(who)s”.", len(found), who=who)
    return AboutPage(
        frame=office_frame("office.about", _("One person")),
        heading=_("Which person?"),
        note=_("by name or number, of today or of earlier, also of those who left"),
        answer=fit if who else _("Write a name or a number."),
        refusal=refusal,
        who=who,
        day=day(on),
        found=tuple(Found(person=named(one, "office.person"), span=span(one)) for one in found),
        person=None,
        standings=(),
        history=(),
        history_note="",
        pages=None,
        csv="",
        papers=(),
    )


def about_page(held: Held, wanted: str, *, done: int = 0) -> AboutPage:
    """Build the sheet about one person; ``done`` is the number of an entry that was just made."""
    person = held.person
    rows, pages = turn(held.entries, wanted, "office.person", key=person.key, day=held.on.isoformat())
    count = len(held.entries)
    entries = ngettext("%(num)s entry", "%(num)s entries", count)
    return AboutPage(
        frame=office_frame("office.about", f"{person.name}, {person.number}"),
        heading=person.name,
        note=f"{person.number}, {span(person)}",
        answer=_(
            "%(entries)s up to %(day)s, with the standing they lead to on that day.", entries=entries, day=day(held.on)
        ),
        refusal=None,
        who=person.number,
        day=day(held.on),
        found=(),
        person=named(person),
        standings=tuple(_row(one) for one in told_standings(held.standings)),
        history=history(rows, held.people),
        history_note=_("newest first; a correction stands beside what it corrects"),
        pages=pages,
        csv=url_for("office.person_csv", key=person.key, day=held.on.isoformat()),
        papers=person_papers(person.key, held.standings, held.on, today=held.today),
        rights=tuple(_right(held, fact) for fact in held.rights),
        ways=_ways(held) if held.on == held.today else (),
        done=next((say("Entered. {entry}", entry=one.reference) for one in held.entries if one.number == done), None),
    )


def _ways(held: Held) -> tuple[Link, ...]:
    """Return the ways to the acts that make sense now; a leaver's record can be put right, nothing else."""
    here = (SUSPEND, EXCUSE, PRIOR, JUDGE, SUPERVISE) if held.person.status == "active" else ()
    stopped = any(one.word is StandingWord.SUSPENDED for one in held.standings)
    keep = () if held.person.erased else (LIFT if held.hold else HOLD,)
    acts = (*here, *((REINSTATE,) if stopped else ()), WITHDRAW, CONFIRM, MOVE, *keep)
    return (*ways("office", held.person, acts), *_own_data(held.person))


def _own_data(person: PersonRow) -> tuple[Link, ...]:
    if person.erased:
        return ()
    ask = Link(label=_("A request about own data"), url=address("office.requests", number=person.number))
    erase = Link(label=_("Take the identity out"), url=address("office.erase", key=person.key))
    return (ask, erase)


def corrections(entry: Entry, people: Mapping[str, PersonRow]) -> tuple[Link, ...]:
    """Return the ways to putting one entry right; a correction can only be withdrawn."""
    if entry.person not in people:
        return ()
    fit = (WITHDRAW,) if entry.kind in MOVED else (WITHDRAW, CONFIRM, MOVE)
    return ways("office", people[entry.person], fit, entry=entry.reference)


def _right(held: Held, fact: Fact) -> RightRow:
    entry = next(one for one in held.entries if one.number == fact.number)
    to = date.fromisoformat(fact.body["valid_to"])
    return RightRow(
        what=line(entry, named=names(held.people)),
        entry=fact.number,
        days=_("to %(day)s", day=day(to)),
        act=next(iter(ways("office", held.person, (REVOKE,), entry=str(fact.number))), None),
    )


def span(person: PersonRow) -> str:
    """Say from when to when somebody belonged to the plant."""
    first = _("here since %(day)s", day=day(person.started)) if person.started else ""
    last = _("left on %(day)s", day=day(person.ended)) if person.ended else ""
    return ", ".join(part for part in (person.shift, first, last) if part)


def _row(one: Standing) -> StandingRow:
    return StandingRow(
        machine=one.machine,
        role=role_name(one.role),
        mark=SHAPES[one.word].mark,
        label=str(SHAPES[one.word].words),
        reasons=one.reasons,
        lacks=one.lacks,
        until=day(one.holds_until),
        days="",
    )
