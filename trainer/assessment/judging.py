"""Drills to judge: is it far enough as mounted, which line of a working is wrong, which rule fits a situation.

The numbers and the slips are those of a computed drill. So a wrong choice names the slip behind it, just as a wrong
number would.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from itertools import islice
from random import Random
from types import MappingProxyType

from trainer import units
from trainer.assessment import drills
from trainer.assessment.band import CEILINGS
from trainer.assessment.slip_values import slip_values
from trainer.bank.model import Drill, JudgeDrill, RuleDrill
from trainer.errors import BankError
from trainer.safeguarding.problems import problem
from trainer.safeguarding.result import Step, Worked
from trainer.safeguarding.show import amount
from trainer.wording import Sentence, say

TRIES = 400
MOUNTED, SLIP = "mounted", "slip"  # what is drawn beside the inputs of the base
MACHINE, MEASURED = "machine", "measured"  # of a machine of the shop: which, and the day of its stopping time
NO_LINE = "no-line"
WRONG_WAY = "compares-the-wrong-way"
OFFERED = 4
BESIDE = (-60, -45, -30, -20, -12, 12, 20, 30, 45, 60)  # steps that a mounting stands away from what is needed
SPARE = (5, 8, 12, 15)  # steps that it stands beyond what a slip makes of it


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """One thing to choose. ``slip`` or ``misconception`` is what choosing it shows; ``words`` or ``step`` is what it says."""

    id: str
    right: bool = False
    slip: str = ""
    misconception: str = ""
    words: Sentence | None = None
    step: Step | None = None
    rule: str = ""


def draw(drill: JudgeDrill | RuleDrill, rng: Random) -> Mapping[str, str]:
    """Draw what is to be judged. Raises :class:`BankError` where no draw leaves choices that can be told apart."""
    if isinstance(drill, RuleDrill):
        return MappingProxyType({"situation": rng.choice([one.id for one in drill.situations])})
    for _ in range(TRIES):
        drawn = DRAWING[drill.kind](drill, drills.draw(drill.base, rng), rng)
        if drawn is not None and is_fair(drill, drawn):
            return MappingProxyType(drawn)
    raise BankError(say("Drill {drill} gives nothing to judge in {tries} draws.", drill=drill.id, tries=TRIES))


def choices(drill: Drill, drawn: Mapping[str, str]) -> tuple[Choice, ...]:
    """Return what can be chosen; exactly one is right."""
    if isinstance(drill, RuleDrill):
        situation = drill.situation(drawn["situation"])
        return tuple(Choice(id=name, right=name == situation.right, rule=name) for name in situation.offered)
    if not isinstance(drill, JudgeDrill):
        raise TypeError(f"{drill.id} is not judged")
    return tuple(CHOOSING[drill.kind](drill, drawn))


def right_choice(drill: Drill, drawn: Mapping[str, str]) -> Choice:
    """Return the right one."""
    return next(choice for choice in choices(drill, drawn) if choice.right)


def chosen(drill: Drill, drawn: Mapping[str, str], choice_id: str) -> Choice | None:
    """Return the choice of that id, or None."""
    return next((choice for choice in choices(drill, drawn) if choice.id == choice_id), None)


def numbers(drawn: Mapping[str, str]) -> dict[str, str]:
    """Return the inputs of the base drill that were drawn."""
    return {key: value for key, value in drawn.items() if key not in {MOUNTED, SLIP, MACHINE, MEASURED}}


def working(drill: JudgeDrill, drawn: Mapping[str, str]) -> Worked:
    """Return the right working of what is judged."""
    return drills.worked(drill.base, numbers(drawn))


def shown_working(drill: JudgeDrill, drawn: Mapping[str, str]) -> Worked:
    """Return the working that is shown: with the slip that was drawn, or the right one where none was."""
    inputs, slip = numbers(drawn), drawn.get(SLIP, "")
    sum_ = problem(drill.base.problem)
    wrong = sum_.wrong(sum_.read(inputs), slip, unit=drill.base.unit) if slip else None
    return wrong or working(drill, drawn)


def is_fair(drill: JudgeDrill, drawn: Mapping[str, str]) -> bool:
    """Say whether a draw leaves choices that can be told apart, of which one is right."""
    return _fair(choices(drill, drawn), drill)


def _fair(found: tuple[Choice, ...], drill: JudgeDrill) -> bool:
    least = OFFERED if drill.kind == "mounted" else 3
    return len(found) >= least and sum(choice.right for choice in found) == 1


def _draw_mounted(drill: JudgeDrill, drawn: Mapping[str, str], rng: Random) -> dict[str, str] | None:
    known = _values(drill, drawn)
    if known is None:
        return None
    right, slips = known
    step = problem(drill.base.problem).answer.grid[drill.base.unit]
    short = [value for value in slips.values() if value < right]
    if short and rng.random() < 1 / 2:  # as somebody would have mounted it who made that slip
        number = rng.choice(short) + rng.choice(SPARE) * step
    else:
        number = right + rng.choice(BESIDE) * step
    if number <= 0 or number == right:
        return None
    return {**drawn, MOUNTED: f"{units.digits(number, 3)} {drill.base.unit}"}


def _mounted(drill: JudgeDrill, drawn: Mapping[str, str]) -> Iterator[Choice]:
    """Give the right gap, the same gap the wrong way round, and the gaps that two slips lead to."""
    known = _values(drill, numbers(drawn))
    if known is None:
        return
    right, slips = known
    stands = units.magnitude(units.parse(drawn[MOUNTED], "length"), drill.base.unit)
    step = problem(drill.base.problem).answer.grid[drill.base.unit]
    if stands == right:  # there is no gap to choose
        return
    yield _gap(stands - right, drill, right=True)
    taken = {stands - right, right - stands}
    yield _gap(right - stands, drill, misconception=WRONG_WAY)
    turn = int(stands) % len(slips) if slips else 0  # so that each slip comes up
    for code, value in (*islice(slips.items(), turn, None), *islice(slips.items(), turn)):
        gap = stands - value
        if gap != 0 and all(abs(gap - one) >= 3 * step for one in taken) and len(taken) < OFFERED:
            taken.add(gap)
            yield _gap(gap, drill, slip=code)


def _gap(gap: Fraction, drill: JudgeDrill, **kept: object) -> Choice:
    shown = amount(abs(gap), drill.base.unit, 3)
    spare = gap > 0
    words = say("Yes. It stands {gap} further out than it must.", gap=shown)
    if not spare:
        words = say("No. It stands {gap} too close.", gap=shown)
    return Choice(id=f"{'spare' if spare else 'short'}-{units.digits(abs(gap), 3)}", words=words, **kept)  # type: ignore[arg-type]


def _values(drill: JudgeDrill, drawn: Mapping[str, str]) -> tuple[Fraction, dict[str, Fraction]] | None:
    """Return what is needed and what each slip makes of it, rounded as it would be built."""
    base = drill.base
    known = slip_values(problem(base.problem), drills.given(base, drawn).numbers, base.unit, drill.slips)
    if known.right is None or drills.worked(base, drawn).sense in CEILINGS:
        return None
    return known.right.rounded, {codes[0]: figure.rounded for codes, figure in known.singles}


def _draw_error(drill: JudgeDrill, drawn: Mapping[str, str], rng: Random) -> dict[str, str]:
    return {**drawn, SLIP: rng.choice((*drill.slips, ""))}


def _lines(drill: JudgeDrill, drawn: Mapping[str, str]) -> Iterator[Choice]:
    """Give each line of the working that is shown, and that none is wrong; nothing where the slip shows in no line."""
    slip, right = drawn.get(SLIP, ""), working(drill, drawn)
    lines = shown_working(drill, drawn).steps
    wrong = next((number for number, step in enumerate(lines) if not _same(step, right)), None)
    if bool(slip) is not (wrong is not None):
        return
    for number, step in enumerate(lines):
        yield Choice(id=f"line-{number + 1}", right=number == wrong, step=step)
    yield Choice(id=NO_LINE, right=wrong is None, slip=slip, words=say("No line is wrong."))


def _same(step: Step, right: Worked) -> bool:
    return any(
        (step.symbol, step.formula, step.substituted, step.shown)
        == (other.symbol, other.formula, other.substituted, other.shown)
        for other in right.steps
    )


DRAWING: Mapping[str, Callable[[JudgeDrill, Mapping[str, str], Random], dict[str, str] | None]] = {
    "mounted": _draw_mounted,
    "find-error": _draw_error,
}
CHOOSING: Mapping[str, Callable[[JudgeDrill, Mapping[str, str]], Iterator[Choice]]] = {
    "mounted": _mounted,
    "find-error": _lines,
}
