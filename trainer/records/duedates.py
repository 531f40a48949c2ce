"""When a result has to be renewed. Pure.

A due date is worked out from the anchor, the civil date at the site on which the thing happened, and from the months
counted since, never from the last due date, so that months' ends do not drift. "Due on" a day means good until that
day is over. A day that the month does not have becomes its last day: 29 February and a year is 28 February, never a
day later than the rule (common practice; some laws say 1 March, which the policy can say).
"""

import calendar
import re
from collections.abc import Mapping
from dataclasses import asdict, dataclass, replace
from datetime import date, timedelta
from functools import lru_cache
from typing import Any, Literal

from dateutil.relativedelta import relativedelta

from trainer.errors import UsageError
from trainer.wording import say

PERIOD = re.compile(r"P(?:([1-9][0-9]{0,1})Y)?(?:([1-9][0-9]{0,2})M)?")
ADULT = 18  # years of age from which the shorter period of young people no longer applies
DAY = timedelta(days=1)


@dataclass(frozen=True, slots=True, kw_only=True)
class Policy:
    """How long a result is good. A copy is kept in every entry, so that a later change does not rewrite history.

    ``period`` is an ISO 8601 period in whole years and months; ``count_from`` the day itself or the end of its month;
    ``leap_day`` what becomes of 29 February; ``warn_days`` how long before the end it is called due.

    ``early_window`` is how much of the end of the time it is good for (``P3M``: its last three months) leaves the
    anchor as it is when it is renewed then; ``late_grace`` does so for the time after. What is renewed later than that
    counts anew from its own day, unless ``late_resets`` is false: then from the next day of the old anchor.
    ``work_in_grace`` says that the person may go on meanwhile, which no rule is known to allow without more.

    ``young_period`` is the period while under 18; ``young`` says how it was applied to this result: ``under-18``,
    ``turns-18`` (adult before the shorter period is over) or ``unknown`` (no date of birth on file: the shorter one).

    ``pause_after`` is the time without noted use of a machine after which whoever may run it is paused there.
    """

    period: str
    count_from: Literal["day", "month_end"] = "day"
    leap_day: Literal["feb28", "mar1"] = "feb28"
    warn_days: int = 30
    early_window: str = ""
    late_grace: str = ""
    late_resets: bool = True
    work_in_grace: bool = False
    young_period: str = ""
    young: Literal["", "under-18", "turns-18", "unknown"] = ""
    pause_after: str = ""

    def __post_init__(self) -> None:
        for period in (
            self.period,
            *filter(None, (self.early_window, self.late_grace, self.young_period, self.pause_after)),
        ):
            months(period)
        if self.count_from not in {"day", "month_end"} or self.leap_day not in {"feb28", "mar1"}:
            raise UsageError("A due-date policy counts from day or month_end, and leap_day is feb28 or mar1.")
        if self.early_window and months(self.early_window) >= months(self.period):
            raise UsageError("The early window of a due-date policy is shorter than its period.")
        if self.young_period and months(self.young_period) > months(self.period):
            raise UsageError("The period for young people is not longer than the other one.")

    def due(self, anchor: date, count: int | None = None) -> date:
        """Return the last day on which a result is good, ``count`` months after its anchor; unless given, one period."""
        due = _later(anchor, months(self.period) if count is None else count)
        if self.count_from == "month_end":
            return _month_end(due)
        if self.leap_day == "mar1" and (anchor.month, anchor.day) == (2, 29) and (due.month, due.day) == (2, 28):
            return due + DAY
        return due

    def opens(self, due: date) -> date | None:
        """Return the first day on which renewing leaves the anchor of what is good until ``due``; None without a window."""
        return None if not self.early_window else self._shifted(due, -months(self.early_window)) + DAY

    def closes(self, due: date) -> date:
        """Return the last day on which renewing leaves the anchor of what was good until ``due``."""
        return due if not self.late_grace else self._shifted(due, months(self.late_grace))

    def lasts(self, due: date) -> date:
        """Return the last day on which somebody may go on with what is good until ``due``."""
        return self.closes(due) if self.work_in_grace else due

    def paused_after(self, used: date) -> date:
        """Return the last day on which somebody who used a machine on a day is not paused there."""
        return _later(used, months(self.pause_after))

    def for_born(self, born: date | None, anchor: date) -> "Policy":
        """Return the policy as it applies to somebody born on a day whose result is of ``anchor``.

        Under 18 on the day on which the shorter period ends, the shorter period counts; so it does without a date of
        birth. Who is 18 by then has the whole period.
        """
        if not self.young_period or self.young:
            return self
        shorter = replace(self, period=self.young_period, early_window="", work_in_grace=False, young="unknown")
        if born is None:
            return shorter
        if _years(born, shorter.due(anchor)) < ADULT:
            return replace(shorter, young="under-18")
        return replace(self, young="turns-18") if _years(born, anchor) < ADULT else self

    def as_data(self) -> dict[str, Any]:
        """Return the policy as plain data, for an entry's body; without a pause it says nothing of one."""
        return {name: value for name, value in asdict(self).items() if name != "pause_after" or value}

    @staticmethod
    def from_data(data: Mapping[str, Any]) -> "Policy":
        """Read what :meth:`as_data` gave; :class:`UsageError` for a rule that this program does not know."""
        unknown = set(data) - set(Policy.__dataclass_fields__)
        if unknown:
            raise UsageError(say("Unknown due-date rule: {rules}.", rules=", ".join(sorted(unknown))))
        return Policy(**data)

    def _shifted(self, due: date, count: int) -> date:
        moved = _later(due, count)
        return _month_end(moved) if self.count_from == "month_end" else moved


