"""Reaching over a barrier, from the side, to scale: how high it is, how high the danger, how far behind it."""

import math
from fractions import Fraction

from trainer.figures.ink import Figure, Point, box, group, hatchings, line, view, whole
from trainer.figures.kit import PARTS
from trainer.figures.layout import Label, span
from trainer.figures.showing import Translate, built_to, length
from trainer.safeguarding.result import Worked
from trainer.units import magnitude
from trainer.wording import Sentence, mark, say

WIDTH, HEIGHT = 680.0, 420.0
FLOOR = 362.0  # px
TALLEST = 2000.0  # mm that have to fit above the floor: a person, or what is higher
BARRIER = 256.0  # px: where the barrier stands
RIGHT = 190.0  # px kept free behind the danger
STANDS = 250.0  # mm from the person to the barrier
ARM = 700.0  # mm from the shoulder to where the drawn hand ends


def heights(worked: Worked) -> tuple[Fraction, Fraction, Fraction]:
    """Return the height of the hazard, that of the barrier, and the distance between them, in mm."""
    given = {step.symbol: step.value for step in worked.given}
    return magnitude(given["a"], "mm"), magnitude(given["b"], "mm"), built_to(worked)


def reach_over(worked: Worked, *, unit: str = "mm", translate: Translate = str, prefix: str = "over") -> Figure:
    """Draw somebody who reaches over the barrier of ``barrier-reach-over`` towards the danger, as far as the table says."""
    hazard, barrier, distance = heights(worked)
    tallest = max(TALLEST, float(hazard) + 150, float(barrier) + 150)
    scale = min((FLOOR - 14) / tallest, (WIDTH - BARRIER - RIGHT) / max(float(distance), 1.0))
    marks, defs = _scene(float(hazard), float(barrier), float(distance), scale, prefix)
    at = BARRIER + float(distance) * scale, FLOOR - float(hazard) * scale
    marks += box("danger", at[0], at[1] - 34, 40, 68) + line("danger-line", (at[0], at[1] - 34), (at[0], at[1] + 34))
    marks += _dimensions(at, FLOOR - float(barrier) * scale, _lengths(worked, unit), translate)
    text = translate(told(worked, unit))
    title = translate(mark("Reaching over a barrier, from the side"))
    svg = whole(
        marks.replace("@@", f"{prefix}-px-"),
        width=WIDTH,
        height=HEIGHT,
        title=title,
        text=text,
        prefix=prefix,
        defs=defs + hatchings(f"{prefix}-px-"),
    )
    return Figure(svg, text)


def _lengths(worked: Worked, unit: str) -> dict[str, str]:
    hazard, barrier, distance = heights(worked)
    return {
        "hazard": length(hazard, unit),
        "barrier": length(barrier, unit),
        "distance": length(distance, unit, up=True),
    }


def _scene(hazard: float, barrier: float, distance: float, scale: float, prefix: str) -> tuple[str, str]:
    hand, bend = _hand(hazard, barrier, distance)
    person = PARTS["side", "person"]
    figure = person.draw({**person.usual, "x": -STANDS, "hand_x": hand[0], "hand_y": hand[1], "bend": bend})
    fence = box("cut hatched", -16, 0, 32, barrier)
    floor = line("fine", (-BARRIER / scale, 0), ((WIDTH - BARRIER) / scale, 0))
    body = floor + group(fence) + figure.marks
    return view(body, prefix=prefix, name="main", x=BARRIER, y=FLOOR, scale=scale)


def _hand(hazard: float, barrier: float, distance: float) -> tuple[Point, int]:
    """Return where the hand gets to over the barrier's edge, and the side of the elbow."""
    shoulder = (-STANDS - 14, 1388.0)
    target = (distance - 10, hazard)
    crossing = shoulder[1] + (target[1] - shoulder[1]) * -shoulder[0] / (target[0] - shoulder[0])
    if crossing > barrier + 70:
        return _towards(shoulder, target, ARM), -1
    edge = (0.0, barrier + 70)
    left = ARM - math.dist(shoulder, edge)
    return (_towards(edge, target, left) if left > 0 else _towards(shoulder, edge, ARM)), 1


def _towards(start: Point, target: Point, reach: float) -> Point:
    """Return the target, or as far towards it as ``reach`` goes."""
    share = min(1.0, reach / max(math.dist(start, target), 1.0))
    return start[0] + (target[0] - start[0]) * share, start[1] + (target[1] - start[1]) * share


def _dimensions(at: Point, top: float, shown: dict[str, str], translate: Translate) -> str:
    x, y = at
    low = FLOOR + 26
    marks = line("fine", (BARRIER, FLOOR + 4), (BARRIER, low + 8)) + line("fine", (x, y + 38), (x, low + 8))
    marks += span(
        (BARRIER, low), (x, low), translate(say("distance {length}", length=shown["distance"])), before=True, bold=True
    )[0]
    marks += _upright(40.0, top, translate(say("barrier {length}", length=shown["barrier"])), BARRIER - 18)
    right = min(x + 70, WIDTH - 20)
    return marks + _upright(right, y, translate(say("danger {length}", length=shown["hazard"])), x + 44)


def _upright(x: float, top: float, text: str, part: float) -> str:
    """Draw an upright dimension from the floor, its figure beside it at mid-height, broken into two lines."""
    word, _, figure = text.partition(" ")
    label = (
        Label(lines=(word, figure), at=(x + 8, (top + FLOOR) / 2))
        if figure
        else Label(lines=(text,), at=(x + 8, (top + FLOOR) / 2))
    )
    reach = line("fine", (min(x, part) - 6, top), (max(x, part) + 6, top))
    return reach + line("dimension", (x, top), (x, FLOOR)) + label.drawn()


def told(worked: Worked, unit: str) -> Sentence:
    """Say what the drawing shows, with its numbers."""
    return say(
        "The barrier is {barrier} high, the danger {hazard} above the floor. Then it lies at least {distance} behind the"
        " barrier.",
        **_lengths(worked, unit),
    )
