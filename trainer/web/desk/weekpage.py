"""The sheet of the week: lines in groups, and the strip of the next 90 days below them."""

from collections.abc import Sequence

from flask import url_for

from trainer.web.days import week_of
from trainer.web.desk.frames import desk_frame
from trainer.web.desk.pages import Count, Group, WeekPage
from trainer.web.desk.strip import strip
from trainer.web.desk.waiting import BOOK, NOW, ORDER, TODAY, WEEK, Facts, Wait
from trainer.web.desk.week import waits
from trainer.web.filters import day, day_long
from trainer.web.sheet import Box, Link
from trainer.web.words import _, ngettext

FIRST = 12  # lines of a group before "all lines": a sheet that nobody can take in helps nobody


def week_page(facts: Facts, *, everything: bool) -> WeekPage:
    """Build the sheet; ``everything`` shows each line, else the first dozen of each group."""
    found = waits(facts)
    shown = found if everything else _first(found)
    people = len(facts.roster.present())
    return WeekPage(
        frame=desk_frame(
            "desk.week",
            _("Who needs me this week?"),
            Box(
                label=_("People in view"),
                value=_("%(people)s on %(shifts)s shifts", people=people, shifts=len(facts.roster.shifts())),
            ),
            Box(label=_("Lines"), value=str(len(found))),
        ),
        span=_span(facts),
        counts=_counts(found),
        groups=_groups(shown, facts),
        more=_more(len(found), len(shown)),
        strip=strip(facts, found),
    )


def _span(facts: Facts) -> str:
    last = week_of(facts.today)[1]
    return _("%(today)s, the week to %(last)s", today=day_long(facts.today), last=day(last))


def _first(found: Sequence[Wait]) -> list[Wait]:
    kept: list[Wait] = []
    for group in ORDER:
        kept.extend([wait for wait in found if wait.group == group][:FIRST])
    return kept


def _groups(shown: Sequence[Wait], facts: Facts) -> tuple[Group, ...]:
    heads = {
        NOW: (_("Now"), _("somebody can be hurt, or stands at the kiosk and cannot go on")),
        TODAY: (_("Today"), _("somebody waits, or a shift has too few")),
        WEEK: (_("This week"), _("to %(day)s", day=day(week_of(facts.today)[1]))),
        BOOK: (_("Book this week"), _("ends later, but has to be planned now")),
    }
    groups = (
        Group(title=heads[key][0], note=heads[key][1], rows=tuple(wait.line for wait in shown if wait.group == key))
        for key in ORDER
    )
    return tuple(group for group in groups if group.rows)


def _counts(found: Sequence[Wait]) -> tuple[Count, ...]:
    def count(tag: str) -> int:
        return sum(wait.tag == tag for wait in found)

    stuck = count("practical") + count("failed") + count("suspended")
    over, short, hazards, machines = count("due"), count("short"), count("hazard"), count("machine")
    asked = count("asked")
    told = (
        (hazards, ngettext("hazard report is open.", "hazard reports are open.", hazards)),
        (asked, ngettext("question waits for an answer.", "questions wait for an answer.", asked)),
        (machines, ngettext("machine needs a look.", "machines need a look.", machines)),
        (stuck, ngettext("person cannot go on without you.", "people cannot go on without you.", stuck)),
        (short, ngettext("shift runs short of people.", "shifts run short of people.", short)),
        (
            over,
            ngettext("refresher is over or ends within 30 days.", "refreshers are over or end within 30 days.", over),
        ),
    )
    return tuple(Count(number=number, words=words) for number, words in told if number)


def _more(found: int, shown: int) -> Link | None:
    if found <= shown:
        return None
    return Link(label=_("All %(count)s lines", count=found), url=url_for("desk.week", all="yes"))