@dataclass(frozen=True, slots=True, kw_only=True)
class Good:
    """What a row of results comes to: good until ``due``, counted ``count`` months from ``anchor`` by ``policy``."""

    anchor: date
    count: int
    due: date
    policy: Policy

    @property
    def lasts(self) -> date:
        """Return the last day on which the person may go on."""
        return self.policy.lasts(self.due)

    def after(self, on: date, policy: Policy) -> "Good":
        """Return what it comes to when it is renewed on a day under a policy; never shorter than it was."""
        count = self.count + months(policy.period)
        opens = policy.opens(self.due)
        early = opens is not None and opens <= on <= self.due
        late = self.due < on and (on <= policy.closes(self.due) or not policy.late_resets)
        if not early and not late:
            return max(begun(on, policy), self, key=lambda good: good.due)
        while policy.due(self.anchor, count) <= on:  # so late that another turn has passed
            count += months(policy.period)
        return Good(anchor=self.anchor, count=count, due=policy.due(self.anchor, count), policy=policy)


def begun(on: date, policy: Policy) -> Good:
    """Return what a first result comes to."""
    return Good(anchor=on, count=months(policy.period), due=policy.due(on), policy=policy)


@lru_cache(maxsize=256)  # a bank has few periods, and a record asks for each again and again
def months(period: str) -> int:
    """Return a period in months; :class:`UsageError` for one that is not whole years and months."""
    found = PERIOD.fullmatch(period)
    if found is None or not any(found.groups()):
        raise UsageError(say("{period!r} is no period of whole years or months, such as P12M.", period=period))
    return int(found[1] or 0) * 12 + int(found[2] or 0)


@lru_cache(maxsize=8192)
def _later(day: date, count: int) -> date:
    return day + relativedelta(months=count)


def _month_end(day: date) -> date:
    return day.replace(day=calendar.monthrange(day.year, day.month)[1])


def _years(born: date, on: date) -> int:
    """Return an age in whole years; who was born on 29 February is a year older on 1 March: the safe side."""
    return on.year - born.year - ((on.month, on.day) < (born.month, born.day))
