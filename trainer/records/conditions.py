"""The conditions of standing: theory, practice, no suspension, belonging to the site. Pure; no database, no clock.

Each is a :class:`Part`: met or not, why, and what it lacks. What is in doubt never speaks for a person, only against.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum

from trainer.records.chain import EntryKind
from trainer.records.duedates import Policy
from trainer.records.effects import Fact
from trainer.records.renewals import BEGINNING, Held, Place, Rules, anchor, best_pass, first_time, place
from trainer.wording import Sentence, mark, say


class StandingWord(StrEnum):
    """Where somebody stands, in one word."""

    AUTHORISED = "authorised"
    REFRESH_DUE = "refresh-due"  # still authorised; due soon
    SUPERVISED = "supervised"
    ATTENDED = "attended"
    PRACTICAL_PENDING = "practical-pending"
    THEORY_OPEN = "theory-open"
    LAPSED = "lapsed"
    SUSPENDED = "suspended"
    PAUSED = "paused"  # all is held, but the machine was not used for too long
    NO_EVIDENCE = "no-evidence"


@dataclass(frozen=True, slots=True, kw_only=True)
class Reason:
    """Why, in words, with the numbers of the entries that say so."""

    sentence: Sentence
    entries: tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One of the conditions: met or not, why, what it lacks; when it is due, until when it holds, when to warn.

    ``policy`` is that by which theory is held.
    """

    met: bool
    reasons: tuple[Reason, ...] = ()
    lacks: tuple[Sentence, ...] = ()
    until: date | None = None
    lasts: date | None = None
    warn: date | None = None
    word: StandingWord = StandingWord.NO_EVIDENCE  # the standing when this part is what is missing
    policy: Policy | None = None


PASSED = {
    "induction": mark("Passed the induction on {day}; good until {until}."),
    "refresher": mark("Passed the refresher on {day}; good until {until}."),
    "prior": mark("Training from elsewhere, of {day}, was accepted; good until {until}."),
}
OVER = {
    "induction": mark("Passed the induction on {day}; it lapsed after {until}."),
    "refresher": mark("Passed the refresher on {day}; it lapsed after {until}."),
    "prior": mark("Training from elsewhere, of {day}, was accepted; it lapsed after {until}."),
}


YOUNG = {
    "under-18": mark("Under 18 when the shorter time ends, so the shorter time counts."),
    "turns-18": mark("18 before the shorter time ends, so the whole time counts."),
    "unknown": mark("No date of birth is on file, so the shorter time, that of people under 18, counts."),
}


def gone(known: Sequence[Fact], on: date) -> Part | None:
    """Return the part that ends it all for somebody who had left before the day; the last day itself still counts.

    ``known`` are facts up to that day.
    """
    moves = [
        fact
        for fact in known
        if fact.kind is EntryKind.EVENT
        and (fact.body["event"] == "left" or (fact.body["event"] == "returned" and fact.trusted))
    ]
    if not moves or moves[-1].body["event"] == "returned" or on <= _last_day(moves[-1]):
        return None
    last = moves[-1]
    told = say("Left; the last day was {day}.", day=_last_day(last).isoformat())
    return Part(met=False, reasons=(Reason(sentence=told, entries=last.numbers),))


def _last_day(fact: Fact) -> date:
    return date.fromisoformat(fact.body.get("last_day", fact.on.isoformat()))


def returned(known: Sequence[Fact]) -> Place:
    """Return the place in the order of things from which results count: after the newest return, else the start."""
    places = [place(fact) for fact in known if fact.kind is EntryKind.EVENT and fact.body["event"] == "returned"]
    return max(places, default=BEGINNING)


def _after(fact: Fact, other: Fact) -> bool:
    """Say whether a fact came after another; one whose day is in doubt did, when it was recorded later."""
    return place(fact) > place(other) or (not fact.trusted and fact.number > other.number)


def against(fact: Fact) -> bool:
    """Say whether a fact speaks against a person; such a one counts even while its day is in doubt."""
    failed = fact.kind is EntryKind.PRACTICAL_SIGNED and fact.body["result"] != "passed"
    return failed or (fact.kind is EntryKind.EVENT and fact.body["event"] == "machine-changed")


