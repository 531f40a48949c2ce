"""The trend of dated stopping times: a straight line by least squares, its 95 % band, and the day it reaches a limit."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from fractions import Fraction
from functools import cache
from typing import Any

from trainer.safeguarding.readings import root
from trainer.safeguarding.tables import table
from trainer.units import magnitude

HORIZON = 3653  # days; nothing is foretold beyond ten years
NEAR = 1e-9  # s; nearer to the limit than this, exact numbers decide


@dataclass(frozen=True, slots=True, kw_only=True)
class StopReading:
    """One reading: on which day, and the time (a quantity)."""

    on: date
    time: Any


@dataclass(frozen=True, slots=True, kw_only=True)
class Trend:
    """A straight line through the readings, by least squares.

    ``slope`` is in s per day with its standard error ``error`` (None with two days only); ``mean`` is the mean time in
    s on ``middle``, a day counted from the first reading; ``scatter`` the residual standard deviation in s.
    """

    first: date
    middle: Fraction
    mean: Fraction
    slope: Fraction
    error: Fraction | None
    scatter: Fraction | None
    count: int

    def at(self, day: Fraction | int) -> Fraction:
        """Return the time on the line, in s, so many days after the first reading."""
        return self.mean + self.slope * (day - self.middle)

    def half_width(self, day: Fraction | int) -> Fraction | None:
        """Return half the width of the 95 % band of the line on that day, in s; None where it cannot be told."""
        if self.error is None or self.scatter is None:
            return None
        from_mean = self.scatter**2 / self.count
        from_slope = (self.error * (day - self.middle)) ** 2
        return student(self.count - 2) * root(from_mean + from_slope)


@dataclass(frozen=True, slots=True, kw_only=True)
class End:
    """The day on which the line passes the limit, and the days between which it may, at 95 %.

    ``day`` can lie in the past: then the line has passed the limit already. Each is None where it does not come within
    ten years of the day that is asked about, ``earliest`` and ``latest`` also where the readings leave no uncertainty
    to speak of (two days only).
    """

    day: date | None = None
    earliest: date | None = None
    latest: date | None = None


@cache
def _quantiles() -> tuple[tuple[int, Fraction], ...]:
    return tuple((int(freedom), Fraction(t)) for freedom, t in table("student-t").rows)


def student(freedom: int) -> Fraction:
    """Return the two-sided 95 % quantile; between rows of the table that of the fewer degrees of freedom."""
    return next(t for known, t in reversed(_quantiles()) if known <= max(freedom, 1))


def fit(readings: Sequence[StopReading]) -> Trend | None:
    """Fit the line; None where all readings are of one day."""
    first = min(reading.on for reading in readings)
    days = [Fraction((reading.on - first).days) for reading in readings]
    times = [magnitude(reading.time, "s") for reading in readings]
    count = len(readings)
    middle, mean = sum(days, Fraction(0)) / count, sum(times, Fraction(0)) / count
    spread = sum(((day - middle) ** 2 for day in days), Fraction(0))
    if not spread:
        return None
    pairs = list(zip(days, times, strict=True))
    slope = sum(((day - middle) * (time - mean) for day, time in pairs), Fraction(0)) / spread
    scatter = None
    if count > 2:
        residual = sum(((time - mean - slope * (day - middle)) ** 2 for day, time in pairs), Fraction(0))
        scatter = root(residual / (count - 2))
    error = None if scatter is None else root(scatter**2 / spread)
    return Trend(
        first=first, middle=middle, mean=mean, slope=slope, error=error, scatter=scatter, count=count
    )  # fmt: skip


def end_of(trend: Trend | None, limit: Any | None, on: date) -> End:
    """Return when the line passes a limit (a time) for good, and when the edges of its band do.

    The band is narrowest amid the readings and widens to both sides, so an edge is followed from there on.
    """
    if trend is None or limit is None:
        return End()
    bound, last = magnitude(limit, "s"), (on - trend.first).days + HORIZON
    day = _first(trend, bound, 0, last, 0)
    if trend.error is None:
        return End(day=day)
    middle = int(trend.middle)
    earliest = _first(trend, bound, middle, last, 1)
    latest = _first(trend, bound, middle, last, -1)
    return End(day=day, earliest=min(filter(None, (earliest, day)), default=None), latest=latest)


def _first(trend: Trend, bound: Fraction, start: int, last: int, side: int) -> date | None:
    """Return the first day on which the line, or the edge of its band on that side, lies above the bound."""
    centre, slope = float(trend.mean), float(trend.slope)
    flat, steep = _widths(trend) if side else (0.0, 0.0)
    for day in range(start, last):
        along = day - float(trend.middle)
        near = centre + slope * along + side * math.sqrt(flat + steep * along * along)
        if near > float(bound) - NEAR and _edge(trend, day, side) > bound:
            return trend.first + timedelta(days=day)
    return None


def _widths(trend: Trend) -> tuple[float, float]:
    """Return the squares of half the band's width amid the readings, and of what it gains per day from there."""
    t = float(student(trend.count - 2))
    return (t * float(trend.scatter or 0)) ** 2 / trend.count, (t * float(trend.error or 0)) ** 2


def _edge(trend: Trend, day: int, side: int) -> Fraction:
    return trend.at(day) + (side * (trend.half_width(day) or 0) if side else 0)
