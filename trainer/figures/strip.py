"""The due strip: shift by machine, one line for each person who may run it alone, to the last day that it holds."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from trainer.figures.ink import Figure, box, dot, group, hatchings, line, whole, words
from trainer.figures.lettering import width_of
from trainer.wording import Sentence, mark, say

WIDTH = 1188.0
FROM, TO = 196.0, 968.0  # px: today and the last day of the strip
HEAD, STEP, BETWEEN = 44.0, 18.0, 9.0
SIZE = 13.0
BUNDLE = 2  # lines drawn for those who hold beyond the strip; their number is written

Translate = Callable[[Sentence | str], str]


@dataclass(frozen=True, slots=True, kw_only=True)
class StripEnd:
    """Somebody whose standing ends within the strip; ``item`` is the number of the line that deals with it."""

    name: str
    on: date
    item: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class StripRow:
    """One machine on one shift: those who end within the strip, how many hold beyond it, and from when too few."""

    shift: str
    machine: str
    now: int
    ends: tuple[StripEnd, ...]
    beyond: int
    short_from: date | None
    item: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Scale:
    """Days to px, and how a day is written."""

    today: date
    days: int
    write: Callable[[date], str]

    def x(self, day: date) -> float:
        """Return where the end of a day lies; before today is today, after the strip is its edge."""
        share = ((day - self.today).days + 1) / self.days
        return FROM + (TO - FROM) * min(max(share, 0.0), 1.0)


def due_strip(
    rows: Sequence[StripRow],
    *,
    today: date,
    days: int,
    write_day: Callable[[date], str],
    translate: Translate = str,
    prefix: str = "strip",
) -> Figure:
    """Draw who ends when within ``days``, and hatch from where fewer than two are left."""
    scale = Scale(today=today, days=days, write=write_day)
    marks, y, shift = "", HEAD + BETWEEN, ""
    for row in rows:
        if row.shift != shift:
            shift = row.shift
            y += BETWEEN / 2
            rule = line("fine", (0, y - BETWEEN), (WIDTH, y - BETWEEN)) if marks else ""
            marks += rule + words(0, y + 12, shift, classes="strong")
        deep = _depth(row)
        marks += _row(row, scale, y, deep, translate)
        y += deep + BETWEEN
    head = _head(scale, y, translate)
    text = " ".join(translate(one) for one in _told(rows, scale)) or translate(mark("Nothing ends within the strip."))
    title = translate(say("Who may run which machine alone, {days} days by shift", days=days))
    body = (head + marks).replace("@@", f"{prefix}-")
    svg = whole(
        body,
        width=WIDTH,
        height=y + 6,
        title=title,
        text=text,
        prefix=prefix,
        defs=hatchings(f"{prefix}-"),
        classes="drawing small",
    )
    return Figure(svg, text)


def _depth(row: StripRow) -> float:
    own_line = bool(row.beyond or (row.ends and row.short_from))  # the bundle, or the note of a row without one
    return STEP * max(len(row.ends) + own_line, 1)


def _head(scale: Scale, bottom: float, translate: Translate) -> str:
    marks = (
        line("edge", (0, HEAD - 6), (WIDTH, HEAD - 6))
        + line("cut", (FROM, 26), (FROM, bottom))
        + line("fine", (TO, 26), (TO, bottom))
    )
    marks += words(FROM - 6, 20, translate(say("today, {day}", day=scale.write(scale.today))), classes="end strong")
    last = scale.today + timedelta(days=scale.days - 1)
    marks += words(TO + 8, 20, translate(say("after {day}", day=scale.write(last))))
    monday = scale.today + timedelta(days=7 - scale.today.weekday())
    while monday < last - timedelta(days=4):
        x = scale.x(monday - timedelta(days=1))
        marks += line("faint", (x, 26), (x, bottom))
        if x - FROM > 70 and (monday - scale.today).days // 7 % 2 == 0:
            marks += words(x, 20, scale.write(monday).rsplit(" ", 1)[0], classes="mid soft")
        monday += timedelta(days=7)
    return marks


def _row(row: StripRow, scale: Scale, y: float, deep: float, translate: Translate) -> str:
    marks = words(86, y + 12, row.machine, classes="strong")
    marks += words(FROM - 8, y + 12, translate(say("{count} now", count=row.now)), classes="end")
    if row.short_from is not None:
        start = scale.x(max(row.short_from, scale.today) - timedelta(days=1))
        marks += box("hatched faint-edge", start, y - 2, TO - start, deep + 2)
    for number, end in enumerate(sorted(row.ends, key=lambda one: one.on)):
        marks += _end(end, scale, y + STEP * number + 8)
    level = y + STEP * len(row.ends) + 8
    for number in range(min(row.beyond, BUNDLE)):
        marks += line("edge", (FROM, level - 3 + 5 * number), (TO, level - 3 + 5 * number))
    if row.beyond:
        marks += words(TO + 8, level + 4, translate(say("{count} beyond", count=row.beyond)))
    if row.short_from is not None:
        marks += _note(row, scale, y + deep - STEP / 2, translate)
    return marks


def _end(end: StripEnd, scale: Scale, y: float) -> str:
    x = scale.x(end.on)
    marks = line("edge", (FROM, y), (x, y)) + line("cut", (x, y - 6), (x, y + 6))
    left = x + 7
    if end.item is not None:
        marks += _balloon(left + 9, y, end.item)
        left += 23
    name = f"{end.name} {scale.write(end.on)}"
    if left + width_of(name, SIZE) < TO - 4:
        ground = box("paper", left - 2, y - 8, width_of(name, SIZE) + 4, 16)  # readable on hatching too
        return marks + ground + words(left, y + 5, name)
    return marks + line("faint", (left, y), (TO, y)) + words(TO + 8, y + 5, name)  # too near the edge: beyond it


def _balloon(x: float, y: float, number: int) -> str:
    return dot("fine-part", x, y, 9) + words(x, y + 4.5, str(number), classes="mid strong")


def _note(row: StripRow, scale: Scale, y: float, translate: Translate) -> str:
    """Say how few are left and from when, in a box at the right end of the hatching."""
    short = row.short_from or scale.today
    left = row.beyond + sum(end.on >= short for end in row.ends)
    text = (
        translate(say("{count} now", count=left))
        if short <= scale.today
        else translate(say("{count} from {day}", count=left, day=scale.write(short)))
    )
    wide = width_of(text, SIZE) * 1.08 + (34 if row.item is not None else 16)  # bold is wider
    x = TO - wide - 14
    marks = box("fine-part", x, y - 9, wide, 18)
    if row.item is not None:
        marks += group(_balloon(x + 12, y, row.item))
    return marks + words(x + (26 if row.item is not None else 8), y + 5, text, classes="strong")


def _told(rows: Sequence[StripRow], scale: Scale) -> list[Sentence]:
    told = []
    for row in rows:
        values = {"machine": row.machine, "shift": row.shift}
        told += [
            say("{machine} {shift}: {name} ends {day}.", **values, name=end.name, day=scale.write(end.on))
            for end in row.ends
        ]
        if row.short_from is not None:
            told.append(
                say(
                    "{machine} {shift}: fewer than two from {day}.",
                    **values,
                    day=scale.write(max(row.short_from, scale.today)),
                )
            )
    return told
