"""From several readings of a stopping time to the one that is used."""

from dataclasses import dataclass
from fractions import Fraction
from math import isqrt
from typing import Annotated, Any

from trainer.errors import UsageError
from trainer.safeguarding import sources
from trainer.safeguarding.inputs import Given, Inputs, Numbers, Unverified
from trainer.safeguarding.problem import Problem, answer
from trainer.safeguarding.result import Sense
from trainer.safeguarding.slips import Cut, Slip, becomes, pick, swap_for
from trainer.safeguarding.working import Working
from trainer.wording import mark, say

ENOUGH = 10  # readings
FINE = 10**12
HIGHEST, SPREAD, LARGER = "highest", "mean-plus-3s", "larger"
FROM_MEMORY = say(
    "The rule of the mean and three standard deviations is known from memory only. unverified=yes uses it, and says so."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class StoppingTimeFromReadings(Inputs):
    """Inputs of the stopping time to use."""

    readings: Annotated[Any, Given("t", mark("Readings of the stopping time"), "list", above=0)]
    rule: Annotated[Any, Given("rule", mark("Rule"), "choice", choices=(HIGHEST, SPREAD, LARGER))] = HIGHEST
    unverified: Unverified = "no"

    def agree(self) -> None:
        """Refuse a spread of a single reading."""
        if self.rule != HIGHEST and len(self.readings) < 2:
            raise UsageError(say("readings: give two or more; one reading has no spread."))


def root(value: Fraction) -> Fraction:
    """Return the square root, exact where it is rational, else rounded up in the twelfth place."""
    below = Fraction(isqrt(value.numerator * value.denominator * FINE**2), value.denominator * FINE)
    return below if below * below == value else below + Fraction(1, value.denominator * FINE)


def spread(readings: tuple[Fraction, ...], divisor: int) -> Fraction:
    """Return the standard deviation of readings, in their unit."""
    mean = sum(readings, Fraction(0)) / len(readings)
    return root(sum(((reading - mean) ** 2 for reading in readings), Fraction(0)) / divisor)


def _sum(w: Working, g: Numbers) -> Any:
    readings = w.given("t", g.readings, "list", mark("Readings of the stopping time"))
    if len(readings) < ENOUGH:
        w.warn(say("Fewer than ten readings. Measure at least ten times where you can."))
    w.warn(say("Add to it where the brake may get worse with wear, heat or age."))
    w.cite(sources.DGUV_030_9, sources.MAT_MANUAL)
    highest = w.step("t_max", mark("Highest reading"), "max(t)", max(readings), "time")
    if g.rule == HIGHEST:
        return _used(w, highest, "t_max")
    w.from_memory(FROM_MEMORY, g.unverified)
    statistical = _mean_plus(w, readings)
    w.cite(sources.ISO_13855_D)
    if g.rule == SPREAD:
        return _used(w, statistical, "t_s")
    return _used(w, max(highest, statistical), "max(t_max, t_s)")


def _mean_plus(w: Working, readings: tuple[Fraction, ...]) -> Any:
    count = len(readings)
    w.given("n", count, "count", mark("Number of readings"))
    mean = w.step("t_mean", mark("Mean of the readings"), "Σ t_i ÷ n", sum(readings, Fraction(0)) / count, "time")
    deviation = w.step(
        "s", mark("Standard deviation of the sample"), "√(Σ (t_i − t_mean)² ÷ (n − 1))",
        spread(readings, w.ask("divisor", count - 1)), "time",
    )  # fmt: skip
    times = w.ask("times", 3)
    return w.step("t_s", mark("Mean and three standard deviations"), "t_mean + 3 × s", mean + times * deviation, "time")


def _used(w: Working, value: Any, formula: str) -> Any:
    used = w.step("T_s", mark("Stopping time to use"), formula, value, "time")
    w.term("total-time", used, "time")
    return used


SLIPS = (
    Slip(
        code="mean-only",
        title=mark("Uses the mean"),
        tell=mark("You used the mean. Half of the stops take longer than that."),
        symbol="T_s",
        changes={"T_s": pick(lambda seen: sum(seen["t"], Fraction(0)) / len(seen["t"]))},
    ),
    Slip(
        code="lowest",
        title=mark("Uses the lowest reading"),
        tell=mark("You used the lowest reading. The worst one counts."),
        symbol="T_s",
        changes={"T_s": pick(lambda seen: min(seen["t"]))},
    ),
    Slip(
        code="highest-only",
        title=mark("Uses the highest reading although the spread gives more"),
        tell=mark("You used the highest reading. The mean and three standard deviations are more."),
        symbol="T_s",
        changes={"T_s": swap_for("t_max")},
    ),
    Slip(
        code="drops-the-worst",
        title=mark("Drops the highest reading as an outlier"),
        tell=mark("You dropped the highest reading. The machine did stop that late."),
        symbol="T_s",
        changes={"t": lambda value, _seen: tuple(sorted(value)[:-1]) if len(value) > 2 else value},
    ),
    Slip(
        code="population-deviation",
        title=mark("Divides by n instead of n − 1"),
        tell=mark("You divided by n. For a sample it is n − 1."),
        symbol="s",
        changes={"divisor": lambda value, _seen: value + 1},
    ),
    Slip(
        code="two-deviations",
        title=mark("Adds two standard deviations"),
        tell=mark("You added two standard deviations. It is three."),
        symbol="t_s",
        changes={"times": becomes(2)},
    ),
    Slip(
        code="last-reading",
        title=mark("Uses the last reading"),
        tell=mark("You used the last reading. The worst one counts."),
        symbol="T_s",
        changes={"T_s": pick(lambda seen: seen["t"][-1])},
    ),
    Slip(
        code="rounds-down",
        title=mark("Rounds the stopping time down"),
        tell=mark("You rounded down. A stopping time to be used is rounded up."),
        symbol="answer",
        changes={"rounding": becomes(Cut({"ms": Fraction(1), "s": Fraction(1, 1000)}))},
    ),
)

PROBLEMS = (
    Problem(
        name="stopping-time-from-readings",
        title=mark("Stopping time to use, from several readings"),
        inputs=StoppingTimeFromReadings,
        sum=_sum,
        answer=answer("T_s", Sense.AT_LEAST, "time"),
        slips=SLIPS,
    ),
)
