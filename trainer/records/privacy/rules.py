"""How long what is kept: a rule per kind of record, in years from leaving, from expiry or from the day itself.

There is no rule until an officer sets one, because what is right differs by country and trade; what has no rule is
kept. Rules of one country alone run from none over three and five years to the employment and one year more, so this
program supplies none of its own.
"""

from calendar import isleap
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from enum import StrEnum

from dateutil.relativedelta import relativedelta
from sqlalchemy import select

from trainer.errors import UsageError
from trainer.records.chain import Entry, EntryKind
from trainer.records.duedates import Policy
from trainer.records.models import RetentionRule
from trainer.records.privacy.officers import checked_reason, must_be_officer
from trainer.records.work import Reading, Writing
from trainer.wording import say

MOST_YEARS = 100
IDENTITY, ENTRIES = "identity", "entries"  # who somebody is; entries of a kind without a rule of its own
LOGS = ("sign-ins", "hazard-names", "question-names", "requests")
KINDS = (IDENTITY, ENTRIES, *(kind.value for kind in EntryKind), *LOGS)


class From(StrEnum):
    """From when the years are counted."""

    LEAVING = "leaving"
    EXPIRY = "expiry"
    EVENT = "event"


ALLOWED: Mapping[str, frozenset[From]] = {
    IDENTITY: frozenset({From.LEAVING}),
    **{log: frozenset({From.EVENT}) for log in LOGS},
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """A rule in force. Kept through the same day so many years later."""

    kind: str
    years: int
    counts_from: From
    reason: str
    by: str
    at: datetime

    def last_day(self, anchor: date) -> date:
        """Return the last day on which it is kept; 29 February becomes 1 March, never a day too early."""
        end = anchor + relativedelta(years=self.years)
        moved = (anchor.month, anchor.day) == (2, 29) and end.day == 28
        return end.replace(month=3, day=1) if moved else end

    def over_before(self, on: date) -> date:
        """Return the day before which things must have happened for their time to be over on a day."""
        start = on - relativedelta(years=self.years)
        leap = (start.month, start.day) == (3, 1) and isleap(start.year) and not isleap(on.year)
        return start.replace(month=2, day=29) if leap else start


def set_rule(w: Writing, *, kind: str, years: int | None, counts_from: From | str, by: str, reason: str) -> None:
    """Set the rule for a kind of record, or, with ``years`` None, take it back; earlier rules stay on file."""
    must_be_officer(w, by)
    if kind not in KINDS:
        raise UsageError(say("{kind} is no kind of record; there are {kinds}.", kind=kind, kinds=", ".join(KINDS)))
    allowed = ALLOWED.get(kind, frozenset(From))
    if counts_from not in allowed:
        told = say("{kind} is counted from {froms}.", kind=kind, froms=", ".join(sorted(allowed)))
        raise UsageError(told)
    if years is not None and not 0 <= years <= MOST_YEARS:
        raise UsageError(say("Years run from 0 to {most}.", most=MOST_YEARS))
    w.session.add(
        RetentionRule(
            kind=kind,
            years=years,
            counts_from=From(counts_from).value,
            reason=checked_reason(reason),
            by=by,
            at=w.now(),
        )
    )
    w.session.flush()


def rules(r: Reading) -> Mapping[str, Rule]:
    """Return the rules in force, by kind of record."""
    newest = {found.kind: found for found in r.session.scalars(select(RetentionRule).order_by(RetentionRule.id))}
    return {
        kind: Rule(
            kind=kind,
            years=found.years,
            counts_from=From(found.counts_from),
            reason=found.reason,
            by=found.by,
            at=found.at,
        )
        for kind, found in sorted(newest.items())
        if found.years is not None
    }


def anchor_of(entry: Entry, rule: Rule, left: date) -> date:
    """Return the day from which an entry's years are counted."""
    if rule.counts_from is From.LEAVING:
        return left
    return expiry_of(entry) if rule.counts_from is From.EXPIRY else entry.happened_on


def expiry_of(entry: Entry) -> date:
    """Return the last day on which what an entry says was good; its own day for what does not expire."""
    body = entry.body
    if entry.kind is EntryKind.PRIOR_ACCEPTED:
        return Policy.from_data(body["policy"]).due(date.fromisoformat(body["trained_on"]))
    if entry.kind is EntryKind.SITTING_MARKED and body["passed"] is True:
        return Policy.from_data(body["policy"]).due(entry.happened_on)
    named = body.get("valid_to") or body.get("until")
    return max(entry.happened_on, date.fromisoformat(named)) if named else entry.happened_on
