"""Each setting of a “pick a safeguard” drill has facts that the rules know, and a right answer among those offered."""

from collections.abc import Iterator
from typing import Any, ClassVar

from trainer.bank.draft import Draft
from trainer.bank.model import SelectDrill, Setting
from trainer.errors import UsageError
from trainer.findings import Finding
from trainer.safeguarding.selection import SAFEGUARDS, select

NONE = "none"  # what is offered beside the safeguards: do not run this job here


class BadFacts(Finding):
    """A fact that the selection rules do not know, or a value that it cannot have."""

    code: ClassVar[str] = "bad-facts"
    title: ClassVar[str] = "The facts cannot be judged."
    fix: ClassVar[str] = "Take facts and values of the selection rules."


class UnknownSafeguard(Finding):
    """A safeguard that the selection rules do not know."""

    code: ClassVar[str] = "unknown-safeguard"
    title: ClassVar[str] = "There is no such safeguard."
    fix: ClassVar[str] = "Take a code of the selection rules, or none."


class UnknownTemptation(Finding):
    """A tempting answer that is not offered, or a misconception that the bank does not have."""

    code: ClassVar[str] = "unknown-temptation"
    title: ClassVar[str] = "What is tempting is not there."
    fix: ClassVar[str] = "Name a safeguard that is offered and a misconception of misconceptions.yaml."


class NoRightAnswer(Finding):
    """A setting in which no answer that is offered is right."""

    code: ClassVar[str] = "no-right-answer"
    title: ClassVar[str] = "No answer that is offered is right."
    fix: ClassVar[str] = "Offer a safeguard that may be used, or none where nothing may be used."


finds = (BadFacts, UnknownSafeguard, UnknownTemptation, NoRightAnswer)


def check(draft: Draft) -> Iterator[Finding]:
    """Judge each setting by the rules."""
    for drill in draft.bank.drills.values():
        for number, setting in enumerate(drill.settings if isinstance(drill, SelectDrill) else ()):
            yield from _setting(draft, drill, number, setting)


def _setting(draft: Draft, drill: Any, number: int, setting: Setting) -> Iterator[Finding]:
    path = ("settings", number)
    for code in setting.offered:
        if code not in SAFEGUARDS and code != NONE:
            yield draft.at(UnknownSafeguard, drill.id, *path, "offered", note=f"There is no safeguard {code}.")
    for code, name in setting.tempting.items():
        if code not in setting.offered or not draft.knows(name, draft.bank.misconceptions):
            yield draft.at(UnknownTemptation, drill.id, *path, "tempting", note=f"“{code}: {name}” leads nowhere.")
    try:
        found = select(drill.facts_of(setting.id), drill.rule_set)
    except UsageError as error:
        yield draft.at(BadFacts, drill.id, *path, "facts", note=str(error))
        return
    usable = [code for code in setting.offered if code in SAFEGUARDS and found.verdicts[code].usable]
    if not usable and NONE not in setting.offered:
        note = f"In {setting.id} nothing that is offered may be used."
        yield draft.at(NoRightAnswer, drill.id, *path, "offered", note=note)
