"""What else goes on the record: rights to judge, attendance, prior training, suspensions, events, corrections.

Each act is one entry; the one who does it is ``by``, a person's key.
"""

from collections.abc import Iterable, Mapping
from datetime import date
from typing import Any

from trainer.bank import Bank
from trainer.errors import NotEntitled, RecordError, UsageError
from trainer.records import ledger, machines, siterules, terms
from trainer.records.chain import Entry, EntryKind, reference
from trainer.records.conditions import unended
from trainer.records.effects import AWAY, CONFIRMED, HERE, REPLACED, WITHDRAWN, Fact, facts, withdrawn
from trainer.records.entitlements import JUDGE, SUPERVISE
from trainer.records.machines import FactRow
from trainer.records.people import must
from trainer.records.presence import must_be_here
from trainer.records.use import NOTED
from trainer.records.work import Reading, Writing
from trainer.wording import say

LAST_CHANGE = "last-change"  # the fact that says when a machine was last changed, and how


def entitle(
    w: Writing,
    *,
    person: str,
    machine_kinds: Iterable[str],
    roles: Iterable[str],
    basis: str,
    valid_to: date,
    by: str,
    happened_on: date,
    valid_from: date | None = None,
    right: str = JUDGE,
) -> Entry:
    """Give somebody a right until a day, to judge practice or to stand by; ``basis`` says what it rests on.

    It counts from the day on which it was given, or from ``valid_from`` when that is later.
    """
    if person == by:
        raise NotEntitled("Nobody gives themselves a right.")
    if right not in {JUDGE, SUPERVISE}:
        raise UsageError(say("{right} is no right; there are judge and supervise.", right=right))
    kinds, judged = sorted(set(machine_kinds)), sorted(set(roles))
    if not kinds or not judged or not basis.strip():
        raise UsageError("A right names the kinds of machine, the roles and what it rests on.")
    begins = max(happened_on, valid_from or happened_on)
    if valid_to < begins:
        raise UsageError("A right ends after it begins.")
    body = {
        "machine_kinds": kinds,
        "roles": judged,
        "basis": basis,
        "valid_from": begins.isoformat(),
        "valid_to": valid_to.isoformat(),
        **({} if right == JUDGE else {"right": right}),
    }
    return _add(w, person, EntryKind.ENTITLED, body, happened_on=happened_on, by=by)


def revoke(w: Writing, *, entitlement: int, reason: str, by: str, happened_on: date) -> Entry:
    """End a right from a day on; what was signed under it before stays good."""
    found = _of_kind(w, entitlement, EntryKind.ENTITLED)
    body = {"revokes": entitlement, "reason": _reason(reason)}
    body |= {"right": found.body["right"]} if "right" in found.body else {}
    return _add(w, found.person, EntryKind.ENTITLED, body, happened_on=happened_on, by=by)


def attend(
    w: Writing,
    *,
    person: str,
    topic: str,
    presenter: str,
    by: str,
    happened_on: date,
    machine: str | None = None,
    programme: str | None = None,
    language: str = "",
) -> Entry:
    """Note that somebody attended; that alone never authorises anybody."""
    must_be_here(w, person, happened_on)
    body: dict[str, Any] = {"topic": topic, "presenter": presenter, "language": language}
    body |= {} if machine is None else {"machine": machines.get(w, machine).id}
    body |= {} if programme is None else {"programme": programme}
    return _add(w, person, EntryKind.ATTENDED, body, happened_on=happened_on, by=by)


def accept_prior(
    w: Writing,
    bank: Bank,
    *,
    person: str,
    programme: str,
    evidence: str,
    trained_on: date,
    assessor: str,
    reason: str,
    happened_on: date,
) -> Entry:
    """Accept training from elsewhere in place of a programme; it counts from the day of that training."""
    born = must_be_here(w, person, happened_on).born
    if assessor == person:
        raise NotEntitled("Nobody accepts their own prior training.")
    if trained_on > happened_on:
        raise UsageError("Prior training lies before the day on which it is accepted.")
    if not evidence.strip():
        raise UsageError("Accepting prior training needs evidence; say which.")
    agreed = terms.of(bank, programme)
    policy = siterules.policy(w, bank, programme, happened_on).for_born(born, trained_on)
    body = {
        **agreed,
        "policy": policy.as_data(),
        "evidence": evidence,
        "trained_on": trained_on.isoformat(),
        "assessor": assessor,
        "reason": reason,
        "due_on": policy.due(trained_on).isoformat(),
    }
    return _add(w, person, EntryKind.PRIOR_ACCEPTED, body, happened_on=happened_on, by=assessor)


