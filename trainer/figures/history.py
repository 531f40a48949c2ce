"""Stopping time over time: the readings, the longest time that the mounted distance allows, the trend and where it leads."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from trainer.figures.chart import HEIGHT, RIGHT, WIDTH, Axes, Axis, event_row, grid
from trainer.figures.ink import Figure, dot, hatchings, line, path, whole, words
from trainer.figures.showing import Translate, WriteDay
from trainer.safeguarding.stopping import History
from trainer.safeguarding.trend import StopReading
from trainer.units import magnitude, show
from trainer.wording import Sentence, mark, say

AHEAD = timedelta(days=1100)  # an end of the margin further off than this is told, not drawn
BEYOND = timedelta(days=45)  # what is shown after the last event
STEPS = 24  # pieces of a band's edge


@dataclass(frozen=True, slots=True, kw_only=True)
class Story:
    """What is drawn: readings as day and ms, oldest first, what they say, the limit in ms (None: none is short enough)."""

    points: tuple[tuple[date, float], ...]
    found: History
    limit: float | None

    @property
    def last(self) -> date:
        """Return the last day that the drawing shows."""
        found = self.found
        events = [found.on, found.due, *(day for day in (found.ends, found.ends_to) if day and day - found.on < AHEAD)]
        return max(events) + BEYOND

    def trend(self, day: date) -> tuple[float, float] | None:
        """Return the line of the trend on a day and half the width of its 95 % band (0 where it cannot be told), in ms."""
        trend = self.found.trend
        if trend is None:
            return None
        along = (day - trend.first).days
        return float(trend.at(along)) * 1000, float(trend.half_width(along) or 0) * 1000


def stopping_history(
    readings: Sequence[StopReading],
    found: History,
    *,
    write_day: WriteDay = str,
    translate: Translate = str,
    prefix: str = "history",
) -> Figure:
    """Draw the dated readings of a machine against the limit of its mounted safeguard, with trend and margin's end."""
    story = story_of(readings, found)
    axes = _axes(story)
    marks = grid(axes, write_day, translate(mark("stopping time in ms")))
    marks += _limit(story, axes, translate) + _trend(story, axes) + _points(story, axes, translate)
    marks += _margin(found, translate) + event_row(axes, _events(story, write_day, translate))
    text = " ".join(translate(sentence) for sentence in told(story))
    title = translate(mark("Stopping time over time"))
    body = marks.replace("@@", f"{prefix}-px-")
    svg = whole(
        body,
        width=WIDTH,
        height=HEIGHT,
        title=title,
        text=text,
        prefix=prefix,
        defs=hatchings(f"{prefix}-px-"),
        classes="drawing small",
    )
    return Figure(svg, text)


def story_of(readings: Sequence[StopReading], found: History) -> Story:
    """Return what is drawn, and told, of a machine's readings: those that were known on the day."""
    known = sorted((reading.on, float(magnitude(reading.time, "ms"))) for reading in readings if reading.on <= found.on)
    limit = None if found.limit is None else float(magnitude(found.limit, "ms"))
    return Story(points=tuple(known), found=found, limit=limit)


def _axes(story: Story) -> Axes:
    first, last = story.points[0][0] - timedelta(days=20), story.last
    values = [value for _day, value in story.points]
    if story.limit is not None:
        values.append(story.limit)
    for day in (first, story.found.on, last):
        line_at = story.trend(day)
        values += [line_at[0]] if line_at else []
    room = max(max(values) - min(values), 10.0) * 0.18
    return Axes(days=Axis(first.toordinal(), last.toordinal()), times=Axis(min(values) - room, max(values) + room))


def _margin(found: History, translate: Translate) -> str:
    """Write over the chart what the time needs and what there is; in the colour of danger where that is too little."""
    values = {"needed": show(found.needed.rounded, "mm"), "mounted": show(found.mounted, "mm")}
    if found.too_close:
        text = translate(say("too close: needs {needed}, stands at {mounted}", **values))
        return words(RIGHT, 22, text, classes="end danger-text")
    return words(RIGHT, 22, translate(say("needs {needed}, stands at {mounted}", **values)), classes="end strong")


