"""One row of the race, drawn: curtain or button, hand, tools, the dimension above and the bar of distance and time below."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from trainer.figures.ink import box, dot, group, hatchings, line, n, path, shape, view, words
from trainer.figures.kit.hands import hurt, reaching
from trainer.figures.layout import Label, span
from trainer.figures.lettering import LEAD, width_of, wrapped
from trainer.figures.showing import Translate

WIDTH, HEIGHT = 700.0, 490.0
TOPS = (14.0, 260.0)  # px: the dimension line of each row
HAND, BAR, DEEP = 80.0, 152.0, 26.0  # px below it: the fingertips, the bar; how deep the bar is
HALF_POST = 14.0  # px
LARGEST = 1.0  # px for a millimetre, so that an arm fits into its row
TOOL = 84.0  # mm from the die's front edge to its back
BREAK = 64.0  # px of a row that is broken off between hand and die
MOST = 2.2  # a distance beyond so many times the reach is broken off


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """What one row shows, in mm, and its words: the name over it, the moments, and the figures of the bar."""

    distance: float
    unseen: float
    reach: float
    name: str
    moments: Mapping[str, str]
    figures: Mapping[str, str]
    words: Mapping[str, str]
    button: bool = False

    @property
    def past(self) -> float:
        """Return how far past the die's front edge the fingertips stop; negative = before it."""
        return self.reach - self.distance

    @property
    def broken(self) -> bool:
        """Say whether the row is too long to be drawn whole."""
        return self.distance > MOST * self.reach


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """What both rows share: px for a millimetre and where the die's front edge is, the unit, the language."""

    unit: str
    translate: Translate
    scale: tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Places:
    """Where things are in a row, in px: where the hand starts, is seen, the die, where it stops."""

    start: float
    seen: float
    die: float
    stop: float


def scaled(rows: Sequence[Row]) -> tuple[float, float]:
    """Return px for a millimetre and the px of the die's front edge, so that both rows and their words fit."""
    left = max(row.reach if row.broken else row.distance for row in rows)
    past = max(0.0, *(row.past for row in rows))
    torn = BREAK if any(row.broken for row in rows) else 0.0
    rest = max(_wide_after(row) for row in rows)
    clear = max(width_of(row.words["clear"], bold=True) + 14 for row in rows)
    before = max(*(_wide_before(row) for row in rows), 2 * HALF_POST)
    # At the right lie the fingertips and what is written behind them, the tools, or what is written behind the die.
    free = WIDTH - HALF_POST - 4 - torn
    fits = [(free - rest) / (left + past), (free - 10) / (left + TOOL), (free - clear) / left]
    fits += [(WIDTH - before - rest) / past] if past else []
    scale = min(LARGEST, *fits)
    return scale, WIDTH - max(past * scale + rest, TOOL * scale + 10, clear)


def _wide_after(row: Row) -> float:
    """Return the px that are written behind where the hand stops, past the die."""
    if row.past <= 0:
        return 0.0
    return max(width_of(row.figures["past"], bold=True) + 12, _wide(_lines(row.moments["stop"])) + 12)


def _wide_before(row: Row) -> float:
    """Return the px that are written before the die: when the hand is there, or when the ram has stopped."""
    return _wide(_lines(row.moments["die"] if row.past > 0 else row.moments["stop"])) + 10


def _wide(lines: Sequence[str]) -> float:
    return max(width_of(one) for one in lines)


def drawn(row: Row, frame: Frame, top: float, prefix: str) -> tuple[str, str]:
    """Return the marks and the definitions of a row whose dimension line lies at ``top`` px."""
    scale, die = frame.scale
    start = die - row.distance * scale if not row.broken else die - BREAK - row.reach * scale
    places = Places(start=start, seen=start + row.unseen * scale, die=die, stop=start + row.reach * scale)
    scenery, defs = _scenery(row, places, scale, top, prefix)
    over = _over(row, places, top) + (_torn(places, top) if row.broken else "")
    return scenery + over + _bar(row, places, top + BAR, prefix) + _under(row, places, top + BAR + DEEP), defs


def _scenery(row: Row, at: Places, scale: float, top: float, prefix: str) -> tuple[str, str]:
    """Draw post or button, hand and tools; x is to scale, and so is the hand."""
    tip = at.stop - at.die
    y = top + HAND
    post = _button(at.start, y) if row.button else _post(at.start, y)
    hand = group(
        reaching(long=True) + (hurt(-row.past) if row.past > 0 else ""), transform=f"translate({n(tip / scale)} 0)"
    )
    body, defs = view(hand, prefix=prefix, name="hand", x=at.die, y=y, scale=scale, clip=f"{prefix}-frame")
    tools, more = view(_tools(), prefix=prefix, name="tools", x=at.die, y=y, scale=scale)
    defs += (
        more
        + hatchings(f"{prefix}-px-")
        + f'<clipPath id="{prefix}-frame"><path d="M0 {n(top + 8)}h{n(WIDTH)}v{n(BAR - 12)}H0z"/></clipPath>'
    )
    edge = line("fine", (at.die, top - 8), (at.die, top + BAR + DEEP + 22))
    return post + body + tools + edge, defs


