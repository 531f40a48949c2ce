"""Legal hold: while one is on, nothing about a person is taken out, whatever a rule or a request says.

Setting and lifting are entries of the person's own chain, so nobody can do either quietly. A hold whose day is in
doubt holds all the same; a lifting whose day is in doubt lifts nothing.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from trainer.errors import RecordError
from trainer.records import ledger
from trainer.records.chain import Entry, EntryKind
from trainer.records.effects import Fact, facts
from trainer.records.people import must
from trainer.records.privacy.officers import checked_reason, must_be_officer, not_erased
from trainer.records.work import Reading, Writing
from trainer.wording import say

SET, LIFTED = "hold-set", "hold-lifted"


@dataclass(frozen=True, slots=True, kw_only=True)
class Hold:
    """A hold that is on: since when, why, and the number of the entry that says so."""

    since: date
    reason: str
    entry: int


def hold_on(r: Reading, person: str) -> Hold | None:
    """Return the hold on a person, or None."""
    return hold_in(facts(ledger.entries(r, person=person)))


def hold_in(known: Iterable[Fact]) -> Hold | None:
    """Return the hold that one person's facts leave on, or None. Pure."""
    found = None
    for fact in sorted(known, key=lambda fact: fact.number):  # the order of recording: a day cannot be put before it
        if fact.kind is not EntryKind.EVENT:
            continue
        if fact.body["event"] == SET:
            found = Hold(since=fact.on, reason=fact.body["note"], entry=fact.number)
        elif fact.body["event"] == LIFTED and fact.trusted:
            found = None
    return found


def set_hold(w: Writing, person: str, *, by: str, reason: str) -> Entry:
    """Set a legal hold on a person's data."""
    must_be_officer(w, by)
    not_erased(must(w, person))
    found = hold_on(w, person)
    if found is not None:
        raise RecordError(say("There is a legal hold already, since {day}.", day=found.since.isoformat()))
    body = {"event": SET, "note": checked_reason(reason)}
    return ledger.append(w, person, EntryKind.EVENT, body, happened_on=w.today(), by=by)


def lift_hold(w: Writing, person: str, *, by: str, reason: str) -> Entry:
    """Lift a legal hold. Nobody lifts the one on their own data."""
    must_be_officer(w, by)
    if by == person:
        raise RecordError("Nobody lifts the legal hold on their own data.")
    if hold_on(w, person) is None:
        raise RecordError("There is no legal hold on this person's data.")
    body = {"event": LIFTED, "note": checked_reason(reason)}
    return ledger.append(w, person, EntryKind.EVENT, body, happened_on=w.today(), by=by)
