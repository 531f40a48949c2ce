"""The formula that a drill shows: the steps of its working put together, without the step that the drill is about."""

import re
from collections.abc import Mapping

from trainer.safeguarding.result import Step, Worked

INSIDE = frozenset({"T", "D_t"})  # steps that are written into the formula that needs them
ASKED_FOR = frozenset({"O_eff"})  # what blanking does to the curtain is what has to be known
_WORD = re.compile(r"[A-Za-z]+(?:_[A-Za-z0-9]+)?")


def formulas(worked: Worked) -> tuple[str, ...]:
    """Return the formulas to work with, the one for the result first."""
    steps = {step.symbol: step for step in worked.steps}
    shown = [step for step in reversed(worked.steps) if step.symbol not in INSIDE | ASKED_FOR]
    return tuple(f"{step.symbol} = {_whole(step, steps)}" for step in shown)


def _whole(step: Step, steps: Mapping[str, Step]) -> str:
    def put(match: re.Match[str]) -> str:
        inner = steps.get(match[0])
        if inner is None or match[0] not in INSIDE:
            return match[0]
        text = _whole(inner, steps)
        return f"({text})" if "+" in text and "×" in step.formula else text

    return _WORD.sub(put, step.formula)
