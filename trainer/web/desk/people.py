"""Everybody, with standing per machine and what each still lacks; searched, sorted, fifty to a page."""

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from trainer.records.names import order as name_order
from trainer.records.people import PersonRow
from trainer.records.standing import Standing, StandingWord
from trainer.web.desk.acts import next_act
from trainer.web.desk.frames import desk_frame
from trainer.web.desk.pages import Hold, PeoplePage, PersonLine
from trainer.web.language import translate
from trainer.web.listing import Order, Wish, listed
from trainer.web.roster import Roster, named
from trainer.web.standings import ORDER, SHAPES, any_of, told_standings
from trainer.web.words import _, ngettext


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """What a reader picked from the list's blanks."""

    find: str = ""
    shift: str = ""
    machine: str = ""
    word: str = ""
    sort: str = ""
    page: str = "1"

    @property
    def wish(self) -> Wish:
        """Return what was asked of the list itself."""
        return Wish(find=self.find, sort=self.sort, page=self.page)


def people_page(roster: Roster, choice: Choice) -> PeoplePage:
    """Build the list for one choice."""
    standing_of = roster.of_person()
    found = _chosen(roster, choice, standing_of)
    kept = {"shift": choice.shift, "machine": choice.machine, "word": choice.word}
    listing = listed(
        found, choice.wish, "desk.people", _orders(standing_of), lambda one: f"{one.name} {one.number}", **kept
    )
    return PeoplePage(
        frame=desk_frame("desk.people", _("People")),
        span=_span(listing.pages.total, roster),
        shifts=any_of((shift, shift) for shift in roster.shifts()),
        shift=choice.shift,
        machines=any_of((machine, machine) for machine in roster.machines),
        machine=choice.machine,
        words=any_of((word.value, shape.words) for word, shape in SHAPES.items()),
        word=choice.word,
        listing=listing,
        rows=tuple(_row(person, standing_of.get(person.key, ())) for person in listing.rows),
    )


def _chosen(roster: Roster, choice: Choice, standing_of: Mapping[str, Sequence[Standing]]) -> list[PersonRow]:
    def fits(person: PersonRow) -> bool:
        if choice.shift and person.shift != choice.shift:
            return False
        mine = standing_of.get(person.key, ())
        return not (choice.machine or choice.word) or any(
            choice.machine in {"", one.machine} and choice.word in {"", one.word.value} for one in mine
        )

    return list(filter(fits, roster.present()))


def _orders(standing_of: Mapping[str, Sequence[Standing]]) -> dict[str, Order[PersonRow]]:
    def by_end(person: PersonRow) -> Any:
        return next_end(standing_of.get(person.key, ())) or date.max, name_order(person.sort_name)

    def by_shift(person: PersonRow) -> Any:
        return person.shift, name_order(person.sort_name)

    def by_number(person: PersonRow) -> Any:
        return person.number

    def by_name(person: PersonRow) -> Any:
        return name_order(person.sort_name), person.number

    return {
        "name": Order(label=_("Name"), key=by_name),
        "number": Order(label=_("Number"), key=by_number),
        "shift": Order(label=_("Shift"), key=by_shift),
        "ends": Order(label=_("Next end"), key=by_end),
    }


def next_end(standings: Sequence[Standing]) -> date | None:
    """Return the first day on which something that holds comes to its end."""
    return min((one.holds_until for one in standings if one.may_run and one.holds_until), default=None)


def _span(count: int, roster: Roster) -> str:
    people = ngettext("%(num)s person", "%(num)s people", count)
    shifts = ngettext("%(num)s shift", "%(num)s shifts", len(roster.shifts()))
    return _("%(people)s of %(all)s, %(shifts)s", people=people, all=len(roster.present()), shifts=shifts)


def _row(person: PersonRow, standings: Sequence[Standing]) -> PersonLine:
    return PersonLine(
        person=named(person, "desk.person"),
        ends=next_end(standings),
        holds=holds(standings),
        lacks=lacks(standings),
        act=next_act(person, standings),
    )


def holds(standings: Sequence[Standing]) -> tuple[Hold, ...]:
    """Gather the machines of a person under each word; what may be run comes first."""
    found: dict[StandingWord, list[str]] = defaultdict(list)
    for one in standings:
        found[one.word].append(machine_and_role(one))
    return tuple(
        Hold(mark=SHAPES[word].mark, label=str(SHAPES[word].words), machines=", ".join(sorted(found[word])))
        for word in sorted(found, key=ORDER.__getitem__)
    )


def machine_and_role(one: Standing) -> str:
    """Name a machine, and the role where it is not the operator's."""
    return one.machine if one.role == "operator" else f"{one.machine} ({_(one.role)})"


def lacks(standings: Sequence[Standing]) -> tuple[str, ...]:
    """Say what is missing, machines that miss the same things together."""
    found: dict[str, list[str]] = defaultdict(list)
    for one in told_standings(standings):
        if one.lacks:
            found[" ".join(translate(lack) for lack in one.lacks)].append(one.machine)
    return tuple(f"{', '.join(dict.fromkeys(names))}: {words}" for words, names in found.items())