def theory(counted: Sequence[Fact], rules: Rules, on: date, since: Place) -> Part:
    """Judge theory: the induction passed, then whatever was passed since, each by the policy of its own day."""
    if not rules.programmes:
        return Part(met=False, lacks=(say("No programme covers this role at this kind of machine."),))
    fresh = best_pass(counted, rules, since)
    held = fresh or best_pass(counted, rules)
    if held is None:
        return _no_theory(counted, rules)
    due, numbers, how = held.good.due, held.fact.numbers, _how(held.fact, rules)
    told = {"day": anchor(held.fact).isoformat(), "until": due.isoformat()}
    if fresh and on <= held.good.lasts:
        reasons = (Reason(sentence=say(PASSED[how], **told), entries=numbers), *_beside(held, on))
        word, warn = StandingWord.AUTHORISED, due - timedelta(days=held.good.policy.warn_days)
        return Part(
            met=True,
            word=word,
            reasons=reasons,
            until=due,
            lasts=held.good.lasts,
            warn=warn,
            policy=held.good.policy,
        )
    lapsed = Reason(sentence=say(OVER[how] if fresh else PASSED[how], **told), entries=numbers)
    away = () if fresh else (say("Was away since; what was passed before has to be renewed."),)
    lacks = (*away, say("The refresher has to be passed."))
    return Part(met=False, word=StandingWord.LAPSED, reasons=(lapsed, *_beside(held, on)), lacks=lacks, until=due)


def _beside(held: Held, on: date) -> tuple[Reason, ...]:
    """Return what else has to be known about a due day: counted from an older anchor, for young people, in its grace."""
    good, told = held.good, []
    if good.anchor != anchor(held.fact):
        told.append(
            say("Renewed within the time for it, so it is still counted from {day}.", day=good.anchor.isoformat())
        )
    if good.policy.young:
        told.append(say(YOUNG[good.policy.young]))
    if good.due < on <= good.lasts:
        told.append(say("The policy lets work go on until {day} while it is renewed.", day=good.lasts.isoformat()))
    return tuple(Reason(sentence=sentence, entries=held.fact.numbers) for sentence in told)


def _how(fact: Fact, rules: Rules) -> str:
    if fact.kind is EntryKind.PRIOR_ACCEPTED:
        return "prior"
    return "induction" if first_time(fact, rules) else "refresher"


def _no_theory(counted: Sequence[Fact], rules: Rules) -> Part:
    lacks = (say("The induction has to be passed."),)
    told = (
        (
            EntryKind.SITTING_MARKED,
            mark("Sat a paper on {day}; the induction is not passed."),
            StandingWord.THEORY_OPEN,
        ),
        (EntryKind.ASSIGNED, mark("The programme was assigned on {day}."), StandingWord.THEORY_OPEN),
        (EntryKind.ATTENDED, mark("Attended on {day}; attending authorises nobody."), StandingWord.ATTENDED),
    )
    for kind, text, word in told:
        newest = next((fact for fact in reversed(counted) if fact.kind is kind and concerns(fact, rules)), None)
        if newest is not None:
            reason = Reason(sentence=say(text, day=newest.on.isoformat()), entries=newest.numbers)
            return Part(met=False, word=word, reasons=(reason,), lacks=lacks)
    return Part(met=False, word=StandingWord.NO_EVIDENCE, lacks=lacks)


def concerns(fact: Fact, rules: Rules) -> bool:
    """Say whether a fact bears on a role at a machine: by its machine, its programme, or, naming neither, on all."""
    machine, programme, role = (fact.body.get(name) for name in ("machine", "programme", "role"))
    if programme is not None and programme not in rules.programmes:
        return False
    return machine in {None, rules.machine} and role in {None, rules.role}


