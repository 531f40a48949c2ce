"""A hand at the opening of a guard, cut through, to scale: how wide it is and how far behind it the danger lies."""

from fractions import Fraction
from typing import Any

from trainer.figures.ink import Figure, Point, box, group, hatchings, line, n, path, view, whole
from trainer.figures.kit.hands import pointing, reaching
from trainer.figures.layout import Label, span
from trainer.figures.showing import Translate, built_to, length
from trainer.safeguarding.result import Sense, Worked
from trainer.units import magnitude
from trainer.wording import Sentence, mark, say

WIDTH, HEIGHT = 680.0, 420.0
MIDDLE = 200.0  # px: the middle of the opening
GUARD = 16.0  # px: how thick the guard is drawn
LARGEST = 1.1  # px for a millimetre
FINGER, TIP, FINGER_LENGTH = 18.0, 9.0, 76.0  # mm: how thick the drawn finger is, how long its tip and how long it is
ARM, REACH = 66.0, 850.0  # mm: what lets the drawn arm through, and how far an arm reaches
LEFT, RIGHT = 300.0, 140.0  # px kept free in front of the guard and behind the danger


def sizes(worked: Worked) -> tuple[Fraction, Fraction]:
    """Return opening and distance in mm, whichever of the two was given; what was worked out is rounded to the safe side."""
    built = built_to(worked)
    steps = (*worked.given, *worked.steps)
    opening = next(magnitude(step.value, "mm") for step in steps if step.symbol == "e")
    distance = magnitude(worked.terms["distance"], "mm")
    return (built, distance) if finds_opening(worked) else (opening, built)


def finds_opening(worked: Worked) -> bool:
    """Say whether the opening was worked out, and not the distance."""
    return worked.sense in {Sense.AT_MOST, Sense.LESS_THAN}


def guard_opening(worked: Worked, *, unit: str = "mm", translate: Translate = str, prefix: str = "opening") -> Figure:
    """Draw the guard's section with a hand that goes in as far as the rule reckons; needs the term ``distance``."""
    opening, distance = sizes(worked)
    scale = min(LARGEST, (WIDTH - LEFT - RIGHT) / max(float(distance), 1.0))
    marks, defs = _hand(float(opening), float(distance), scale, prefix)
    edge, danger = LEFT, LEFT + float(distance) * scale
    half = float(opening) * scale / 2
    marks = _danger(danger) + marks + _guard(edge, half)
    marks += _dimensions((edge, danger), half, length(opening, unit), _least(worked, distance, unit), translate)
    text = translate(told(worked, unit))
    title = translate(mark("A hand at the opening of a guard"))
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


def _least(worked: Worked, distance: Fraction, unit: str) -> str:
    found = length(distance, unit, up=not finds_opening(worked))
    return f"> {found}" if worked.sense is Sense.MORE_THAN else found


def goes_in(opening: float, distance: float) -> tuple[str, float]:
    """Return which hand is drawn and how far in its tip is, in mm: it goes in as far as the drawn hand fits."""
    if opening >= ARM:
        return reaching(long=True), min(distance, REACH) - 3
    finger = FINGER_LENGTH if opening >= FINGER else TIP * (opening / FINGER) ** 2
    return pointing(), min(distance - 3, finger)


def _hand(opening: float, distance: float, scale: float, prefix: str) -> tuple[str, str]:
    drawing, depth = goes_in(opening, distance)
    hand = group(drawing, transform=f"translate({n(depth)} 0)")
    body, defs = view(hand, prefix=prefix, name="hand", x=LEFT, y=MIDDLE, scale=scale, clip=f"{prefix}-frame")
    return body, defs + f'<clipPath id="{prefix}-frame"><path d="M0 0H{n(WIDTH)}V{n(HEIGHT)}H0z"/></clipPath>'


def _guard(edge: float, half: float) -> str:
    return "".join(
        path("cut hatched", f"M{n(edge)} {n(start)}h{n(GUARD)}V{n(end)}h{n(-GUARD)}z")
        for start, end in ((40.0, MIDDLE - half), (MIDDLE + half, 360.0))
    )


def _danger(x: float) -> str:
    return box("danger", x, MIDDLE - 110, 44, 220) + line("danger-line", (x, MIDDLE - 110), (x, MIDDLE + 110))


def _dimensions(ends: Point, half: float, opening: str, distance: str, translate: Translate) -> str:
    edge, danger = ends
    y = 386.0
    marks = line("fine", (edge, 364), (edge, y + 8)) + line("fine", (danger, MIDDLE + 114), (danger, y + 8))
    marks += span((edge, y), (danger, y), translate(say("distance {length}", length=distance)), before=True)[0]
    x = edge - 34
    top, low = MIDDLE - half, MIDDLE + half
    marks += line("fine", (x - 8, top), (edge, top)) + line("fine", (x - 8, low), (edge, low))
    marks += line("leader", (x, 78), (x, top)) + line("leader", (x, low + 30), (x, low))
    label = Label(lines=(translate(say("opening {length}", length=opening)),), at=(x - 10, 82), align="end")
    danger_word = Label(lines=(translate(mark("danger")),), at=(danger + 54, MIDDLE), bold=True)
    return marks + label.drawn() + danger_word.drawn()


def told(worked: Worked, unit: str) -> Sentence:
    """Say what the drawing shows, with its numbers."""
    opening, distance = sizes(worked)
    values: dict[str, Any] = {
        "opening": length(opening, unit),
        "distance": length(distance, unit, up=not finds_opening(worked)),
    }
    if finds_opening(worked):
        return say("With the danger {distance} behind the guard, its opening is at most {opening}.", **values)
    if worked.sense is Sense.MORE_THAN:
        return say("Behind an opening of {opening}, the danger lies more than {distance} away.", **values)
    return say("Behind an opening of {opening}, the danger lies at least {distance} away.", **values)
