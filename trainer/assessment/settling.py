"""How many more right answers would settle a competency.

A run of right answers adds to the posterior of :mod:`trainer.assessment.mastery`; what is asked is how long it has to
be until the competency is *shown*. Answers that can be guessed count for less, so it takes more of them.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from trainer.assessment import beta
from trainer.assessment.mastery import SHOWN, Evidence, credit, posterior
from trainer.wording import Sentence, say

MOST = 200  # a run that is longer is no advice


@dataclass(frozen=True, slots=True, kw_only=True)
class Settling:
    """``more`` right answers in a row settle it, all on one day; None where no run of reasonable length would."""

    competency: str
    more: int | None
    note: Sentence


def settling(competency: str, evidence: Iterable[Evidence], on: date, *, level: float, guess: float = 0.0) -> Settling:
    """Say what it takes on a day to show a competency with answers that are guessed rightly with chance ``guess``."""
    known = [entry for entry in evidence if entry.competency == competency and entry.on <= on]
    more = more_right(posterior(known, on), level, guess=guess)
    return Settling(competency=competency, more=more, note=_note(more))


def more_right(held: tuple[float, float], level: float, *, guess: float = 0.0, sure: float = SHOWN) -> int | None:
    """Return the least number of right answers that lifts the chance of θ > ``level`` to ``sure``; None beyond MOST."""
    a, b = held
    step = credit(guess, right=True)
    if beta.above(level, a + MOST * step, b) < sure:
        return None
    few, enough = -1, MOST  # few is too few, enough is enough
    while enough - few > 1:
        middle = (few + enough) // 2
        few, enough = (few, middle) if beta.above(level, a + middle * step, b) >= sure else (middle, enough)
    return enough


def _note(more: int | None) -> Sentence:
    if more is None:
        return say("Questions alone will not settle this soon. Watch it done at the machine.")
    if more == 0:
        return say("It is settled: no more answers are needed.")
    if more == 1:
        return say("One more right answer settles it.")
    return say("{count} more right answers in a row settle it.", count=more)