def practical(counted: Sequence[Fact], rules: Rules, since: Place) -> Part:
    """Judge practice: the newest practical at that machine in that role, and whether the machine changed since."""
    shown = [
        fact
        for fact in counted
        if fact.kind is EntryKind.PRACTICAL_SIGNED
        and fact.body["machine"] == rules.machine
        and fact.body["role"] == rules.role
    ]
    pending = StandingWord.PRACTICAL_PENDING
    if not shown:
        return Part(met=False, word=pending, lacks=(say("Has to be shown at the machine and signed off."),))
    last = max(shown, key=place)
    last = next((fact for fact in reversed(shown) if _after(fact, last)), last)
    day = last.on.isoformat()
    if last.body["result"] != "passed":
        reason = Reason(
            sentence=say("Was watched at the machine on {day} and did not pass.", day=day), entries=last.numbers
        )
        lacks = (say("Works there only while an entitled person stands by, until it is shown and signed off."),)
        return Part(met=False, word=StandingWord.SUPERVISED, reasons=(reason,), lacks=lacks)
    reason = Reason(sentence=say("Shown at the machine on {day} and signed off.", day=day), entries=last.numbers)
    again = _changed_since(counted, rules, last) or _away_since(last, since)
    if again is not None:
        return Part(met=False, word=pending, reasons=(reason, *again.reasons), lacks=again.lacks)
    return Part(met=True, reasons=(reason,))


def _changed_since(counted: Sequence[Fact], rules: Rules, shown: Fact) -> Part | None:
    changes = [
        fact
        for fact in counted
        if fact.kind is EntryKind.EVENT
        and fact.body["event"] == "machine-changed"
        and fact.body.get("machine") == rules.machine
        and _after(fact, shown)
    ]
    if not changes:
        return None
    told = say("The machine was changed on {day}.", day=changes[-1].on.isoformat())
    lacks = (say("Has to be shown at the machine again, as it is now."),)
    return Part(met=False, reasons=(Reason(sentence=told, entries=changes[-1].numbers),), lacks=lacks)


def _away_since(shown: Fact, since: Place) -> Part | None:
    if place(shown) > since:
        return None
    return Part(met=False, lacks=(say("Was away since; has to be shown at the machine again."),))


def suspended(known: Sequence[Fact], rules: Rules) -> Part:
    """Judge suspensions: none that covers the machine and was not ended. Met means: nothing holds the person back."""
    held = [fact for fact in unended(known) if fact.body.get("machine") in {None, rules.machine}]
    reasons = tuple(
        Reason(
            sentence=say("Suspended on {day}: {reason}", day=fact.on.isoformat(), reason=fact.body["reason"]),
            entries=fact.numbers,
        )
        for fact in held
    )
    lacks = (say("Has to be reinstated."),) if held else ()
    return Part(met=not held, word=StandingWord.SUSPENDED, reasons=reasons, lacks=lacks)


def unended(known: Sequence[Fact]) -> list[Fact]:
    """Return the suspensions among a person's facts that no later reinstatement has ended."""
    ends = [fact for fact in known if fact.kind is EntryKind.REINSTATED and fact.trusted]
    return [
        fact
        for fact in known
        if fact.kind is EntryKind.SUSPENDED
        and not any(end.body["suspension"] in fact.numbers and place(end) > place(fact) for end in ends)
    ]


def entitled_by(fact: Fact) -> frozenset[int]:
    """Return the entries that gave the right to sign a practical; nothing for other facts."""
    return frozenset({fact.body["entitlement"]}) if fact.kind is EntryKind.PRACTICAL_SIGNED else frozenset()


def doubts(known: Sequence[Fact], rules: Rules, voided: frozenset[int]) -> tuple[Reason, ...]:
    """Return why something that looks like evidence was not counted."""
    evidence = {EntryKind.SITTING_MARKED, EntryKind.PRACTICAL_SIGNED, EntryKind.PRIOR_ACCEPTED}
    told = []
    for fact in known:
        if fact.kind not in evidence or against(fact) or not concerns(fact, rules):
            continue
        day = fact.on.isoformat()
        if not fact.trusted:
            sentence = say("What was recorded for {day} does not count: its day is in doubt.", day=day)
            told.append(Reason(sentence=sentence, entries=fact.numbers))
        elif entitled_by(fact) & voided:
            sentence = say("What was signed on {day} does not count: there was no right to sign it.", day=day)
            told.append(Reason(sentence=sentence, entries=fact.numbers))
    return tuple(told)
