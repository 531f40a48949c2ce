"""The drills look at themselves: every draw computes, every slip can be told apart, every setting has a key.

A range of up to :data:`WHOLE` draws is looked at draw by draw. Of a larger one an even share is taken, always with
both ends of each input; the note then says how many draws were looked at.
"""

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from itertools import product
from math import ceil, gcd
from random import Random

from trainer.assessment import drills, judging
from trainer.assessment.drills import RIGHT, Clash
from trainer.assessment.findings import (
    ManyRefused,
    NeverDrawn,
    NoDraw,
    RefusedInput,
    SlipNeverApplies,
    SlipNeverTold,
    TemptingRight,
    UnfairSetting,
)
from trainer.assessment.selecting import Worth, key_of
from trainer.assessment.slip_values import slip_values
from trainer.bank import Bank
from trainer.bank.model import ComputeDrill, JudgeDrill, SelectDrill
from trainer.errors import BankError, UsageError
from trainer.findings import Finding
from trainer.safeguarding.problems import problem
from trainer.safeguarding.selection import select
from trainer.safeguarding.selection.drill import faults

WHOLE = 600
MANY = Fraction(1, 2)
DRAWS = 120


@dataclass(slots=True)
class Seen:
    """What a walk over a drill's range saw."""

    looked: int = 0
    refused: int = 0
    bad: str = ""
    drawn: set[tuple[str, str]] = field(default_factory=set)
    told: set[str] = field(default_factory=set)
    applied: set[str] = field(default_factory=set)
    clashes: Counter[Clash] = field(default_factory=Counter)


def self_check(bank: Bank) -> Iterator[Finding]:
    """Look at every drill of a bank."""
    for drill in bank.drills.values():
        if isinstance(drill, ComputeDrill):
            yield from check_numbers(drill)
        elif isinstance(drill, SelectDrill):
            yield from check_settings(drill)
        elif isinstance(drill, JudgeDrill):
            yield from check_judged(drill)


def check_numbers(drill: ComputeDrill) -> Iterator[Finding]:
    """Look at a drill that asks for a number, over its range."""
    seen = _walk(drill)
    looked = f"{seen.looked} of {drills.size(drill)} draws looked at"
    if seen.bad:
        yield RefusedInput(key=drill.id, note=seen.bad)
    for code in drill.slips:
        if code not in seen.applied:
            yield SlipNeverApplies(key=f"{drill.id} slips {code}", note=f"{code} changes nothing; {looked}.")
        elif code not in seen.told:
            yield SlipNeverTold(key=f"{drill.id} slips {code}", note=f"{code} {_confused(code, seen)}; {looked}.")
    if seen.refused == seen.looked:
        yield NoDraw(key=drill.id, note=f"All are refused; {looked}.")
        return
    yield from _never_drawn(drill, seen, looked)
    if Fraction(seen.refused, seen.looked) > MANY:
        yield ManyRefused(key=drill.id, note=f"{seen.refused} are refused; {looked}. Most often {_commonest(seen)}.")


def check_settings(drill: SelectDrill) -> Iterator[Finding]:
    """Look at a drill that asks for a safeguard, setting by setting."""
    for setting in drill.settings:
        key, place = key_of(drill, setting.id), f"{drill.id} {setting.id}"
        selection = select(drill.facts_of(setting.id), drill.rule_set)
        for fault in faults(selection, setting.offered):
            yield UnfairSetting(key=place, note=str(fault))
        for code in setting.tempting:
            if key.worth.get(code) is not Worth.WRONG:
                yield TemptingRight(key=f"{place} tempting {code}")


def check_judged(drill: JudgeDrill) -> Iterator[Finding]:
    """Draw a judged drill :data:`DRAWS` times: each of its slips has to be among what can be chosen or is shown."""
    rng, seen = Random(drill.id), set[str]()  # noqa: S311  (the same look each time)
    for _ in range(DRAWS):
        try:
            drawn = judging.draw(drill, rng)
        except BankError as error:
            yield NoDraw(key=drill.id, note=str(error))
            return
        seen |= {drawn.get(judging.SLIP, ""), *(choice.slip for choice in judging.choices(drill, drawn))}
    for code in drill.slips:
        if code not in seen:
            yield SlipNeverApplies(key=f"{drill.id} slips {code}", note=f"{code} came up in none of {DRAWS} draws.")


def sample(drill: ComputeDrill, most: int = WHOLE) -> Iterator[Mapping[str, str]]:
    """Give every draw of a range of up to ``most``; of a larger one about so many, evenly, after each corner of it."""
    whole = drills.size(drill)
    step = ceil(whole / most)
    if step > 1:
        ranges = {key: entry.values() for key, entry in drill.inputs.items()}
        ends = (dict.fromkeys((values[0], values[-1])) for values in ranges.values())
        for corner in product(*ends):
            yield dict(zip(ranges, corner, strict=True))
        while any(gcd(len(values), step) > 1 for values in ranges.values()):
            step += 1  # a stride that falls in step with an input would pass over some of its values
    for number, drawn in enumerate(drills.sweep(drill)):
        if number % step == 0:
            yield drawn


def _walk(drill: ComputeDrill) -> Seen:
    seen = Seen()
    for drawn in sample(drill):
        seen.looked += 1
        try:
            found = list(drills.clashes(drill, drawn))
            applied = _applied(drill, drawn)
        except UsageError as error:
            seen.bad = seen.bad or f"{drawn}: {error}"
            seen.refused += 1
            continue
        if Clash(RIGHT, RIGHT) in found and not applied:
            seen.bad = seen.bad or _without_figure(drill, drawn)
        seen.applied |= applied
        if Clash(RIGHT, RIGHT) not in found:
            seen.told |= applied - {name for clash in found for name in (clash.code, clash.other)}
        seen.clashes.update(found)
        seen.refused += bool(found)
        if not found:
            seen.drawn.update(drawn.items())
    return seen


def _applied(drill: ComputeDrill, drawn: Mapping[str, str]) -> set[str]:
    sum_, numbers = problem(drill.problem), drills.given(drill, drawn).numbers
    known = slip_values(sum_, numbers, drill.unit, drill.slips)
    return set() if known.right is None else {codes[0] for codes, _figure in known.singles}


def _without_figure(drill: ComputeDrill, drawn: Mapping[str, str]) -> str:
    worked = drills.worked(drill, drawn)
    return f"{drawn}: {worked.refusal}" if worked.value is None else ""


def _confused(code: str, seen: Seen) -> str:
    pairs = [clash for clash in seen.clashes if code in (clash.code, clash.other)]
    others = sorted({name for clash in pairs for name in (clash.code, clash.other)} - {code})
    return f"cannot be told from {', '.join(others)}"


def _commonest(seen: Seen) -> str:
    clash, count = seen.clashes.most_common(1)[0]
    return f"{clash.code} with {clash.other} ({count})"


def _never_drawn(drill: ComputeDrill, seen: Seen, looked: str) -> Iterator[Finding]:
    for key, entry in drill.inputs.items():
        for value in entry.values():
            if (key, value) not in seen.drawn:
                yield NeverDrawn(key=f"{drill.id} inputs {key}", note=f"{key} {value} is in no draw; {looked}.")
