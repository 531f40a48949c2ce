"""Simulated trainees, each with one slip, on many drawn drills: the slip is named first, and no wrong answer is right."""

import sys
import time
from collections import Counter
from collections.abc import Iterator
from random import Random

import pytest
from assessment.made import computed, sheet_of, shipped
from assessment.trainees import HABITS, slipped

from trainer.assessment import drills, slip_values
from trainer.assessment.answers import Answer
from trainer.assessment.marking import Mark, mark

ENOUGH = 0.97
WRITTEN = (*HABITS, "up", "up", "up")  # most people round as they were taught


def say(line: str) -> None:
    sys.stdout.write(line + "\n")


def simulate(draws: int, seed: int) -> dict[tuple[str, str], Counter[str]]:
    """Count, by drill and slip and by habit of writing, what became of the trainees' answers."""
    bank, rng = shipped(), Random(seed)
    figures: dict[tuple[str, str], Counter[str]] = {}
    for number in range(draws):
        drill = computed(bank)[number % len(computed(bank))]
        sheet = sheet_of(drill, drills.draw(drill, rng))
        code, habit = rng.choice(drill.slips), rng.choice(WRITTEN)
        answer = slipped(drill, sheet.drawn, code, habit)
        what = ["no effect"] if answer is None else [*became(mark(bank, sheet, answer), code)]
        for row in ((drill.id, code), ("written", habit)):
            figures.setdefault(row, Counter()).update(what)
    return figures


def became(found: Mark, code: str) -> Iterator[str]:
    first = found.slips[0] if found.slips else None
    yield "answers"
    if found.right:
        yield "called right"
    if first is not None:
        yield "tied" if first.tied else ("named first" if first.codes == (code,) else "another first")


def report(figures: dict[tuple[str, str], Counter[str]]) -> None:
    columns = ("answers", "named first", "another first", "tied", "called right", "no effect")
    say("\n" + " " * 42 + "".join(f"{column:>15}" for column in columns))
    for (drill, code), count in sorted(figures.items()):
        say(f"{drill:8}{code:34}" + "".join(f"{count[column]:15}" for column in columns))


def judge(figures: dict[tuple[str, str], Counter[str]]) -> None:
    report(figures)
    taught = figures["written", "up"]
    total = sum((count for row, count in figures.items() if row[0] == "written"), Counter())
    say(f"named first: {total['named first'] / total['answers']:.4f} of {total['answers']}")
    assert total["called right"] == 0
    assert total["named first"] / total["answers"] >= ENOUGH
    assert taught["named first"] == taught["answers"]  # rounded as taught, each slip is told apart for certain


def test_a_trainee_with_one_slip_hears_of_that_slip_on_1000_drills():
    judge(simulate(1000, seed=1))


@pytest.mark.slow
def test_a_trainee_with_one_slip_hears_of_that_slip_on_10000_drills():
    judge(simulate(10_000, seed=2))


def bare(times: tuple[float, ...], seen: float) -> float:
    return 1600.2 * sum(times) + max(0.0, 3.4 * (seen - 7.0104))


def timed(bank, cases) -> float:
    """Seconds for one answer."""
    began = time.perf_counter()
    for sheet, value in cases:
        mark(bank, sheet, Answer(item=sheet.item, value=value))
    return (time.perf_counter() - began) / len(cases)


def answers(bank, drill, rng) -> dict[str, list]:
    """Sheets with an answer each: right, with one slip, one that nothing explains, and three, one and one of these."""
    sheets = [sheet_of(drill, drills.draw(drill, rng)) for _ in range(300)]
    right = [(sheet, f"{float(drills.band_of(drill, sheet.drawn).needed):g} mm") for sheet in sheets]
    slips = [(sheet, slipped(drill, sheet.drawn, rng.choice(drill.slips))) for sheet in sheets]
    one = [(sheet, answer.value) for sheet, answer in slips if answer is not None]
    strange = [(sheet, f"{rng.randrange(60, 300)}.37 mm") for sheet in sheets]
    mixed = [case for five in zip(right, right, right, one, strange, strict=False) for case in five]
    return {"right": right, "one slip": one, "unexplained, pairs looked at": strange, "three, one and one": mixed}


@pytest.mark.slow
def test_the_time_of_marking_beside_the_bare_arithmetic_is_printed():
    bank, rng = shipped(), Random(3)
    began = time.perf_counter()
    for _ in range(40_000):
        bare((0.12, 0.025, 0.02, 0.029), 34.0)
    arithmetic = (time.perf_counter() - began) / 40_000
    say(f"\nbare arithmetic in floats, without units: {arithmetic * 1e6:.2f} µs")

    for drill in computed(bank):
        cases = answers(bank, drill, rng)
        for name, some in cases.items():
            drills._given.cache_clear()
            slip_values._kept.cache_clear()
            first, again = timed(bank, some), timed(bank, some)
            figures = f"{first * 1e3:.2f} ms the first time a draw is met, {again * 1e3:.2f} ms from then on"
            say(
                f"{drill.id} {name}: {figures}; {first / arithmetic:.0f} and {again / arithmetic:.0f} times the bare one"
            )
        assert all(mark(bank, sheet, Answer(item=drill.id, value=value)).right for sheet, value in cases["right"])
        assert not any(
            mark(bank, sheet, Answer(item=drill.id, value=value)).right for sheet, value in cases["one slip"]
        )