def excuse(w: Writing, *, person: str, programme: str, until: date, reason: str, by: str, happened_on: date) -> Entry:
    """Put off a programme for a person until a day; it authorises nobody, it only stops the reminding."""
    if person == by:
        raise NotEntitled("Nobody puts off their own programmes.")
    if until < happened_on:
        raise UsageError("It is put off until a day that comes after the first one.")
    body = {"programme": programme, "until": until.isoformat(), "reason": _reason(reason)}
    return _add(w, person, EntryKind.EXCUSED, body, happened_on=happened_on, by=by)


def suspend(w: Writing, *, person: str, reason: str, by: str, happened_on: date, machine: str | None = None) -> Entry:
    """Suspend a person from a machine, or from all, until reinstated."""
    body = {"machine": None if machine is None else machines.get(w, machine).id, "reason": _reason(reason)}
    return _add(w, person, EntryKind.SUSPENDED, body, happened_on=happened_on, by=by)


def reinstate(w: Writing, *, suspension: int, reason: str, by: str, happened_on: date) -> Entry:
    """End a suspension that is on. Nobody ends their own."""
    found = _of_kind(w, suspension, EntryKind.SUSPENDED)
    if found.person == by:
        raise NotEntitled("Nobody ends their own suspension.")
    open_ones = {number: fact for fact in open_suspensions(w, found.person) for number in fact.numbers}
    if suspension not in open_ones:
        raise RecordError(say("{entry} holds nobody back any more.", entry=reference(suspension)))
    if happened_on < open_ones[suspension].on:
        raise UsageError("A suspension ends on the day on which it began, or later.")
    body = {"suspension": suspension, "reason": _reason(reason)}
    return _add(w, found.person, EntryKind.REINSTATED, body, happened_on=happened_on, by=by)


def open_suspensions(r: Reading, person: str) -> list[Fact]:
    """Return the suspensions of a person that nobody has ended, oldest first."""
    return unended(facts(ledger.entries(r, person=person)))


def event(
    w: Writing, *, person: str, event: str, note: str, by: str, happened_on: date, machine: str | None = None
) -> Entry:
    """Note an event that bears on a person's competence, such as ``incident``, ``unsafe-act``, ``returned``."""
    body: dict[str, Any] = {"event": event, "note": note}
    body |= {} if machine is None else {"machine": machines.get(w, machine).id}
    return _add(w, person, EntryKind.EVENT, body, happened_on=happened_on, by=by)


def note_use(w: Writing, *, person: str, machine: str, what: str, by: str, happened_on: date, note: str = "") -> Entry:
    """Note that somebody worked at a machine, or did its pre-start check; nobody notes their own."""
    if person == by:
        raise NotEntitled("Nobody notes their own use of a machine.")
    if what not in NOTED:
        raise UsageError(say("Use is {kinds}.", kinds=", ".join(sorted(NOTED))))
    must_be_here(w, person, happened_on)
    return event(w, person=person, event=what, note=note.strip(), by=by, happened_on=happened_on, machine=machine)


def machine_changed(w: Writing, *, machine: str, note: str, by: str, happened_on: date) -> list[Entry]:
    """Note that a machine was changed, for everybody who has shown their work there: they have to show it again.

    It is put on file with the machine too, for practicals of days before that are keyed in later.
    """
    machines.note_fact(w, machine, LAST_CHANGE, note[: machines.LONGEST].strip() or "-", on=happened_on, by=None)
    return [
        event(w, person=person, event="machine-changed", note=note, by=by, happened_on=happened_on, machine=machine)
        for person in sorted(shown_at(w, machine))
    ]


def shown_at(r: Reading, machine: str) -> frozenset[str]:
    """Return the keys of everybody, leavers too, who ever was watched at a machine: those whom a change concerns.

    A practical that was moved to a person is theirs; one that does not count now may count again, and is kept.
    """
    machines.get(r, machine)
    signed = (EntryKind.PRACTICAL_SIGNED, EntryKind.CORRECTED, EntryKind.MOVED)
    return frozenset(
        person
        for person, rows in ledger.chains(r, kinds=signed)
        for body in (*(row.body for row in rows if row.kind is signed[0]), *(fact.body for fact in facts(rows)))
        if "checklist" in body and body["machine"] == machine
    )


def changed_after(r: Reading, machine: str, day: date) -> list[FactRow]:
    """Return the changes of a machine that are on file for later days than one."""
    return [one for one in machines.get(r, machine).changes if one.key == LAST_CHANGE and one.value and one.on > day]