def _post(x: float, y: float) -> str:
    outline = box("part", x - HALF_POST, y - 62, 2 * HALF_POST, 126)
    return outline + "".join(dot("solid", x, y + step, 2.4) for step in range(-52, 60, 13))


def _button(x: float, y: float) -> str:
    return box("part", x - 34, y + 34, 68, 30) + path("part", f"M{n(x - 24)} {n(y + 34)}v-10q0-8 8-8h32q8 0 8 8v10z")


def _tools() -> str:
    die = shape("cut hatched", [(0, -46), (0, -10), (25, -10), (42, -30), (59, -10), (TOOL, -10), (TOOL, -46)])
    punch = path("cut hatched-back", "M24 58V34L39 15q3-3 6 0L60 34V58")
    return die + punch


def _torn(at: Places, top: float) -> str:
    """Break the row off between hand and die: two free lines from top to bottom."""
    x, low, high = at.die - BREAK / 2, top + BAR + DEEP + 4, top - 12
    gap = path("paper", f"M{n(x - 7)} {n(high)}h14V{n(low)}h-14z")
    return gap + "".join(_tear(x + side, high, low) for side in (-8, 8))


def _tear(x: float, high: float, low: float) -> str:
    middle = (high + low) / 2
    return path("fine", f"M{n(x)} {n(high)}V{n(middle - 8)}l7 5-14 8 7 5V{n(low)}")


def _over(row: Row, at: Places, top: float) -> str:
    ends = line("fine", (at.start, top - 8), (at.start, top + HAND - 62 if not row.button else top + HAND + 16))
    name, narrow = row.name, width_of(row.name) + 50 > at.die - at.start
    if narrow and at.start - width_of(name) - 34 > 4:  # the words stand before the line, away from the tools
        marks = line("leader", (at.start - 22, top), (at.start, top)) + line(
            "leader", (at.die + 22, top), (at.die, top)
        )
        label = Label(lines=(name,), at=(at.start - 30, top), align="end")
        return ends + marks + line("fine", (at.start, top), (at.die, top)) + label.drawn()
    return ends + span((at.start, top), (at.die, top), name)[0]


def _bar(row: Row, at: Places, y: float, prefix: str) -> str:
    """Draw the bar: unseen, on the way to the die, past it; and what is left before the die when the hand stops."""
    seen, stop = min(at.seen, at.die), min(at.die, at.stop)
    marks = _segment("wash-part", at.start, seen, y, row.figures["unseen"]) if row.unseen else ""
    if seen < stop:
        marks += _segment("fine-part", seen, stop, y, row.figures["travel"])
    if row.past > 0:
        marks += path("danger", f"M{n(at.die)} {n(y)}H{n(at.stop)}v{n(DEEP)}H{n(at.die)}z").replace(
            "@@", f"{prefix}-px-"
        )
        return marks + words(at.stop + 8, y + 20, row.figures["past"], classes="danger-text")
    if not row.broken and at.die - at.stop > 3:
        marks += box("gap-part", at.stop, y, at.die - at.stop, DEEP)
    return marks + words(at.die + 10, y + 20, row.words["clear"], classes="safe-text")


def _segment(classes: str, left: float, right: float, y: float, figure: str) -> str:
    inside = words((left + right) / 2, y + 20, figure, classes="mid") if width_of(figure) + 2 < right - left else ""
    return box(classes, left, y, right - left, DEEP) + inside


def _under(row: Row, at: Places, y: float) -> str:
    """Write what happens when: the stop and the die always, being seen and going unseen where there is room left."""
    taken: list[Label] = []
    marks = ""
    for key, x, align, needed in _wanted(row, at):
        text = row.words["unseen"] if key == "unseen" else row.moments[key]
        label = _moment(text, x, y, align, whole=key in {"seen", "unseen"})
        left, _, right, _ = label.box
        free = left >= 0 and right <= WIDTH and not any(left - 10 < o.box[2] and o.box[0] - 10 < right for o in taken)
        if needed or free:
            taken.append(label)
            marks += line("fine", (x, y), (x, y + 22 + LEAD * (len(label.lines) - 1))) + label.drawn()
    return marks


def _wanted(row: Row, at: Places) -> list[tuple[str, float, str, bool]]:
    """Return the moments, the most needed first: key, place, on which side of it the words stand, whether they must."""
    if row.past > 0:
        first = [("stop", at.stop, "start", True), ("die", at.die, "end", True)]
    elif at.stop - 8 > width_of(row.moments["stop"]):
        first = [("stop", at.stop, "end", True)]
    else:
        first = [("stop", at.stop, "start", True)]
    seen = [("seen", at.seen, "start", False)] if at.seen < at.die else []
    return [*first, *seen, *([("unseen", at.start, "start", False)] if row.unseen else [])]


def _moment(text: str, x: float, y: float, align: str, *, whole: bool) -> Label:
    lines = (text,) if whole else _lines(text)
    aside = x + (7 if align == "start" else -7)
    return Label(lines=lines, at=(aside, y + 13 + LEAD * (len(lines) - 1) / 2), align=align)


def _lines(text: str) -> tuple[str, ...]:
    """Return when and what below each other; words without a time in two lines where they are long."""
    when, _, what = text.partition(": ")
    return (f"{when}:", what) if what else wrapped(text, 150)
