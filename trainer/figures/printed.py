"""Plots to hang beside a machine or to put into a report: PNG, PDF or SVG files, through matplotlib.

The sheets on a screen use the house's own SVG, whose pens live in a style sheet; a file that leaves the house has to
carry its pens with it.
"""

from collections.abc import Sequence
from datetime import timedelta
from pathlib import Path
from typing import Any

import matplotlib as mpl
from matplotlib.dates import ConciseDateFormatter
from matplotlib.figure import Figure as Plot

from trainer.errors import UsageError
from trainer.figures.history import Story, story_of
from trainer.safeguarding.cautions import CAUTION
from trainer.safeguarding.stopping import History
from trainer.safeguarding.trend import StopReading
from trainer.units import show
from trainer.wording import say

INK, PAPER, WASH = "#16212b", "#fbfaf5", "#efede4"
KINDS = (".pdf", ".png", ".svg")
SAME_BYTES = {".svg": {"Date": None}, ".pdf": {"CreationDate": None}, ".png": {}}


def print_history(readings: Sequence[StopReading], found: History, path: Path, *, title: str) -> None:
    """Write a machine's readings, limit and trend to a file of the kind that its ending names.

    The same readings give the same bytes. Raises :class:`UsageError` for an ending that is none of ``KINDS``.
    """
    kind = path.suffix.lower()
    if kind not in KINDS:
        raise UsageError(
            say("{path} is no kind of plot. Name a file ending in {kinds}.", path=path.name, kinds=", ".join(KINDS))
        )
    story = story_of(readings, found)
    with mpl.rc_context({"svg.hashsalt": "trainer", "svg.fonttype": "none", "font.size": 10, "text.color": INK}):
        plot = _plot(story, title)
        plot.savefig(path, metadata=SAME_BYTES[kind], dpi=150, facecolor=PAPER)


def _plot(story: Story, title: str) -> Plot:
    plot = Plot(figsize=(10, 5.6), layout="constrained")
    axes = plot.subplots()
    axes.set_facecolor(PAPER)
    dates: list[Any] = [day for day, _ in story.points]
    axes.plot(dates, [ms for _, ms in story.points], "o", color=INK, label="measured")
    if story.limit is not None:
        axes.axhline(
            story.limit, color=INK, linewidth=2, linestyle=(0, (9, 3, 2, 3)), label="longest that the mounting allows"
        )
    days = _days(story)
    line = [(day, value) for day in days if (value := story.trend(day)) is not None]
    if line:
        axes.plot([day for day, _ in line], [at for _, (at, _) in line], color=INK, linewidth=1, label="trend")
        low, high = ([at + side * half for _, (at, half) in line] for side in (-1, 1))
        axes.fill_between(
            [day for day, _ in line],
            low,
            high,
            facecolor=WASH,
            edgecolor=INK,
            linewidth=0.5,
            linestyle=(0, (5, 4)),
            label="95 % band",
        )
    _events(story, axes)
    axes.set_title(title, loc="left", fontweight="bold")
    axes.set_title(_margin(story.found), loc="right")
    axes.set_ylabel("stopping time in ms")
    axes.xaxis.set_major_formatter(ConciseDateFormatter(axes.xaxis.get_major_locator()))  # type: ignore[no-untyped-call]
    axes.legend(loc="best", frameon=False)
    plot.supxlabel(str(CAUTION), fontsize=8)
    return plot


def _events(story: Story, axes: Any) -> None:
    """Draw the days that matter as upright lines, each with its word at its foot."""
    found = story.found
    passed = "limit passed" if found.too_close else "margin ends"
    events = ((found.on, "as of", "right"), (found.due, "measure by", "left"), (found.ends, passed, "right"))
    for day, word, side in events:
        if day is not None and story.points[0][0] <= day <= story.last:
            axes.axvline(day, color=INK, linewidth=1, linestyle=(0, (1, 2)))
            axes.annotate(
                f"{word} {day.isoformat()}",
                (day, 0.02),
                xycoords=("data", "axes fraction"),
                xytext=(-3 if side == "right" else 3, 0),
                textcoords="offset points",
                rotation=90,
                ha=side,
                va="bottom",
                fontsize=8,
            )


def _margin(found: History) -> str:
    needed, mounted = show(found.needed.rounded, "mm"), show(found.mounted, "mm")
    return f"{'TOO CLOSE: ' if found.too_close else ''}needs {needed}, stands at {mounted}"


def _days(story: Story) -> list[Any]:  # matplotlib takes dates, its types do not say so
    first = story.points[0][0]
    span = (story.last - first).days
    return [first + timedelta(days=step) for step in range(0, span + 1, max(span // 60, 1))]
