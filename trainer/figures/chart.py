"""A plain chart of values over days, drawn as the sheets are: axes, ticks, upright lines for the days that matter."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from trainer.figures.ink import Point, line, words
from trainer.figures.lettering import width_of
from trainer.figures.showing import WriteDay, plain

WIDTH, HEIGHT = 760.0, 340.0
LEFT, RIGHT, TOP, BOTTOM = 56.0, 660.0, 40.0, 262.0  # px: what the axes enclose
SMALL = 13.0
STEPS = (1, 2, 5, 10, 20, 50, 100, 200, 500, 1000)


@dataclass(frozen=True, slots=True)
class Axis:
    """The values from ``low`` to ``high`` along one axis."""

    low: float
    high: float

    def share(self, value: float) -> float:
        """Return where a value lies, 0 at the low end and 1 at the high end."""
        return (value - self.low) / (self.high - self.low)

    def kept(self, value: float) -> float:
        """Return the value, or the end of the axis that it lies beyond."""
        return min(max(value, self.low), self.high)

    def ticks(self, most: int) -> list[float]:
        """Return at most ``most`` round values."""
        step = next((one for one in STEPS if (self.high - self.low) / one <= most), STEPS[-1])
        first = int(self.low // step + 1) * step
        return [float(value) for value in range(first, int(self.high) + 1, step)]


@dataclass(frozen=True, slots=True, kw_only=True)
class Axes:
    """Days (as ordinals) from left to right, values from below."""

    days: Axis
    times: Axis
    left: float = LEFT
    right: float = RIGHT

    def x(self, day: date) -> float:
        """Return the px of a day."""
        return self.left + (self.right - self.left) * self.days.share(day.toordinal())

    def y(self, value: float) -> float:
        """Return the px of a value."""
        return BOTTOM - (BOTTOM - TOP) * self.times.share(value)

    def at(self, day: date, value: float) -> Point:
        """Return the px of a value on a day."""
        return self.x(day), self.y(value)


def grid(axes: Axes, write_day: WriteDay, name: str) -> str:
    """Draw both axes with their ticks; ``name`` says what is measured, and in what."""
    marks = line("edge", (axes.left, TOP), (axes.left, BOTTOM), (axes.right, BOTTOM))
    for value in axes.times.ticks(6):
        y = axes.y(value)
        marks += line("faint", (axes.left, y), (axes.right, y)) + line("fine", (axes.left - 5, y), (axes.left, y))
        marks += words(axes.left - 9, y + 4.5, plain(value, 0), classes="end")
    last = -1e9
    for day in _year_ends(axes):
        x, text = axes.x(day), write_day(day)
        marks += line("fine", (x, BOTTOM), (x, BOTTOM + 5))
        if x - width_of(text, SMALL) / 2 > last + 8 and x + width_of(text, SMALL) / 2 < WIDTH:
            marks += words(x, BOTTOM + 19, text, classes="mid soft")
            last = x + width_of(text, SMALL) / 2
    return marks + words(axes.left - 48, TOP - 18, name, classes="soft")


def _year_ends(axes: Axes) -> list[date]:
    """Return the firsts of January and July on the axis."""
    first, last = date.fromordinal(int(axes.days.low)), date.fromordinal(int(axes.days.high))
    days = [date(year, month, 1) for year in range(first.year, last.year + 1) for month in (1, 7)]
    return [day for day in days if first <= day <= last]


def event_row(axes: Axes, events: Sequence[tuple[date, str, str]]) -> str:
    """Draw an upright line for each day that matters, its words below the axis, one row lower where they would meet."""
    marks, taken = "", [-1e9, -1e9, -1e9]
    for day, classes, text in sorted(events):
        x, half = axes.x(day), width_of(text, SMALL, bold=classes == "cut") / 2
        middle = min(max(x, half + 2), WIDTH - half - 2)
        row = next((i for i, end in enumerate(taken) if middle - half > end + 10), len(taken) - 1)
        taken[row] = middle + half
        foot = BOTTOM + 26 + 18 * row
        marks += line(classes, (x, TOP), (x, foot))
        marks += words(middle, foot + 14, text, classes="mid strong" if classes == "cut" else "mid")
    return marks
