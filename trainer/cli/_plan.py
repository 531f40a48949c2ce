"""What ``trainer paper plan`` prints: the counts at which a sequential test ends, and its true error rates."""

from collections.abc import Iterator
from math import ceil
from typing import Any

from trainer.assessment.sequential import Course, Plan, courses

__all__ = ["Plan", "as_data", "lines"]


def as_data(plan: Plan) -> dict[str, Any]:
    """Return a plan, its table and what becomes of three kinds of people, as plain data."""
    return {
        "low": plan.low,
        "high": plan.high,
        "aimed": {"false_pass": plan.false_pass, "false_fail": plan.false_fail},
        "least": plan.least,
        "most": plan.most,
        "table": [
            {"asked": asked, "fail_at_most": plan.fails_at(asked), "pass_at_least": plan.passes_at(asked)}
            for asked in range(1, plan.most + 1)
        ],
        "courses": [_course(one) for one in courses(plan)],
    }


def _course(course: Course) -> dict[str, float]:
    return {
        "chance": course.chance,
        "passed": course.passed,
        "failed": course.failed,
        "undecided": course.undecided,
        "not_passed": course.not_passed,
        "items": course.items,
    }


def lines(plan: Plan) -> Iterator[str]:
    """Give the plan line by line."""
    yield "asked   fail with at most   pass with at least"
    for asked in range(1, plan.most + 1):
        fails, passes = plan.fails_at(asked), plan.passes_at(asked)
        if fails is not None or passes is not None:
            yield f"{asked:5}   {_count(fails):>17}   {_count(passes):>18}"
    low, middle, high = courses(plan)
    yield f"Aimed at: false pass {plan.false_pass:g}, false fail {plan.false_fail:g}."
    yield f"True false pass, of those right {low.chance:g} of the time: {_not_less(low.passed)}"
    yield f"True false fail, of those right {high.chance:g} of the time: {_not_less(high.not_passed)}, {_parts(high)}"
    yield f"Half-way, right {middle.chance:g} of the time: passed {middle.passed:.4f}, {_parts(middle)}"
    yield f"Items asked on average: {low.items:.1f}, half-way {middle.items:.1f}, {high.items:.1f}; {plan.most} at most."
    yield "Undecided at the end is not passed."


def _not_less(rate: float) -> str:
    """Show an error rate, rounded up."""
    return f"{ceil(rate * 10_000) / 10_000:.4f}"


def _count(number: int | None) -> str:
    return "-" if number is None else str(number)


def _parts(course: Course) -> str:
    return f"failed {course.failed:.4f}, undecided {course.undecided:.4f}"
