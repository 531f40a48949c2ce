"""Rules that the site sets for its people, on record: due dates other than the content's, the smallest group shown.

A rule is an entry in the chain of the officer who set it, with its reason and the day from which it holds. It never holds
for a day that is over, and it changes no entry: a paper goes by the rule that was in force when it was begun.
"""

from collections.abc import Mapping
from dataclasses import dataclass, fields, replace
from datetime import date
from typing import Any

from trainer.bank import Bank
from trainer.errors import UsageError
from trainer.records import ledger, terms
from trainer.records.chain import Entry, EntryKind
from trainer.records.duedates import Policy, months
from trainer.records.effects import withdrawn
from trainer.records.privacy.officers import checked_reason, must_be_officer
from trainer.records.work import Reading, Writing
from trainer.wording import say

EVERY = "*"  # in place of a programme: each that has no rule of its own
DUE, GROUP = "due-dates", "smallest-group"
LEAST_GROUP, MOST_GROUP = 5, 50  # fewer than five could be told apart; the content's own number, never less
LONGEST = 60  # months: own choice, beyond any refresher known here


@dataclass(frozen=True, slots=True, kw_only=True)
class DueRule:
    """How a due day is counted in place of what the content says. Periods as ISO 8601 (``P12M``), "" for none."""

    period: str
    young_period: str = ""
    early_window: str = ""
    late_grace: str = ""
    count_from: str = "day"

    def on(self, policy: Policy) -> Policy:
        """Return a programme's policy under this rule; :class:`UsageError` where that makes none.

        Without a period for young people the content's own stays: a rule takes away no shorter time by saying nothing.
        """
        given: dict[str, Any] = {field.name: getattr(self, field.name) for field in fields(self)}
        own = policy.young_period
        if not self.young_period and own and months(own) <= months(self.period):
            given["young_period"] = own
        return replace(policy, **given)


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """One rule that was set: for a programme, :data:`EVERY` or the group; ``value`` is None for back to the content's."""

    subject: str
    programme: str
    value: Any
    since: date
    entry: Entry


def set_due(
    w: Writing, bank: Bank, *, programme: str, rule: DueRule | None, since: date, by: str, reason: str
) -> Entry:
    """Set how due days are counted for a programme, or for :data:`EVERY` one; None takes the content's own again."""
    concerned = bank.programmes.values() if programme == EVERY else [bank.programme(programme)]
    for one in concerned:
        if rule is not None:
            rule.on(terms.policy(one))
    if rule is not None and months(rule.period) > LONGEST:
        raise UsageError(say("A period has at most {most} months.", most=LONGEST))
    value = None if rule is None else {field.name: getattr(rule, field.name) for field in fields(rule)}
    return _set(w, {"subject": DUE, "programme": programme, "value": value}, since=since, by=by, reason=reason)


def set_smallest_group(w: Writing, *, least: int, since: date, by: str, reason: str) -> Entry:
    """Set of how many people a figure about a crew has to be at least; it can be raised, not lowered."""
    if not LEAST_GROUP <= least <= MOST_GROUP:
        raise UsageError(say("The smallest group is {least} to {most} people.", least=LEAST_GROUP, most=MOST_GROUP))
    return _set(w, {"subject": GROUP, "programme": "", "value": least}, since=since, by=by, reason=reason)


def rules(r: Reading) -> list[Rule]:
    """Return every rule that was set and still stands, in the order in which they begin to hold."""
    found = list(ledger.entries(r, kind=EntryKind.RULED))
    gone: set[int] = set()
    for author in {entry.person for entry in found}:
        gone |= withdrawn(ledger.entries(r, person=author))
    made = [_rule(entry) for entry in found if entry.number not in gone]
    return sorted(made, key=lambda rule: (rule.since, rule.entry.number))


def policy(r: Reading, bank: Bank, programme: str, on: date) -> Policy:
    """Return the due-date policy of a programme for a paper that is begun on a day."""
    own = terms.policy(bank.programme(programme))
    rule = due_rule(rules(r), programme, on)
    return own if rule is None or rule.value is None else DueRule(**rule.value).on(own)


def due_rule(known: list[Rule], programme: str, on: date) -> Rule | None:
    """Return the rule that holds for a programme on a day: its own, else the one for all; None for the content's."""
    held = [rule for rule in known if rule.subject == DUE and rule.since <= on]
    own = [rule for rule in held if rule.programme == programme]
    every = [rule for rule in held if rule.programme == EVERY]
    if own and own[-1].value is not None:
        return own[-1]
    return every[-1] if every else None


def smallest_group(r: Reading, on: date) -> int:
    """Return of how many people a figure about a crew has to be at least on a day."""
    held = [rule.value for rule in rules(r) if rule.subject == GROUP and rule.since <= on]
    return max(LEAST_GROUP, held[-1] if held else LEAST_GROUP)


def _set(w: Writing, body: Mapping[str, Any], *, since: date, by: str, reason: str) -> Entry:
    must_be_officer(w, by)
    if since < w.today():
        raise UsageError("A rule holds from today on or from a later day; it changes nothing that was.")
    whole = {**body, "from": since.isoformat(), "reason": checked_reason(reason)}
    return ledger.append(w, by, EntryKind.RULED, whole, happened_on=w.today(), by=by)


def _rule(entry: Entry) -> Rule:
    body = entry.body
    return Rule(
        subject=body["subject"],
        programme=body["programme"],
        value=body["value"],
        since=date.fromisoformat(body["from"]),
        entry=entry,
    )
