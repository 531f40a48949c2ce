"""The brake from the side with its light curtain where a worked distance puts it, to scale, the distance dimensioned."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from trainer.figures.ink import Figure, line, n, view, whole
from trainer.figures.kit import composed
from trainer.figures.layout import Label, span
from trainer.figures.showing import Translate, built_to, figure, length
from trainer.safeguarding.result import Sense, Worked
from trainer.units import magnitude
from trainer.wording import Sentence, mark, say

WIDTH, HEIGHT = 680.0, 420.0
DIE_Y = 262.0  # px: the top of the die
LARGEST = 1.0  # px for a millimetre
BEFORE, BEHIND = 230.0, 200.0  # mm that are shown in front of the curtain and behind the bend line
WORDS = 150.0  # px that are kept in front of the curtain for what is written there
FRONT = 30.0  # mm from the bend line to the front edge of the die
CHAIN, TOTAL = 126.0, 170.0  # px over the die: the parts of the distance, and the whole


@dataclass(frozen=True, slots=True, kw_only=True)
class Distance:
    """The distance in mm: what is built to, and the parts that it is made of."""

    whole: Fraction
    unseen: Fraction
    travel: Fraction


def distance_of(worked: Worked) -> Distance:
    """Read the distance and its parts from a worked solution that has ``travel`` and ``allowance``."""
    built = built_to(worked)
    unseen, travel = (magnitude(worked.terms[key], "mm") for key in ("allowance", "travel"))
    return Distance(whole=built, unseen=unseen, travel=travel)


def curtain_side(worked: Worked, *, unit: str = "mm", translate: Translate = str, prefix: str = "side") -> Figure:
    """Draw where the curtain has to stand: the distance, and below it the part that goes unseen and the hand's travel.

    Needs the terms ``travel`` and ``allowance``; lengths are shown in ``unit``.
    """
    found = distance_of(worked)
    far = float(found.whole)
    behind = far + FRONT + BEHIND
    scale = min(LARGEST, (WIDTH - 10) / (BEFORE + behind), (WIDTH - 10 - WORDS) / behind)
    bend = WIDTH - BEHIND * scale
    at = -FRONT - far
    marks, defs = _machine(at, scale, bend, prefix)
    start, end = bend + at * scale, bend - FRONT * scale
    names = _names(worked, found, unit, translate)
    marks += _dimensions(
        names, (start, start + float(found.unseen) * scale, start + float(found.unseen + found.travel) * scale, end)
    )
    marks += Label(lines=(translate(mark("to scale")),), at=(0, HEIGHT - 14)).drawn()
    text = translate(told(worked, unit))
    title = translate(mark("Where the light curtain has to stand, from the side"))
    svg = whole(marks, width=WIDTH, height=HEIGHT, title=title, text=text, prefix=prefix, defs=defs)
    return Figure(svg, text)


def _machine(at: float, scale: float, bend: float, prefix: str) -> tuple[str, str]:
    top, low = 1000 + (DIE_Y - 16) / scale, max(1000 - (HEIGHT - DIE_Y - 14) / scale, 44.0)
    parts: list[dict[str, Any]] = [
        {"part": "brake", "punch": 1126, "top": top, "low": low, "back": BEHIND - 26 / scale},
        {"part": "sheet", "left": at - 180, "right": 140},
        {"part": "curtain", "x": at, "low": 828, "pitch": 10 if scale > 0.4 else 20},
        {"part": "hand", "x": at - 10, "y": 1056},
    ]
    body = "".join(piece.marks for _name, piece in composed("side", parts))
    clip = f"{prefix}-frame"
    marks, defs = view(body, prefix=prefix, name="main", x=bend, y=DIE_Y + 1000 * scale, scale=scale, clip=clip)
    return marks, defs + f'<clipPath id="{clip}"><path d="M-2-2h{n(WIDTH + 4)}v{n(HEIGHT + 4)}H-2z"/></clipPath>'


def _names(worked: Worked, found: Distance, unit: str, translate: Translate) -> tuple[str, str, str]:
    """Return what stands at the whole distance, at its unseen part (empty where there is none) and at the hand's travel."""
    bound = ">" if worked.sense is Sense.MORE_THAN else "≥"
    unseen = translate(say("unseen {length}", length=length(found.unseen, unit))) if found.unseen else ""
    travel, whole = length(found.travel, unit), length(found.whole, unit, up=True)
    return f"{worked.symbol} {bound} {figure(whole, translate)}", unseen, figure(travel, translate)


def _dimensions(names: tuple[str, str, str], at: tuple[float, float, float, float]) -> str:
    """Dimension the whole over its parts; ``at`` is the px of the beams, of being seen, of the stop and of the die."""
    (name, unseen, travel), (start, seen, stop, end) = names, at
    chain, total = DIE_Y - CHAIN, DIE_Y - TOTAL
    marks = line("fine", (start, total - 8), (start, DIE_Y)) + line("fine", (end, total - 8), (end, DIE_Y + 8))
    marks += span((start, total), (end, total), name, before=True, bold=True)[0]
    if not unseen:
        return marks
    marks += (
        line("fine", (seen, chain - 8), (seen, DIE_Y - 20))
        + span((start, chain), (seen, chain), unseen, before=True)[0]
    )
    return marks + span((seen, chain), (min(stop, end), chain), travel)[0]


def told(worked: Worked, unit: str) -> Sentence:
    """Say what the drawing shows, with its numbers."""
    found = distance_of(worked)
    least = length(found.whole, unit, up=True)
    if not found.unseen:
        return say("The light curtain stands at least {distance} from the front edge of the die.", distance=least)
    return say(
        "The light curtain stands at least {distance} from the front edge of the die: the hand goes {unseen} unseen, then"
        " {travel} until the ram has stopped.",
        distance=least,
        unseen=length(found.unseen, unit),
        travel=length(found.travel, unit),
    )
