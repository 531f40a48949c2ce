"""The rule of standing: facts in, standing out. Pure; no database, no clock.

Authorised is only who has passed the induction, has nothing lapsed, was seen at that very machine by somebody
entitled to judge it, is not suspended, and has used it lately enough where a policy asks for that. What is unknown, in doubt or still to come authorises nobody.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date

from trainer.bank import Bank
from trainer.records.conditions import (
    Part,
    Reason,
    StandingWord,
    against,
    doubts,
    entitled_by,
    gone,
    practical,
    returned,
    suspended,
    theory,
)
from trainer.records.effects import Fact
from trainer.records.renewals import Rules
from trainer.records.use import in_use
from trainer.wording import Sentence

__all__ = ["MAY_RUN", "Reason", "Rules", "Standing", "StandingWord", "judge", "rules_for"]

MAY_RUN = frozenset({StandingWord.AUTHORISED, StandingWord.REFRESH_DUE})
NOTHING_PASSED = frozenset({StandingWord.NO_EVIDENCE, StandingWord.ATTENDED})


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """Where a person stands for a machine and a role on a day.

    ``may_run`` is true only for the two words that authorise. ``lacks`` says what is missing, ``holds_until`` the last
    day on which it holds as things are, ``due_on`` when the theory has to be renewed, also when that has passed.
    ``supervisors`` are the keys of those who may stand by, for whoever works supervised only.
    """

    person: str
    machine: str
    role: str
    word: StandingWord
    may_run: bool
    reasons: tuple[Reason, ...]
    lacks: tuple[Sentence, ...]
    holds_until: date | None
    due_on: date | None
    supervisors: tuple[str, ...] = ()


def rules_for(bank: Bank, machine: str, machine_kind: str, role: str) -> Rules:
    """Return what the bank asks of a role at a machine."""
    programmes = {
        programme.id: programme.kind
        for programme in bank.programmes.values()
        if programme.kind.renews
        and programme.role.value == role
        and machine_kind in {kind.value for kind in programme.machine_kinds}
    }
    return Rules(machine=machine, machine_kind=machine_kind, role=role, programmes=programmes)


def judge(
    person: str, facts: Iterable[Fact], rules: Rules, *, on: date, voided: frozenset[int] = frozenset()
) -> Standing:
    """Return where a person stands at the end of a day.

    ``facts`` are all that is known about the person, in the order in which it happened, ``voided`` the entries on
    anybody's chain that a correction has withdrawn: a practical signed under a right that never was does not count.
    """
    known = [fact for fact in facts if fact.on <= on]
    over = gone(known, on)
    if over is not None:
        return _told(person, rules, over)
    since = returned(known)
    doubtful = doubts(known, rules, voided)
    counted = [fact for fact in known if against(fact) or (fact.trusted and not entitled_by(fact) & voided)]
    learned = theory(counted, rules, on, since)
    shown = practical(counted, rules, since)
    if shown.reasons and rules.programmes and learned.word in NOTHING_PASSED:
        learned = replace(learned, word=StandingWord.THEORY_OPEN)
    held = suspended(known, rules)
    used = in_use(counted, rules, learned.policy, on) if shown.met else Part(met=True)
    for part in (held, learned, shown, used):
        if not part.met:
            return _told(person, rules, part, beside=(held, learned, shown, used), doubtful=doubtful)
    soon = learned.warn is not None and on >= learned.warn
    word = StandingWord.REFRESH_DUE if soon else StandingWord.AUTHORISED
    lasts = min((day for day in (learned.lasts, used.lasts) if day is not None), default=None)
    reasons = learned.reasons + shown.reasons + used.reasons
    good = Part(met=True, word=word, reasons=reasons, until=learned.until, lasts=lasts)
    return _told(person, rules, good, doubtful=doubtful)


def _told(
    person: str, rules: Rules, part: Part, *, beside: Sequence[Part] = (), doubtful: tuple[Reason, ...] = ()
) -> Standing:
    parts = beside or (part,)
    may_run = part.met and part.word in MAY_RUN
    return Standing(
        person=person,
        machine=rules.machine,
        role=rules.role,
        word=part.word,
        may_run=may_run,
        reasons=tuple(reason for each in parts for reason in each.reasons) + doubtful,
        lacks=tuple(sentence for each in parts for sentence in each.lacks),
        holds_until=part.lasts if may_run else None,
        due_on=next((each.until for each in parts if each.until is not None), None),
    )
