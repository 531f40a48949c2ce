"""What is due within 90 days, and what is over already."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from babel.dates import format_date

from trainer.bank import Bank
from trainer.records.dues import DueRow
from trainer.records.names import order as name_order
from trainer.web.desk.acts import assign_act
from trainer.web.desk.frames import desk_frame
from trainer.web.desk.pages import DueRowLine, DuesPage, Group
from trainer.web.filters import day
from trainer.web.language import current
from trainer.web.listing import Order, Wish, listed
from trainer.web.roster import Roster, named
from trainer.web.sheet import Link
from trainer.web.standings import any_of
from trainer.web.words import _, ngettext

DAYS = 90
WEEK = timedelta(days=7)


@dataclass(frozen=True, slots=True, kw_only=True)
class DueChoice:
    """What a reader picked from the list's blanks."""

    shift: str = ""
    machine: str = ""
    find: str = ""
    sort: str = ""
    page: str = "1"


def dues_page(bank: Bank, roster: Roster, dues: Sequence[DueRow], choice: DueChoice) -> DuesPage:
    """Build the due list for one choice."""
    wish = Wish(find=choice.find, sort=choice.sort, page=choice.page)
    fit = [row for row in dues if _fits(row, roster, choice)]
    listing = listed(
        fit,
        wish,
        "desk.dues",
        _orders(bank, roster),
        lambda row: _text(bank, roster, row),
        shift=choice.shift,
        machine=choice.machine,
    )
    last = roster.on + timedelta(days=DAYS)
    return DuesPage(
        frame=desk_frame("desk.dues", _("Due within 90 days")),
        span=_("%(first)s to %(last)s", first=day(roster.on), last=day(last)),
        lede=_lede(listing.found, roster.on),
        shifts=any_of((shift, shift) for shift in roster.shifts()),
        shift=choice.shift,
        machines=any_of((machine, machine) for machine in roster.machines),
        machine=choice.machine,
        groups=_groups(bank, roster, listing.rows) if listing.by == "due" else _one_group(bank, roster, listing.rows),
        listing=listing,
    )


def _orders(bank: Bank, roster: Roster) -> dict[str, Order[DueRow]]:
    return {
        "due": Order(label=_("Due")),
        "person": Order(label=_("Person"), key=lambda row: name_order(roster.people[row.person].sort_name)),
        "programme": Order(label=_("Programme"), key=lambda row: bank.programme(row.programme).name.in_(current())),
        "machines": Order(label=_("Machines"), key=lambda row: row.machines),
    }


def _text(bank: Bank, roster: Roster, row: DueRow) -> str:
    person = roster.people[row.person]
    words = (
        person.name,
        person.number,
        bank.programme(row.programme).name.in_(current()),
        *row.machines,
        str(row.due_on),
    )
    return " ".join(words)


def _one_group(bank: Bank, roster: Roster, rows: Sequence[DueRow]) -> tuple[Group, ...]:
    """Return the rows in an order that is not that of the days: under no heading."""
    lines = tuple(_line(bank, roster, row) for row in rows)
    return (Group(title="", note="", rows=lines),) if lines else ()


def _fits(row: DueRow, roster: Roster, choice: DueChoice) -> bool:
    person = roster.people.get(row.person)
    if person is None or person.status != "active":
        return False
    return choice.shift in {"", person.shift} and (not choice.machine or choice.machine in row.machines)


def _lede(rows: Sequence[DueRow], today: date) -> str:
    over = sum(_group_of(row, today) == "over" for row in rows)
    soon = sum(_group_of(row, today) == "week" for row in rows)
    assigned = sum(_group_of(row, today) == "assigned" for row in rows)
    return " ".join(
        (
            ngettext("%(num)s is over.", "%(num)s are over.", over),
            ngettext("%(num)s ends within 7 days.", "%(num)s end within 7 days.", soon),
            ngettext("%(num)s comes later.", "%(num)s come later.", len(rows) - over - soon - assigned),
            ngettext("%(num)s is assigned and not finished.", "%(num)s are assigned and not finished.", assigned),
        )
    )


def _group_of(row: DueRow, today: date) -> str:
    if row.state == "assigned":
        return "assigned"
    if row.due_on < today or row.state == "overdue":
        return "over"
    return "week" if row.due_on <= today + WEEK else f"{row.due_on:%Y-%m}"


def _groups(bank: Bank, roster: Roster, rows: Sequence[DueRow]) -> tuple[Group, ...]:
    keys = list(dict.fromkeys(_group_of(row, roster.on) for row in rows))
    heads = {
        "over": (_("Over"), _("may not run it until passed")),
        "assigned": (_("Assigned, not begun or not finished"), _("nothing lapses by it; nothing is authorised either")),
        "week": (_("Within 7 days"), ""),
    }
    return tuple(
        Group(
            title=heads[key][0] if key in heads else _month(key),
            note=heads[key][1] if key in heads else "",
            rows=tuple(_line(bank, roster, row) for row in rows if _group_of(row, roster.on) == key),
        )
        for key in sorted(keys, key=_place)
    )


def _place(key: str) -> tuple[int, str]:
    return {"over": 0, "week": 1, "assigned": 3}.get(key, 2), key


def _month(key: str) -> str:
    year, month = key.split("-")
    return month_year(date(int(year), int(month), 1))


def month_year(first: date) -> str:
    """Name a month: ``March 2026``."""
    return str(format_date(first, "LLLL y", locale=current())).capitalize()


def _line(bank: Bank, roster: Roster, row: DueRow) -> DueRowLine:
    person = roster.people[row.person]
    return DueRowLine(
        due=row.due_on,
        person=named(person, "desk.person"),
        programme=bank.programme(row.programme).name.in_(current()),
        machines=", ".join(row.machines),
        reason=row.reason,
        entry=row.entry,
        act=_act(roster, row),
    )


def _act(roster: Roster, row: DueRow) -> Link | None:
    if row.state == "assigned":
        return None
    person = roster.people[row.person]
    return assign_act(
        person,
        _("Assign"),
        programme=row.programme,
        machine=row.machines[0] if row.machines else "",
    )
