"""Mastery with its uncertainty: from a person's answers to how likely it is that a competency is there.

``θ`` is how often the person would decide rightly. It starts as Beta(1, 1): nothing known. Each piece of evidence
adds a fraction to one side:

* A right answer counts as ``(1 − s) / ((1 − s) + g)``, a wrong one as ``(1 − g) / ((1 − g) + s)``. ``g`` is the chance
  to guess it (one in the number of options, 0 for a number to be worked out) and ``s`` = 0.1 the chance to slip though
  one knows. These are the chances that the person knew it, or did not, after an even start: Bayes' rule of knowledge
  tracing (Corbett & Anderson 1995, UMUAI 4:253-278; s at most 0.1 in practice).
* It fades by half in 6.5 months, the time after which half of what training gained in accuracy is gone without use
  (Tatel & Ackerman 2025, Psychological Bulletin, doi 10.1037/bul0000481). That it fades exponentially is our assumption.
* What was seen at the machine counts twice (our judgement).

A competency is *shown* when it is at its level with 9 chances in 10, a *gap* with 1 in 10 or fewer.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from trainer.assessment import beta
from trainer.bank.model import Competency

PRIOR = (1.0, 1.0)
SLIP = 0.1
HALF_LIFE = 6.5 * 365.25 / 12  # days
SEEN = 2.0
SHOWN, GAP = 0.9, 0.1
LOW, MEDIAN, HIGH = 0.1, 0.5, 0.9  # the ends of the 80 % interval, and its middle


class State(StrEnum):
    """What can be said of a competency."""

    GAP = "gap"
    NO_EVIDENCE = "no-evidence"
    NOT_SETTLED = "not-settled"
    SHOWN = "shown"


ORDER = tuple(State)


@dataclass(frozen=True, slots=True, kw_only=True)
class Evidence:
    """One answer, or one step seen at the machine. ``guess`` is the chance to be right without knowing."""

    competency: str
    right: bool
    guess: float
    on: date
    observed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Gap:
    """What the evidence says of one competency.

    ``low`` to ``high`` hold θ in 8 cases of 10; ``chance`` is that of θ being above ``level``. ``answers`` counts all
    pieces of evidence, ``seen`` those at the machine.
    """

    competency: str
    state: State
    low: float
    median: float
    high: float
    chance: float
    level: float
    answers: int
    seen: int
    newest: date | None


def gaps(competencies: Iterable[Competency], evidence: Iterable[Evidence], on: date) -> tuple[Gap, ...]:
    """Judge each competency from what was known on a day: the gaps first, then what nothing is known of; weakest first."""
    known: dict[str, list[Evidence]] = {}
    for entry in evidence:
        if entry.on <= on:
            known.setdefault(entry.competency, []).append(entry)
    found = [_gap(one, known.get(one.id, []), on) for one in competencies]
    return tuple(sorted(found, key=lambda gap: (ORDER.index(gap.state), gap.chance)))


def posterior(evidence: Iterable[Evidence], on: date) -> tuple[float, float]:
    """Return the two parameters of the beta distribution of θ on a day."""
    a, b = PRIOR
    for entry in evidence:
        if entry.right:
            a += _weight(entry, on)
        else:
            b += _weight(entry, on)
    return a, b


def _weight(entry: Evidence, on: date) -> float:
    fresh: float = 0.5 ** ((on - entry.on).days / HALF_LIFE)
    return credit(entry.guess, right=entry.right) * fresh * (SEEN if entry.observed else 1.0)


def credit(guess: float, *, right: bool, slip: float = SLIP) -> float:
    """Return for how much an answer counts that is guessed rightly with chance ``guess``."""
    return (1 - slip) / (1 - slip + guess) if right else (1 - guess) / (1 - guess + slip)


def _gap(competency: Competency, evidence: list[Evidence], on: date) -> Gap:
    a, b = posterior(evidence, on)
    chance = beta.above(competency.level, a, b)
    return Gap(
        competency=competency.id,
        state=_state(chance) if evidence else State.NO_EVIDENCE,
        low=beta.quantile(LOW, a, b),
        median=beta.quantile(MEDIAN, a, b),
        high=beta.quantile(HIGH, a, b),
        chance=chance,
        level=competency.level,
        answers=len(evidence),
        seen=sum(entry.observed for entry in evidence),
        newest=max((entry.on for entry in evidence), default=None),
    )


def _state(chance: float) -> State:
    if chance >= SHOWN:
        return State.SHOWN
    return State.GAP if chance <= GAP else State.NOT_SETTLED