def _limit(story: Story, axes: Axes, translate: Translate) -> str:
    """Draw the longest time allowed, hatched above as what must not be."""
    if story.limit is None:
        return ""
    y, left, right = axes.y(story.limit), axes.left, axes.right
    band = path("hatched-back faint-edge", f"M{left:.1f} {y:.1f}V{y - 9:.1f}H{right:.1f}V{y:.1f}z")
    shown = show(story.found.limit, "ms")
    lines = (translate(mark("longest")), translate(mark("allowed")), shown)
    label = "".join(
        words(RIGHT + 8, y - 12 + 16 * i, one, classes="strong" if i == 2 else "") for i, one in enumerate(lines)
    )
    return band + line("edge", (left, y), (right, y)) + label


def _trend(story: Story, axes: Axes) -> str:
    if story.found.trend is None:
        return ""
    start, end = story.points[0][0].toordinal(), story.last.toordinal()
    days = [date.fromordinal(round(start + (end - start) * i / STEPS)) for i in range(STEPS + 1)]
    rows = [(day, *at) for day in days if (at := story.trend(day)) is not None]
    centre = line("fine", *(axes.at(day, value) for day, value, _half in rows))
    if not any(half for _day, _value, half in rows):
        return centre
    edges = "".join(
        line("hidden", *(axes.at(day, axes.times.kept(value + way * half)) for day, value, half in rows))
        for way in (1, -1)
    )
    return centre + edges


def _points(story: Story, axes: Axes, translate: Translate) -> str:
    marks = "".join(dot("solid", *axes.at(day, value), 4) for day, value in story.points)
    newest, used = story.points[-1][0], float(magnitude(story.found.use, "ms"))
    x, y = axes.at(newest, axes.times.kept(used))
    label = translate(say("used: {time}", time=show(story.found.use, "ms")))
    side, classes = (-12, "end strong") if x > (axes.left + axes.right) / 2 else (12, "strong")
    return marks + dot("edge", x, y, 8) + words(x + side, y - 10, label, classes=classes)


def _events(story: Story, write_day: WriteDay, translate: Translate) -> list[tuple[date, str, str]]:
    """Return the days that matter: day, the line it is drawn with, its words."""
    found = story.found
    due = mark("measure by {day}") if found.due >= found.on else mark("was due {day}")
    events = [
        (found.on, "cut", translate(say("today, {day}", day=write_day(found.on)))),
        (found.due, "fine", translate(say(due, day=write_day(found.due)))),
    ]
    if not found.too_close and found.ends is not None and found.ends <= story.last:
        reached = mark("limit passed {day}") if found.ends <= found.on else mark("limit reached {day}")
        events.append((found.ends, "centre", translate(say(reached, day=write_day(found.ends)))))
    return events


def told(story: Story) -> tuple[Sentence, ...]:
    """Say what the drawing shows, with its numbers; days are ISO text for the door to write."""
    found, newest = story.found, story.points[-1]
    readings = say("One reading, on {day}.", day=newest[0].isoformat())
    if len(story.points) > 1:
        readings = say(
            "{count} readings, from {first} to {last}.",
            count=len(story.points),
            first=story.points[0][0].isoformat(),
            last=newest[0].isoformat(),
        )
    sentences = [
        readings,
        say("The time to use is {time}.", time=show(found.use, "ms")),
        say(
            "It needs {needed}; the safeguard stands at {mounted}.",
            needed=show(found.needed.rounded, "mm"),
            mounted=show(found.mounted, "mm"),
        ),
    ]
    if found.limit is not None:
        sentences.append(say("The longest time allowed at that distance is {limit}.", limit=show(found.limit, "ms")))
    if found.too_close:
        sentences.append(say("It is mounted too close."))
    elif found.ends is not None:
        sentences.append(_end(found))
    return (*sentences, say("The next measurement is due by {day}.", day=found.due.isoformat()))


def _end(found: History) -> Sentence:
    ends = found.ends.isoformat() if found.ends else ""
    if found.ends is not None and found.ends <= found.on:
        return say("By the trend, the limit was passed on {day}.", day=ends)
    if found.ends_from is None:
        return say("If the trend holds, the limit is reached on {day}.", day=ends)
    late = found.ends_to.isoformat() if found.ends_to else ""
    if not late:
        return say(
            "If the trend holds, the limit is reached on {day}; it can be as early as {early}.",
            day=ends,
            early=found.ends_from.isoformat(),
        )
    return say(
        "If the trend holds, the limit is reached on {day}; it can be between {early} and {late}.",
        day=ends,
        early=found.ends_from.isoformat(),
        late=late,
    )
