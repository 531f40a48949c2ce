"""One line of a desk sheet: how far out somebody set the curtain, and how far it had to be, from the die outwards."""

from fractions import Fraction
from typing import Any

from trainer.figures.ink import Figure, box, hatchings, line, path, whole, words
from trainer.figures.lettering import width_of
from trainer.figures.showing import Translate, built_to, figure, length
from trainer.safeguarding.result import Worked
from trainer.units import magnitude
from trainer.wording import mark, say

WIDTH, HEIGHT = 330.0, 34.0
DIE, EDGE = 34.0, 330.0  # px: the front edge of the die, and where words have to end
SIZE = 13.0
LEVEL = 17.0


def answered(
    worked: Worked, answer: Any, *, unit: str = "mm", translate: Translate = str, prefix: str = "set"
) -> Figure:
    """Draw an answer (a length) against what is needed, to scale; what is missing is hatched."""
    own, needed = magnitude(answer, "mm"), built_to(worked)
    mine = figure(length(own, unit), translate)
    least = translate(say("{length} needed", length=length(needed, unit, up=True)))
    scale = _scale(own, needed, mine, least)
    set_at, due_at = DIE + float(own) * scale, DIE + float(needed) * scale
    marks = _tools() + _least(set_at, due_at, least) + _mine(set_at, mine)
    text = translate(
        say("Set at {own}; {needed} are needed.", own=length(own, unit), needed=length(needed, unit, up=True))
    )
    title = translate(mark("What was answered, from the die outwards"))
    svg = whole(
        marks.replace("@@", f"{prefix}-px-"),
        width=WIDTH,
        height=HEIGHT,
        title=title,
        text=text,
        prefix=prefix,
        defs=hatchings(f"{prefix}-px-"),
        classes="drawing small",
    )
    return Figure(svg, text)


def _scale(own: Fraction, needed: Fraction, mine: str, least: str) -> float:
    """Return px for a millimetre: the further of the two still leaves room for its words."""
    words_after = width_of(least, SIZE) + 8
    if own > needed:
        words_after = max(width_of(mine, SIZE, bold=True) + 8, words_after)
    return (EDGE - DIE - words_after) / float(max(own, needed, Fraction(1)))


def _tools() -> str:
    punch = path("part", "M6 2V8L14 15 22 8V2z")
    return punch + path("part", "M2 21H10L14 25 18 21H26V32H2z") + line("fine", (DIE, 4), (DIE, 30))


def _mine(x: float, text: str) -> str:
    """Draw where it was set: its figure in the line from the die, or beyond the mark where that is too short."""
    wide = width_of(text, SIZE, bold=True)
    mark_at = line("cut", (x, 4), (x, 30))
    if x - DIE > wide + 20:
        middle = (DIE + x) / 2
        parts = line("fine", (DIE, LEVEL), (middle - wide / 2 - 4, LEVEL)) + line(
            "fine", (middle + wide / 2 + 4, LEVEL), (x, LEVEL)
        )
        return parts + mark_at + words(middle, LEVEL + 4.5, text, classes="mid strong")
    return line("fine", (DIE, LEVEL), (x, LEVEL)) + mark_at + words(x + 8, LEVEL + 4.5, text, classes="strong")


def _least(own: float, due: float, text: str) -> str:
    short = box("hatched faint-edge", own, 7, due - own, 20) if due > own else ""
    return short + line("hidden", (due, 4), (due, 30)) + words(max(own, due) + 6, LEVEL + 4.5, text)
