"""The machines, with what is on file and how many may run each today."""

from datetime import date

from flask import url_for

from trainer.records.machines import MachineRow
from trainer.records.mounts import judge
from trainer.web.desk.frames import desk_frame
from trainer.web.desk.machine import verdict_of
from trainer.web.desk.machinepages import MachineLine, MachinesPage
from trainer.web.desk.pages import Count
from trainer.web.desk.shifts import Manning, manning
from trainer.web.facts import told_facts
from trainer.web.filters import day
from trainer.web.listing import Order, Wish, listed
from trainer.web.roster import Roster
from trainer.web.sheet import Link
from trainer.web.standings import kind_name
from trainer.web.words import _


def machines_page(roster: Roster, wish: Wish) -> MachinesPage:
    """Build the list."""
    lines = manning(roster.standings, roster.people)
    orders: dict[str, Order[MachineRow]] = {
        "machine": Order(label=_("Machine")),
        "kind": Order(label=_("Kind"), key=lambda one: (kind_name(one.kind), one.id)),
    }
    listing = listed(list(roster.machines.values()), wish, "desk.machines", orders, _text)
    return MachinesPage(
        frame=desk_frame("desk.machines", _("Machines")),
        span=_("%(count)s on file", count=len(roster.machines)),
        lede=_lede(roster, lines),
        listing=listing,
        rows=tuple(_row(machine, lines, roster.on) for machine in listing.rows),
    )


def _text(machine: MachineRow) -> str:
    return f"{machine.id} {machine.name} {kind_name(machine.kind)}"


def _lede(roster: Roster, lines: list[Manning]) -> str:
    used = [line for line in lines if line.machine in roster.machines and roster.machines[line.machine].in_use]
    alone = _where([line for line in used if len(line.holders) == 1])
    none = _where([line for line in used if not line.holders])
    told = [_("One person alone may run: %(where)s.", where=alone)] if alone else []
    told += [_("Nobody may run, but somebody did: %(where)s.", where=none)] if none else []
    return " ".join(told) or _("Each machine that anybody may run has two people or more on each shift that runs it.")


def _where(lines: list[Manning]) -> str:
    return ", ".join(_("%(machine)s on %(shift)s", machine=line.machine, shift=line.shift) for line in lines)


def _row(machine: MachineRow, lines: list[Manning], on: date) -> MachineLine:
    seen = judge(machine, on)
    mine = [line for line in lines if line.machine == machine.id]
    return MachineLine(
        id=machine.id,
        name=machine.name,
        kind=kind_name(machine.kind),
        in_use=machine.in_use,
        facts=told_facts(machine.facts),
        counts=_counts(mine) or (Count(number=0, words=_("on any shift"), mark="broken"),),
        first_end=_first_end(mine),
        act=Link(
            label=_("Who may run it"),
            url=url_for("desk.people", machine=machine.id),
            about=machine.id,
        ),
        url=url_for("desk.machine", machine=machine.id),
        verdict=verdict_of(seen),
        danger=seen.too_close,
    )


def _counts(lines: list[Manning]) -> tuple[Count, ...]:
    return tuple(
        Count(
            number=len(line.holders),
            words=_("on %(shift)s", shift=line.shift),
            mark="solid",
        )
        for line in lines
        if line.holders
    )


def _first_end(lines: list[Manning]) -> str:
    ends = [holder for line in lines for holder in line.holders if holder.until is not None]
    if not ends:
        return ""
    first = min(ends, key=lambda holder: (holder.until, holder.person.sort_name))
    return _("%(person)s, %(day)s", person=first.person.name, day=day(first.until))
