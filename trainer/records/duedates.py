"""When a result has to be renewed. Pure.

A due date is worked out from the anchor, the civil date at the site on which the thing happened, never from the last
due date, so that months' ends do not drift. "Due on" a day means good until that day is over. A day that the month
does not have becomes its last day: 29 February and a year is 28 February, never a day later than the rule
(common practice; some laws say 1 March, which the policy can say).
"""

import calendar
import re
from collections.abc import Mapping
from dataclasses import asdict, dataclass
from datetime import date, timedelta
from typing import Any, Literal

from dateutil.relativedelta import relativedelta

from trainer.errors import UsageError
from trainer.wording import say

PERIOD = re.compile(r"P(?:([1-9][0-9]{0,1})Y)?(?:([1-9][0-9]{0,2})M)?")


@dataclass(frozen=True, slots=True, kw_only=True)
class Policy:
    """How long a result is good. A copy is kept in every entry, so that a later change does not rewrite history.

    ``period`` is an ISO 8601 period in whole years and months; ``count_from`` the day itself or the end of its month;
    ``leap_day`` what becomes of 29 February; ``warn_days`` how long before the end it is called due.
    """

    period: str
    count_from: Literal["day", "month_end"] = "day"
    leap_day: Literal["feb28", "mar1"] = "feb28"
    warn_days: int = 30

    def __post_init__(self) -> None:
        months(self.period)
        if self.count_from not in {"day", "month_end"} or self.leap_day not in {"feb28", "mar1"}:
            raise UsageError("A due-date policy counts from day or month_end, and leap_day is feb28 or mar1.")

    def due(self, anchor: date) -> date:
        """Return the last day on which a result of ``anchor`` is good."""
        due = anchor + relativedelta(months=months(self.period))
        if self.count_from == "month_end":
            return due.replace(day=calendar.monthrange(due.year, due.month)[1])
        if self.leap_day == "mar1" and (anchor.month, anchor.day) == (2, 29) and (due.month, due.day) == (2, 28):
            return due + timedelta(days=1)
        return due

    def as_data(self) -> dict[str, Any]:
        """Return the policy as plain data, for an entry's body."""
        return asdict(self)

    @staticmethod
    def from_data(data: Mapping[str, Any]) -> "Policy":
        """Read what :meth:`as_data` gave; :class:`UsageError` for a rule that this program does not know."""
        unknown = set(data) - set(Policy.__dataclass_fields__)
        if unknown:
            raise UsageError(say("Unknown due-date rule: {rules}.", rules=", ".join(sorted(unknown))))
        return Policy(**data)


def months(period: str) -> int:
    """Return a period in months; :class:`UsageError` for one that is not whole years and months."""
    found = PERIOD.fullmatch(period)
    if found is None or not any(found.groups()):
        raise UsageError(say("{period!r} is no period of whole years or months, such as P12M.", period=period))
    return int(found[1] or 0) * 12 + int(found[2] or 0)
