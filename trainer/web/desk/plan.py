"""The plan of 90 days by shift and machine: who ends when, and where fewer than two are left."""

from collections.abc import Sequence
from dataclasses import dataclass

from flask import render_template, request

from trainer.figures import Figure, StripEnd, StripRow, due_strip
from trainer.records.standing import Reason
from trainer.web.access import TRAINER, doors
from trainer.web.desk.blueprint import bp
from trainer.web.desk.frames import desk_frame
from trainer.web.desk.pages import Choices
from trainer.web.desk.planning import book, why_short
from trainer.web.desk.shifts import HORIZON, Manning, manning
from trainer.web.filters import day
from trainer.web.language import translate
from trainer.web.rooms import rooms
from trainer.web.roster import Roster, gather
from trainer.web.sheet import Frame, Link, Pages, chosen, turn
from trainer.web.standings import any_of, role_name
from trainer.web.words import _, ngettext

ROLES = ("operator", "helper", "setter", "lead", "maintenance")


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanChoice:
    """What a reader picked from the blanks."""

    shift: str = ""
    machine: str = ""
    role: str = "operator"
    page: str = "1"


@dataclass(frozen=True, slots=True, kw_only=True)
class Short:
    """One shift at one machine on which fewer than two are left, from when on, why, and the act."""

    since: str
    already: bool
    machine: str
    shift: str
    now: int
    reasons: tuple[Reason, ...]
    act: Link


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanPage:
    """The plan for one choice."""

    frame: Frame
    span: str
    lede: str
    choice: PlanChoice
    shifts: Choices
    machines: Choices
    roles: Choices
    shorts: tuple[Short, ...]
    pages: Pages
    strip: Figure | None


@bp.get("/plan")
@doors.needs(TRAINER)
def plan() -> str:
    """Show the plan."""
    opened = rooms()
    with opened.record.reading() as reading:
        roster = gather(reading, opened.bank, on=reading.today())
    return render_template("desk/plan.html", page=plan_page(roster, PlanChoice(**chosen(PlanChoice, request.args))))


def plan_page(roster: Roster, choice: PlanChoice) -> PlanPage:
    """Build the sheet; machines out of use are left out, nobody works there."""
    lines = [
        line
        for line in manning(roster.standings, roster.people, role=choice.role)
        if line.machine in roster.machines
        and roster.machines[line.machine].in_use
        and choice.shift in {"", line.shift}
        and choice.machine in {"", line.machine}
    ]
    shorts = [one for line in lines if (one := _short(roster, line, choice.role)) is not None]
    rows, pages = turn(shorts, choice.page, "desk.plan", shift=choice.shift, machine=choice.machine, role=choice.role)
    return PlanPage(
        frame=desk_frame("desk.dues", _("Plan of 90 days")),
        span=_("%(first)s to %(last)s", first=day(roster.on), last=day(roster.on + HORIZON)),
        lede=_lede(lines, shorts),
        choice=choice,
        shifts=any_of((shift, shift) for shift in roster.shifts()),
        machines=any_of((machine, machine) for machine in roster.machines),
        roles=tuple((role, role_name(role)) for role in ROLES),
        shorts=tuple(rows),
        pages=pages,
        strip=_strip(roster, lines),
    )


def _lede(lines: Sequence[Manning], shorts: Sequence[Short]) -> str:
    if not lines:
        return _("Nobody has a standing for this choice, so nobody may run it alone.")
    if not shorts:
        return _("Two people or more stay on each shift at each machine for the next 90 days.")
    return ngettext(
        "On %(num)s shift at a machine fewer than two people are left within 90 days.",
        "On %(num)s shifts at machines fewer than two people are left within 90 days.",
        len(shorts),
    )


def _short(roster: Roster, line: Manning, role: str) -> Short | None:
    start = line.short_from(roster.on)
    if start is None or start > roster.on + HORIZON:
        return None
    already = start <= roster.on
    return Short(
        since=_("already") if already else _("from %(day)s", day=day(start)),
        already=already,
        machine=line.machine,
        shift=line.shift,
        now=len(line.holders),
        reasons=why_short(line, start),
        act=book(line, start, role=role),
    )


def _strip(roster: Roster, lines: Sequence[Manning]) -> Figure | None:
    if not lines:
        return None
    rows = tuple(_row(roster, line) for line in lines)
    return due_strip(rows, today=roster.on, days=HORIZON.days, write_day=day, translate=translate)


def _row(roster: Roster, line: Manning) -> StripRow:
    last = roster.on + HORIZON
    short = line.short_from(roster.on)
    within = [(one, one.until) for one in line.holders if one.until is not None and one.until <= last]
    return StripRow(
        shift=line.shift,
        machine=line.machine,
        now=len(line.holders),
        ends=tuple(StripEnd(name=one.person.name, on=until, item=None) for one, until in within),
        beyond=len(line.holders) - len(within),
        short_from=short if short is not None and short <= last else None,
        item=None,
    )
