"""Coaching after a paper that was not passed: the next try waits until a coach has noted what was talked over."""

from collections.abc import Iterable, Mapping

from trainer.errors import NotEntitled, RecordError, UsageError
from trainer.records import ledger
from trainer.records.chain import Entry, EntryKind
from trainer.records.effects import Fact, facts
from trainer.records.people import must
from trainer.records.work import Reading, Writing
from trainer.wording import say

COACHED = "coached"


def waiting(r: Reading, person: str) -> Mapping[str, Fact]:
    """Return the papers that wait for a coach, by programme: the newest was not passed and nothing was noted since."""
    return locked(facts(ledger.entries(r, person=person)))


def locked(known: Iterable[Fact]) -> Mapping[str, Fact]:
    """Return the same from what is known about one person. Pure.

    Read in the order of recording, not of days, so that a paper entered late does not open or close another one.
    """
    found: dict[str, Fact] = {}
    for fact in sorted(known, key=lambda one: one.number):
        if fact.kind is EntryKind.SITTING_MARKED:
            found[fact.body["programme"]] = fact
        elif fact.kind is EntryKind.EVENT and fact.body["event"] == COACHED:
            held = found.get(fact.body["programme"])
            if held is not None and fact.body["after"] in held.numbers:
                del found[fact.body["programme"]]
    return {programme: fact for programme, fact in found.items() if not fact.body["passed"]}


def must_be_free(r: Reading, person: str, programme: str) -> None:
    """Raise :class:`RecordError` while a person's paper of a programme waits for a coach."""
    if programme in waiting(r, person):
        raise RecordError(say("Your last paper was not passed. Talk it over with your trainer; then try again."))


def note(w: Writing, *, person: str, after: int, words: str, by: str) -> Entry:
    """Note what a coach talked over after a paper; the next try is open from then on. Nobody coaches themselves."""
    must(w, person)
    if person == by:
        raise NotEntitled("Nobody coaches themselves; another trainer has to note it.")
    if not words.strip():
        raise UsageError("Write what was talked over; it stays on the record.")
    held = next((fact for fact in waiting(w, person).values() if after in fact.numbers), None)
    if held is None:
        raise RecordError("That paper does not wait for a coach any more.")
    body = {"event": COACHED, "note": words.strip(), "programme": held.body["programme"], "after": held.number}
    return ledger.append(w, person, EntryKind.EVENT, body, happened_on=w.today(), by=by)