def withdraw(w: Writing, *, entry: int, reason: str, by: str, happened_on: date) -> Entry:
    """Let an entry not count, as if it had never been; it stays on the record with the reason."""
    if entry in withdrawn(ledger.entries(w, person=ledger.entry(w, entry).person)):
        raise RecordError(say("{entry} does not count any more.", entry=reference(entry)))
    return _correct(w, entry, {"effect": WITHDRAWN, "reason": _reason(reason)}, by, happened_on)


def replace(
    w: Writing,
    *,
    entry: int,
    reason: str,
    by: str,
    happened_on: date,
    instead: Mapping[str, Any] | None = None,
    day: date | None = None,
) -> Entry:
    """Let another content or another day count in place of an entry's own; both stay on the record.

    ``instead`` holds what changes; the rest stays as it reads now.
    """
    body: dict[str, Any] = {"effect": REPLACED, "reason": _reason(reason)}
    body |= {} if instead is None else {"instead": {**_as_it_reads(w, entry).body, **instead}}
    body |= {} if day is None else {"happened_on": day.isoformat()}
    return _correct(w, entry, body, by, happened_on)


def confirm_day(w: Writing, *, entry: int, day: date, reason: str, by: str, happened_on: date) -> Entry:
    """Confirm on which day something happened that was recorded while the clock could not be trusted."""
    body = {"effect": CONFIRMED, "happened_on": day.isoformat(), "reason": _reason(reason)}
    return _correct(w, entry, body, by, happened_on)


def move(
    w: Writing, *, entry: int, to: str, reason: str, by: str, approved_by: str, happened_on: date
) -> tuple[Entry, Entry]:
    """Move an entry to the person whom it belongs to, with two people's approval; both histories show it."""
    if by == approved_by:
        raise RecordError("Moving an entry takes two people.")
    found = ledger.entry(w, entry)
    must(w, to)
    if {found.person, to} & {by, approved_by}:
        raise NotEntitled("Nobody corrects their own record.")
    second = must(w, approved_by)
    if second.status != "active" or not second.roles & {"trainer", "officer"}:
        raise NotEntitled("The second person is a trainer or an officer who is here.")
    if to == found.person or found.kind in {EntryKind.CORRECTED, EntryKind.MOVED}:
        raise RecordError("That entry cannot be moved there.")
    now = _as_it_reads(w, entry)
    common = {"entry": entry, "reason": _reason(reason), "approved_by": approved_by}
    was = {"kind": now.kind.value, "happened_on": now.on.isoformat(), "by": now.by, "body": dict(now.body)}
    away = {**common, "direction": AWAY, "to": to}
    here = {**common, "direction": HERE, "from": found.person, "was": was}
    return (
        _add(w, found.person, EntryKind.MOVED, away, happened_on=happened_on, by=by),
        _add(w, to, EntryKind.MOVED, here, happened_on=happened_on, by=by),
    )


def _add(w: Writing, person: str, kind: EntryKind, body: Mapping[str, Any], *, happened_on: date, by: str) -> Entry:
    """Append an entry of a day that has come; what is planned is not on the record until it happens."""
    if happened_on > w.today():
        raise RecordError(say("{day} has not come yet.", day=happened_on.isoformat()))
    return ledger.append(w, person, kind, body, happened_on=happened_on, by=by)


def _correct(w: Writing, entry: int, body: dict[str, Any], by: str, happened_on: date) -> Entry:
    found = ledger.entry(w, entry)
    if found.person == by:
        raise NotEntitled("Nobody corrects their own record.")
    return _add(w, found.person, EntryKind.CORRECTED, {"corrects": entry, **body}, happened_on=happened_on, by=by)


def _as_it_reads(r: Reading, number: int) -> Fact:
    """Return what an entry says now, all corrections worked in; :class:`RecordError` when it does not count."""
    person = ledger.entry(r, number).person
    found = next((fact for fact in facts(ledger.entries(r, person=person)) if number in fact.numbers), None)
    if found is None:
        raise RecordError(say("{entry} does not count any more.", entry=reference(number)))
    return found


def _of_kind(r: Reading, number: int, kind: EntryKind) -> Entry:
    found = ledger.entry(r, number)
    if found.kind is not kind:
        raise RecordError(say("{entry} is not of the kind {kind}.", entry=reference(number), kind=kind.value))
    return found


def _reason(text: str) -> str:
    if not text.strip():
        raise UsageError("Say why; the reason stays on the record.")
    return text.strip()
