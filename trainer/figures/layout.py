"""Labels: words at a place on the sheet, with a leader to what they name. All in px, y down."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import Any

from trainer.figures.ink import Point, line, words
from trainer.figures.lettering import LEAD, width_of, wrapped

GAP = 8.0  # px between words and their leader
SHOULDER = 14.0  # px that a leader runs level before it turns
ROOM = 210.0  # px: words wider than this are set in two lines
RISE, FALL = 17.0, 5.0  # px of a line of words above and below its base


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """Words in lines; ``at`` is the middle of their near edge, or their middle when ``align`` is mid."""

    lines: tuple[str, ...]
    at: Point
    align: str = "start"
    tip: Point | None = None
    bold: bool = False

    @property
    def box(self) -> tuple[float, float, float, float]:
        """Return left, top, right and bottom."""
        wide = max(width_of(one, bold=self.bold) for one in self.lines)
        left = {"start": self.at[0], "mid": self.at[0] - wide / 2, "end": self.at[0] - wide}[self.align]
        half = ((len(self.lines) - 1) * LEAD + RISE + FALL) / 2
        return left, self.at[1] - half, left + wide, self.at[1] + half

    @property
    def leader(self) -> tuple[Point, ...]:
        """Return the points of the leader, from the words to the tip; none without a tip."""
        if self.tip is None:
            return ()
        left, top, right, bottom = self.box
        x, y = self.tip
        if left - GAP <= x <= right + GAP:  # below or above the words
            start = (min(max(x, left + 6), right - 6), bottom + 3 if y > self.at[1] else top - 3)
            return start, self.tip
        start = (left - GAP, self.at[1]) if x < left else (right + GAP, self.at[1])
        if abs(y - self.at[1]) < 2:
            return start, (x, self.at[1])
        turn = (start[0] + (SHOULDER if x > start[0] else -SHOULDER), self.at[1])
        return (start, turn, self.tip) if abs(x - start[0]) > 2 * SHOULDER else (start, self.tip)

    def drawn(self) -> str:
        """Return leader and words as marks."""
        marks = line("leader", *self.leader) if self.tip else ""
        first = self.at[1] - (len(self.lines) - 1) * LEAD / 2 + (RISE - FALL) / 2
        classes = " ".join(
            part for part in (self.align if self.align != "start" else "", "strong" if self.bold else "") if part
        )
        return marks + "".join(
            words(self.at[0], first + LEAD * i, one, classes=classes) for i, one in enumerate(self.lines)
        )


def placed(
    text: str, at: Sequence[Any], *, width: float, align: str = "start", tip: Point | None = None, room: float = ROOM
) -> Label:
    """Return a label whose words are broken so that they stay on a sheet of ``width``."""
    x, y = float(at[0]), float(at[1])
    free = {"start": width - x, "end": x, "mid": 2 * min(x, width - x)}[align]
    return Label(lines=wrapped(text, min(free, room)), at=(x, y), align=align, tip=tip)


def label_of(entry: Mapping[str, Any], vocabulary: Mapping[str, str], tip: Point | None, width: float) -> Label:
    """Return the label that an entry of a drawing's file describes, its tip already in px."""
    text = vocabulary.get(str(entry["word"]), str(entry["word"]))
    if "number" in entry:
        text = f"{text}: {entry['number']}"
    room = float(entry.get("wide", ROOM))
    return placed(text, entry["at"], width=width, align=str(entry.get("align", "start")), tip=tip, room=room)


def clashes(labels: Sequence[Label], width: float, height: float) -> Iterable[str]:
    """Say which labels run off the sheet, overlap, or are crossed by the leader of another."""
    for one in labels:
        left, top, right, bottom = one.box
        if left < -1 or top < -1 or right > width + 1 or bottom > height + 1:
            yield f"The label “{' '.join(one.lines)}” runs off the sheet."
    for one, other in combinations(labels, 2):
        if _overlap(one.box, other.box):
            yield f"The labels “{' '.join(one.lines)}” and “{' '.join(other.lines)}” overlap."
        for first, second in ((one, other), (other, one)):
            if any(_crosses(a, b, second.box) for a, b in zip(first.leader, first.leader[1:], strict=False)):
                yield f"The leader of “{' '.join(first.lines)}” crosses “{' '.join(second.lines)}”."


def _overlap(a: tuple[float, ...], b: tuple[float, ...]) -> bool:
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


def _crosses(start: Point, end: Point, box: tuple[float, float, float, float]) -> bool:
    """Say whether the line from ``start`` to ``end`` meets the box (clipping it side by side)."""
    low, high = 0.0, 1.0
    for at, step, least, most in (
        (start[0], end[0] - start[0], box[0], box[2]),
        (start[1], end[1] - start[1], box[1], box[3]),
    ):
        if abs(step) < 1e-9:
            if not least < at < most:
                return False
            continue
        enter, leave = sorted(((least - at) / step, (most - at) / step))
        low, high = max(low, enter), min(high, leave)
    return low < high


def span(start: Point, end: Point, text: str, *, before: bool = False, bold: bool = False) -> tuple[str, Label]:
    """Draw a level dimension line whose figure stands in a gap of it; where it is too short, after or ``before`` it.

    Returns the marks and the figure as a label, so that it can be kept clear of others.
    """
    y, wide = start[1], width_of(text, bold=bold) + 2 * GAP
    left, right = sorted((start[0], end[0]))
    if wide + 34 > right - left:
        at, align = ((left - GAP - 22, y), "end") if before else ((right + GAP + 22, y), "start")
        lines = wrapped(text, at[0], bold=bold) if before else (text,)
        label = Label(lines=lines, at=at, align=align, bold=bold)
        marks = line("dimension", (left, y), (right, y)) if right - left > 34 else _from_outside(left, right, y)
        return marks + label.drawn(), label
    label = Label(lines=(text,), at=((left + right) / 2, y), align="mid", bold=bold)
    stop, go = (left + right - wide) / 2, (left + right + wide) / 2
    marks = _arrow(stop, left, y) + _arrow(go, right, y)
    return marks + label.drawn(), label


def _arrow(start: float, end: float, y: float) -> str:
    return line("leader", (start, y), (end, y))


def _from_outside(left: float, right: float, y: float) -> str:
    return line("fine", (left, y), (right, y)) + _arrow(left - 22, left, y) + _arrow(right + 22, right, y)
