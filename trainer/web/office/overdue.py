"""What is overdue, and since when: lapsed, suspended, not signed, not passed and nothing on record, each apart."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from trainer.records.names import order as name_order
from trainer.records.standing import Standing, StandingWord
from trainer.web.filters import day, day_long
from trainer.web.listing import Order, Wish, listed
from trainer.web.office.frames import office_frame
from trainer.web.office.pages import OverdueGroup, OverduePage, OverdueRow
from trainer.web.roster import Roster, named
from trainer.web.standings import SHAPES, any_of, role_name
from trainer.web.words import _, _l, ngettext
from trainer.wording import Sentence

GROUPS = (
    (StandingWord.LAPSED, _l("it held once and ran out")),
    (StandingWord.PAUSED, _l("all is held, but the machine was not used for too long")),
    (StandingWord.SUSPENDED, _l("stopped on purpose")),
    (StandingWord.PRACTICAL_PENDING, _l("theory passed, nobody signed at the machine")),
    (StandingWord.THEORY_OPEN, _l("assigned, not passed")),
    (StandingWord.ATTENDED, _l("was there, showed nothing")),
    (StandingWord.NO_EVIDENCE, _l("the record is empty; that is not the same as failed")),
)

PLACES = {word: place for place, (word, _note) in enumerate(GROUPS)}


@dataclass(frozen=True, slots=True, kw_only=True)
class OverdueChoice:
    """What a reader picked from the question's blanks."""

    day: str = ""
    shift: str = ""
    machine: str = ""
    find: str = ""
    sort: str = ""
    page: str = "1"


def overdue_page(roster: Roster, choice: OverdueChoice, refusal: Sentence | None = None) -> OverduePage:
    """Build the sheet for one choice."""
    found = sorted(
        (one for one in roster.standings if not one.may_run and _fits(roster, one, choice)),
        key=lambda one: (PLACES[one.word], str(one.due_on or ""), one.machine),
    )
    kept = {"day": choice.day, "shift": choice.shift, "machine": choice.machine}
    wish = Wish(find=choice.find, sort=choice.sort, page=choice.page)
    listing = listed(found, wish, "office.overdue", _orders(roster), lambda one: _text(roster, one), **kept)
    return OverduePage(
        frame=office_frame("office.overdue", _("Overdue on %(day)s", day=day(roster.on))),
        heading=_("Overdue on %(day)s", day=day_long(roster.on)),
        note=_("who may not run what they are meant to run"),
        answer=_answer(listing.found),
        refusal=refusal,
        day=day(roster.on),
        shifts=any_of((shift, shift) for shift in roster.shifts()),
        shift=choice.shift,
        machines=any_of((machine, machine) for machine in roster.machines),
        machine=choice.machine,
        groups=_groups(roster, listing.found, listing.rows),
        listing=listing,
    )


def _orders(roster: Roster) -> dict[str, Order[Standing]]:
    """Return the orders of the list; the kinds of what is lacking stay apart in each of them."""

    def name(one: Standing) -> Any:
        return PLACES[one.word], name_order(roster.people[one.person].sort_name)

    return {
        "since": Order(label=_("Since")),
        "who": Order(label=_("Who"), key=name),
        "machine": Order(label=_("Machine, role"), key=lambda one: (PLACES[one.word], one.machine, one.role)),
    }


def _text(roster: Roster, one: Standing) -> str:
    person = roster.people[one.person]
    return f"{person.name} {person.number} {person.shift} {one.machine} {role_name(one.role)}"


def _fits(roster: Roster, one: Standing, choice: OverdueChoice) -> bool:
    person = roster.people.get(one.person)
    if person is None or one.word is StandingWord.SUPERVISED:
        return False
    return choice.shift in {"", person.shift} and choice.machine in {"", one.machine}


def _answer(found: Sequence[Standing]) -> str:
    people = len({one.person for one in found})
    return ngettext(
        "%(num)s person lacks something for a machine that is theirs.",
        "%(num)s people lack something for a machine that is theirs.",
        people,
    )


def _groups(roster: Roster, found: Sequence[Standing], rows: Sequence[Standing]) -> tuple[OverdueGroup, ...]:
    """Group the rows of one page; a heading counts all of its kind, also those on other pages."""
    shown = {one.word for one in rows}
    return tuple(
        OverdueGroup(
            mark=SHAPES[word].mark,
            title=f"{SHAPES[word].words}: {sum(one.word is word for one in found)}",
            note=str(note),
            rows=tuple(_row(roster, one) for one in rows if one.word is word),
        )
        for word, note in GROUPS
        if word in shown
    )


def _row(roster: Roster, one: Standing) -> OverdueRow:
    return OverdueRow(
        person=named(roster.people[one.person], "office.person"),
        machine=one.machine,
        role=role_name(one.role),
        reasons=one.reasons,
        since=day(one.due_on) if one.word is StandingWord.LAPSED else "",
    )
