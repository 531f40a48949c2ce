"""A person's evidence for one competency as ticks on a line of time."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from trainer.assessment.mastery import Evidence
from trainer.web.words import _, ngettext

WIDTH = 220  # units of the strip's own drawing
EDGE = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class Tick:
    """One piece of evidence: up for right, down for wrong, a block where it was seen at the machine."""

    x: int
    right: bool
    observed: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class TickStrip:
    """Ticks in their order, and the same in words."""

    width: int
    ticks: tuple[Tick, ...]
    text: str


def first_day(evidence: Sequence[Evidence], today: date) -> date:
    """Return where the line of time begins."""
    return min((one.on for one in evidence), default=today)


def tick_strip(evidence: Sequence[Evidence], *, first: date, today: date) -> TickStrip:
    """Place ``evidence`` between ``first`` and ``today``."""
    span = max((today - first).days, 1)
    ticks = tuple(
        Tick(
            x=EDGE + round((WIDTH - 2 * EDGE) * min(max((one.on - first).days, 0), span) / span),
            right=one.right,
            observed=one.observed,
        )
        for one in sorted(evidence, key=lambda one: one.on)
    )
    return TickStrip(width=WIDTH, ticks=ticks, text=_words(evidence))


def _words(evidence: Sequence[Evidence]) -> str:
    if not evidence:
        return _("no evidence")
    right = sum(one.right for one in evidence)
    seen = sum(one.observed for one in evidence)
    return _(
        "%(right)s right, %(wrong)s wrong; %(seen)s",
        right=right,
        wrong=len(evidence) - right,
        seen=ngettext("%(num)s seen at the machine", "%(num)s seen at the machine", seen),
    )


def counted(evidence: Sequence[Evidence]) -> str:
    """Say how much evidence there is: ``7 answers, 1 seen``."""
    seen = sum(one.observed for one in evidence)
    answers = ngettext("%(num)s answer", "%(num)s answers", len(evidence) - seen)
    return _("%(answers)s, %(seen)s seen", answers=answers, seen=seen) if seen else answers


def aged(newest: date, today: date) -> str:
    """Say how old the newest evidence is, in the unit that a person would use."""
    days = (today - newest).days
    if days < 1:
        return _("newest today")
    if days < 60:
        return ngettext("newest %(num)s day ago", "newest %(num)s days ago", days)
    return _("newest %(months)s months ago", months=days // 30)
