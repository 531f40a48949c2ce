"""A test that stops as soon as enough is known: Wald's sequential probability ratio test (Wald 1945).

Two kinds of people are told apart: ``low`` is the chance of a right answer of somebody who must not pass, ``high`` that
of somebody who should. Each answer adds ``ln(high/low)`` or ``ln((1-high)/(1-low))``; passed at
``ln((1-b)/a)``, failed at ``ln(b/(1-a))``, where ``a`` is the false pass and ``b`` the false fail aimed at.

What is aimed at is not what comes out: answers come whole, and nobody is asked for ever. So the true rates are worked
out by following every way through the test, up to its last item, and those are printed. Undecided at the end is not
passed. A pass waits until ``least`` items were asked, so that everything critical has been.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property
from math import ceil, floor, log

from trainer.errors import UsageError
from trainer.wording import say


class Decision(StrEnum):
    """What comes next."""

    PASSED = "passed"
    FAILED = "failed"
    GO_ON = "go-on"
    UNDECIDED = "undecided"


@dataclass(frozen=True, slots=True, kw_only=True)
class Course:
    """What becomes of people with one chance of a right answer: chances of each end, and the items asked on average."""

    chance: float
    passed: float
    failed: float
    undecided: float
    items: float

    @property
    def not_passed(self) -> float:
        """Return the chance of not passing: failed or undecided."""
        return self.failed + self.undecided


@dataclass(frozen=True, kw_only=True)
class Plan:
    """A sequential test. ``most`` items are asked at most, ``least`` before a pass.

    Raises :class:`UsageError` for chances that cannot be told apart or error rates that leave nothing to test.
    """

    low: float
    high: float
    false_pass: float
    false_fail: float
    most: int = 30
    least: int = 1

    def __post_init__(self) -> None:
        if not 0 < self.low < self.high < 1:
            raise UsageError(say("The two chances have to lie between 0 and 1, the lower one first."))
        if not (self.false_pass > 0 and self.false_fail > 0 and self.false_pass + self.false_fail < 1):
            raise UsageError(say("The two error rates have to be above 0 and below 1 together."))
        if not 1 <= self.least <= self.most:
            raise UsageError(say("A pass cannot take more items than are asked at most."))

    @cached_property
    def up(self) -> float:
        """Return what a right answer adds."""
        return log(self.high / self.low)

    @cached_property
    def down(self) -> float:
        """Return what a wrong answer adds; below nought."""
        return log((1 - self.high) / (1 - self.low))

    @cached_property
    def pass_at(self) -> float:
        """Return the sum at which it is passed."""
        return log((1 - self.false_fail) / self.false_pass)

    @cached_property
    def fail_at(self) -> float:
        """Return the sum at which it is failed; below nought."""
        return log(self.false_fail / (1 - self.false_pass))

    @cached_property
    def slope(self) -> float:
        """Return how many right answers an item more takes on either line."""
        return -self.down / (self.up - self.down)

    @cached_property
    def lines(self) -> tuple[float, float]:
        """Return where the lines of failing and of passing start, in right answers: ``line + slope * asked``."""
        width = self.up - self.down
        return self.fail_at / width, self.pass_at / width

    def sums(self, answers: Iterable[bool]) -> list[float]:
        """Return the sum after each answer."""
        total, found = 0.0, []
        for right in answers:
            total += self.up if right else self.down
            found.append(total)
        return found

    def passes_at(self, asked: int) -> int | None:
        """Return with how many right of those asked it is passed; None where not even all are enough."""
        needed = max(0, ceil(self.lines[1] + self.slope * asked))
        return needed if asked >= self.least and needed <= asked else None

    def fails_at(self, asked: int) -> int | None:
        """Return with how many right, or fewer, it is failed; None where not even none is too few."""
        most = floor(self.lines[0] + self.slope * asked)
        return most if most >= 0 else None

    def decide(self, right: int, asked: int) -> Decision:
        """Say what comes after so many answers. Undecided at the end does not pass."""
        if not 0 <= right <= asked:
            raise UsageError(say("{right} of {answers} cannot be right.", right=right, answers=asked))
        needed, most = self.passes_at(asked), self.fails_at(asked)
        if needed is not None and right >= needed:
            return Decision.PASSED
        if most is not None and right <= most:
            return Decision.FAILED
        return Decision.GO_ON if asked < self.most else Decision.UNDECIDED

    @property
    def first_pass(self) -> int | None:
        """Return after how many items it can be passed at the earliest; None where it never can."""
        return next((n for n in range(1, self.most + 1) if self.passes_at(n) is not None), None)

    @property
    def first_fail(self) -> int | None:
        """Return after how many items it can be failed at the earliest; None where it never can."""
        return next((n for n in range(1, self.most + 1) if self.fails_at(n) is not None), None)

    def course(self, chance: float) -> Course:
        """Follow every way through the test of people with one chance of a right answer."""
        here, ended, items = {0: 1.0}, dict.fromkeys(Decision, 0.0), 0.0
        for asked in range(1, self.most + 1):
            items += sum(here.values())
            after: dict[int, float] = {}
            for right, p in here.items():
                after[right + 1] = after.get(right + 1, 0.0) + p * chance
                after[right] = after.get(right, 0.0) + p * (1 - chance)
            here = {}
            for right, p in after.items():
                decision = self.decide(right, asked)
                if decision is Decision.GO_ON:
                    here[right] = p
                else:
                    ended[decision] += p
        return Course(
            chance=chance,
            passed=ended[Decision.PASSED],
            failed=ended[Decision.FAILED],
            undecided=ended[Decision.UNDECIDED],
            items=items,
        )

    def wald_items(self, *, high: bool) -> float:
        """Return Wald's estimate of the items asked on average of people of either kind; it is below the true figure."""
        chance, fails = (self.high, self.false_fail) if high else (self.low, 1 - self.false_pass)
        return (fails * self.fail_at + (1 - fails) * self.pass_at) / (chance * self.up + (1 - chance) * self.down)


def courses(plan: Plan) -> tuple[Course, Course, Course]:
    """Return what becomes of those who must not pass, of those half-way, and of those who should pass."""
    return plan.course(plan.low), plan.course((plan.low + plan.high) / 2), plan.course(plan.high)
