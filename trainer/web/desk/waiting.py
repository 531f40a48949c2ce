"""What a line of the week is made of: the facts behind the sheet, the groups by clock, and how a line is put together."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from trainer.bank import Bank
from trainer.records.asking import AskedRow
from trainer.records.dues import DueRow
from trainer.records.hazards import HazardRow
from trainer.records.ledger import Entry, EntryKind
from trainer.records.standing import Reason, Standing
from trainer.web.desk.judges import Judges
from trainer.web.desk.pages import Line
from trainer.web.roster import Roster
from trainer.web.sheet import Link, Named
from trainer.web.words import _, ngettext

NOW, TODAY, WEEK, BOOK = "now", "today", "week", "book"
ORDER = (NOW, TODAY, WEEK, BOOK)
AT_THE_KIOSK = timedelta(hours=2)  # so long after handing in a person is taken to be still there
SOON = timedelta(days=7)
LATER = timedelta(days=30)
LONG = timedelta(days=60)  # papers older than this are not read for the sheet of the week


@dataclass(frozen=True, slots=True, kw_only=True)
class Wait:
    """A line before it has its number: its group, and how urgent it is within it (smaller comes first)."""

    group: str
    tag: str  # hazard, asked, machine, practical, short, failed, due or suspended
    urgency: tuple[int, int]
    line: Line


@dataclass(frozen=True, slots=True, kw_only=True)
class Facts:
    """What the lines are made from."""

    bank: Bank
    roster: Roster
    dues: Sequence[DueRow]
    sittings: Sequence[Entry]  # papers handed in of late, newest first
    events: Sequence[Entry]  # machines changed of late, newest first
    coached: frozenset[int]  # papers that a coach has talked over
    judges: Judges
    hazards: Sequence[HazardRow]
    questions: Sequence[AskedRow] = ()
    now: datetime
    me: str  # the key of the trainer who reads it

    @property
    def today(self) -> date:
        """Return the day the sheet is for."""
        return self.roster.on


def newest(facts: Facts, one: Standing) -> Entry | None:
    """Return the newest paper or machine change that a standing rests on, if it is not long ago."""
    numbers = {number for reason in one.reasons for number in reason.entries}
    found = [entry for entry in (*facts.sittings, *facts.events) if entry.number in numbers]
    return max(found, key=lambda entry: entry.number, default=None)


def at_the_kiosk(facts: Facts, entry: Entry | None) -> bool:
    """Say whether a paper was handed in so short a time ago that its person stands there still."""
    return (
        entry is not None
        and entry.kind is EntryKind.SITTING_MARKED
        and timedelta() <= facts.now - entry.recorded_at < AT_THE_KIOSK
    )


def days_since(facts: Facts, entry: Entry | None) -> int:
    """Return for how many days somebody has waited; what is not known of late counts as long."""
    return (facts.today - entry.happened_on).days if entry else LONG.days


def clock(facts: Facts, entry: Entry | None) -> str:
    """Say how long somebody has waited."""
    if entry is not None and at_the_kiosk(facts, entry):
        return _("waits %(time)s", time=lasted(facts.now - entry.recorded_at))
    days = days_since(facts, entry)
    if entry is None:
        return _("over %(days)s days", days=days)
    if days <= 0:
        return _("since today")
    return ngettext("waits %(num)s day", "waits %(num)s days", days)


def lasted(passed: timedelta) -> str:
    """Say how long something has lasted, in the two units that matter."""
    hours, minutes = divmod(int(passed.total_seconds()) // 60, 60)
    if hours == 0:
        return _("%(minutes)s min", minutes=max(minutes, 0))
    days, rest = divmod(hours, 24)
    return _("%(days)s d %(hours)s h", days=days, hours=rest) if days else _("%(hours)s h", hours=hours)


def line(
    *,
    clock: str,
    kind: str,
    reasons: tuple[Reason, ...],
    act: Link,
    people: tuple[Named, ...] = (),
    subject: str = "",
    subject_note: str = "",
    warning: bool = False,
) -> Line:
    """Put a line together; it gets its number when all lines are in order."""
    return Line(
        number=0,
        clock=clock,
        kind=kind,
        subject=subject,
        subject_note=subject_note,
        warning=warning,
        people=people,
        reasons=reasons,
        act=act,
    )
