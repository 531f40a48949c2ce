"""The two clocks of a late entry, as places on a strip: when it happened, when it was written, which day was asked."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

WIDTH = 330  # units of the strip's own drawing
MARGIN = 34
ROW = 30
HEAD = 34


@dataclass(frozen=True, slots=True, kw_only=True)
class Late:
    """An entry that was written after the day it speaks of."""

    number: int  # of its note
    entry: int
    happened: date
    recorded: date


@dataclass(frozen=True, slots=True, kw_only=True)
class ClockRow:
    """One late entry on the strip."""

    number: int
    y: int
    happened_x: int
    recorded_x: int
    happened: date
    recorded: date


@dataclass(frozen=True, slots=True, kw_only=True)
class Clocks:
    """The strip: two upright lines and one arrow for each late entry."""

    width: int
    height: int
    asked: date
    known: date
    asked_x: int
    known_x: int
    foot: int
    rows: tuple[ClockRow, ...]


def clocks(late: Sequence[Late], *, asked: date, known: date) -> Clocks:
    """Place ``late`` entries between the earliest day that is shown and the day ``known``."""
    first = min([asked, *(one.happened for one in late)])
    span = max((known - first).days, 1)

    def place(day: date) -> int:
        return MARGIN + round((WIDTH - 2 * MARGIN) * min((day - first).days, span) / span)

    foot = HEAD + ROW * len(late) + 8
    rows = tuple(
        ClockRow(
            number=one.number,
            y=HEAD + ROW * number + 12,
            happened_x=place(one.happened),
            recorded_x=place(one.recorded),
            happened=one.happened,
            recorded=one.recorded,
        )
        for number, one in enumerate(late)
    )
    return Clocks(
        width=WIDTH,
        height=foot + 6,
        asked=asked,
        known=known,
        asked_x=place(asked),
        known_x=place(known),
        foot=foot,
        rows=rows,
    )
