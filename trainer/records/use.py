"""Rarely used machines: whoever has not worked at one for so long is paused until they find their way back. Pure.

A programme's policy may say after which time without use (``pause_after``). Use is what somebody else noted at that very
machine: a practical, a shift worked, a pre-start check. What nobody noted did not happen, as far as the record knows, so
unknown use pauses; and who was paused does not come back by working all the same. Back leads: the programme of the way
back passed after the pause began, then a pre-start check noted at the machine; or a new practical.
"""

from collections.abc import Iterable, Sequence
from datetime import date

from trainer.bank.model import ProgrammeKind
from trainer.records.chain import EntryKind
from trainer.records.conditions import Part, Reason, StandingWord
from trainer.records.duedates import Policy
from trainer.records.effects import Fact
from trainer.records.renewals import Rules, place
from trainer.wording import say

USED, CHECKED = "used", "pre-start-check"
NOTED = frozenset({USED, CHECKED})


def in_use(counted: Sequence[Fact], rules: Rules, policy: Policy | None, on: date) -> Part:
    """Judge whether somebody who has shown their work at a machine has used it lately enough.

    ``counted`` are the facts that count, up to the day; ``policy`` the one that the theory is held by, None without.
    ``lasts`` of what is returned is the last day on which it holds without further use.
    """
    shown = _shown(counted, rules)
    if policy is None or not policy.pause_after or shown is None:
        return Part(met=True)
    last, back = _followed(counted, rules, policy, shown)
    until = policy.paused_after(last.on)
    told = {"day": last.on.isoformat(), "until": until.isoformat()}
    if on <= until:
        used = say("Last use of the machine on record: {day}. Without use it pauses after {until}.", **told)
        return Part(met=True, reasons=(Reason(sentence=used, entries=last.numbers),), lasts=until)
    paused = say("Paused: not used since {day}, so it held to {until}.", **told)
    lacks = (
        say("The way back was passed; a pre-start check has to be noted at the machine.")
        if back is not None
        else say("The way back has to be passed, then a pre-start check noted at the machine.")
    )
    reasons = [Reason(sentence=paused, entries=last.numbers)]
    if back is not None:
        reasons.append(
            Reason(sentence=say("Passed the way back on {day}.", day=back.on.isoformat()), entries=back.numbers)
        )
    return Part(met=False, word=StandingWord.PAUSED, reasons=tuple(reasons), lacks=(lacks,))


def _shown(counted: Iterable[Fact], rules: Rules) -> Fact | None:
    """Return the newest practical that was passed there in that role."""
    signed = [
        fact
        for fact in counted
        if fact.kind is EntryKind.PRACTICAL_SIGNED
        and fact.body["result"] == "passed"
        and (fact.body["machine"], fact.body["role"]) == (rules.machine, rules.role)
    ]
    return max(signed, key=place, default=None)


def _followed(counted: Iterable[Fact], rules: Rules, policy: Policy, shown: Fact) -> tuple[Fact, Fact | None]:
    """Follow use since the practical: return the last use that counts, and the way back passed since it paused."""
    last: Fact = shown
    back: Fact | None = None
    for fact in sorted((fact for fact in counted if place(fact) > place(shown)), key=place):
        paused = fact.on > policy.paused_after(last.on)
        if paused and _way_back(fact, rules):
            back = fact
        elif _noted(fact, rules) and (not paused or (back is not None and fact.body["event"] == CHECKED)):
            last, back = fact, None
    return last, back


def _noted(fact: Fact, rules: Rules) -> bool:
    return fact.kind is EntryKind.EVENT and fact.body["event"] in NOTED and fact.body.get("machine") == rules.machine


def _way_back(fact: Fact, rules: Rules) -> bool:
    """Say whether a fact is the programme of the way back, passed; any programme of the role where there is none."""
    if fact.kind is not EntryKind.SITTING_MARKED or fact.body["passed"] is not True:
        return False
    backs = {name for name, kind in rules.programmes.items() if kind is ProgrammeKind.RETURN}
    return (
        fact.body["programme"] in (backs or set(rules.programmes)) and rules.machine_kind in fact.body["machine_kinds"]
    )
