"""Simulated trainees, each with one slip, on many drawn drills: the slip is named first, and no wrong answer is right."""

import sys
import time
from collections import Counter
from collections.abc import Iterator
from random import Random

import pytest
from assessment.made import computed, sheet_of, shipped
from assessment.trainees import HABITS, slipped

from trainer.assessment import drills
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


@pytest.mark.slow
def test_marking_and_diagnosis_of_an_answer_take_about_a_millisecond():
    bank, rng, count = shipped(), Random(3), 400
    drill = bank.drills["PB-D02"]
    cases = [(sheet_of(drill, drills.draw(drill, rng)), f"{rng.randrange(60, 400)} mm") for _ in range(count)]
    drills._given.cache_clear()
    began = time.perf_counter()
    for sheet, value in cases:
        mark(bank, sheet, Answer(item=drill.id, value=value))
    each = (time.perf_counter() - began) / count
    named = [slipped(drill, sheet.drawn, rng.choice(drill.slips)) for sheet, _ in cases]
    drills._given.cache_clear()
    began = time.perf_counter()
    for (sheet, _), answer in zip(cases, named, strict=True):
        if answer is not None:
            mark(bank, sheet, answer)
    with_slip = (time.perf_counter() - began) / count
    began = time.perf_counter()
    for _ in range(100 * count):
        bare((0.12, 0.025, 0.02, 0.029), 34.0)
    arithmetic = (time.perf_counter() - began) / (100 * count)

    say(f"\nbare arithmetic {arithmetic * 1e6:.2f} µs")
    say(f"answer with one slip {with_slip * 1e3:.2f} ms, {with_slip / arithmetic:.0f} times the bare arithmetic")
    say(f"any wrong answer, pairs of slips looked at {each * 1e3:.2f} ms, {each / arithmetic:.0f} times")
    assert with_slip < 0.01
