"""The race between hand and ram, to scale: where the fingertips are when the ram stops, for one's own distance and for the least.

Below each row lies a bar that is distance and time at once: how far the hand goes unseen, how far it goes from being
seen to the ram's stop, and in red what of that lies past the front edge of the die.
"""

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from trainer.figures.ink import Figure, box, dot, group, hatchings, line, n, path, shape, view, whole, words
from trainer.figures.kit.hands import hurt, reaching
from trainer.figures.lettering import width_of
from trainer.safeguarding.result import Worked
from trainer.units import Q, magnitude, round_up, show
from trainer.wording import Sentence, mark, say

WIDTH, HEIGHT = 700.0, 490.0
TOOL = 96.0  # mm of tooling right of the die's front edge
EDGE = 36.0  # px left free at both sides
ROWS = (100.0, 363.0)  # px: height of the fingertips in each row
DEEP = 26.0  # px: how deep a bar is
MOST = 2.5  # a distance of more than so many times the least is drawn cut off

Translate = Callable[[Sentence | str], str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """One row of the race, in mm and ms: the curtain's distance, what goes unseen, how far the hand goes in all."""

    distance: float
    unseen: float
    reach: float
    stop_ms: float

    @property
    def past(self) -> float:
        """Return how far past the die's front edge the fingertips are when the ram stops; negative = before it."""
        return self.reach - self.distance

    @property
    def at_die_ms(self) -> float:
        """Return when the fingertips are at the die, counted from being seen; below 0 = before that."""
        return self.stop_ms * (self.distance - self.unseen) / (self.reach - self.unseen)


def race(
    worked: Worked,
    answer: Any,
    *,
    unit: str = "mm",
    translate: Translate = str,
    prefix: str = "race",
    answer_first: bool = True,
) -> Figure:
    """Draw the race for an answer (a length) against the worked least distance; lengths are shown in ``unit``.

    Needs the terms ``total-time`` and ``allowance`` of the worked solution. The reach is what the rule asks for, which
    is never less than what the formula's own terms add up to.
    """
    own, least = runs(worked, answer)
    rows = (own, least) if answer_first else (least,)
    scale, die = _scale(own, least)
    marks, defs = "", ""
    for number, (run, top) in enumerate(zip(rows, ROWS, strict=False)):
        drawn, more = _row(run, least, scale, die=die, top=top, prefix=f"{prefix}-{number}")
        marks, defs = marks + drawn, defs + more
        name = mark("yours: {distance}") if run is own else mark("needed: {distance}")
        marks += _over(
            run, scale, die, top, translate(say(name, distance=_length(run.distance, unit, up=run is least)))
        )
        marks += _under(run, scale, die=die, top=top, unit=unit, translate=translate)
    text = " ".join(translate(sentence) for sentence in _told(own, least, unit))
    svg = whole(
        marks.replace("@@", f"{prefix}-px-"),
        width=WIDTH,
        height=HEIGHT,
        title=translate(mark("The race between hand and ram, to scale")),
        text=text,
        prefix=prefix,
        defs=defs + hatchings(f"{prefix}-px-"),
    )
    return Figure(svg, text)


def runs(worked: Worked, answer: Any) -> tuple[Run, Run]:
    """Return the person's own run and that of the least distance."""
    needed, exact = (float(magnitude(length, "mm")) for length in (worked.rounded, worked.value))
    unseen = float(magnitude(worked.terms["allowance"], "mm")) if "allowance" in worked.terms else 0.0
    stop = float(magnitude(worked.terms["total-time"], "ms"))
    own = Run(distance=float(magnitude(answer, "mm")), unseen=unseen, reach=exact, stop_ms=stop)
    return own, Run(distance=needed, unseen=unseen, reach=exact, stop_ms=stop)


def _scale(own: Run, least: Run) -> tuple[float, float]:
    left = max(least.distance, min(own.distance, least.distance * MOST))
    right = max(own.past + 12, TOOL)
    scale = min(1.2, (WIDTH - 2 * EDGE - 92) / (left + right))
    return scale, EDGE + left * scale


def _row(run: Run, least: Run, scale: float, *, die: float, top: float, prefix: str) -> tuple[str, str]:
    left = min(run.distance, least.distance * MOST)
    tip = max(run.past, -left + 4)
    hand = group(reaching() + (hurt(-tip) if tip > 0 else ""), transform=f"translate({n(tip)} 0)")
    post = box("part", -left - 16, -66, 32, 138) + "".join(dot("solid", -left, y, 3.4) for y in range(-56, 70, 14))
    body = post + hand + _tools()
    drawn, defs = view(body, prefix=prefix, name="row", x=die, y=top, scale=scale, clip=f"{prefix}-frame")
    defs += f'<clipPath id="{prefix}-frame"><path d="M0 {n(top - 90)}h{n(WIDTH)}v180H0z"/></clipPath>'
    return drawn, defs


def _tools() -> str:
    die = shape("cut hatched", [(0, -50), (0, -14), (17, -14), (30, -30), (43, -14), (60, -14), (60, -50)])
    punch = path("cut hatched-back", "M16 62V38L28 22q2-3 4 0L44 38v24")
    return die + punch


def _over(run: Run, scale: float, die: float, top: float, text: str) -> str:
    """Dimension the distance above the row."""
    left, y = max(die - run.distance * scale, 4.0), top - 84
    middle, half = (left + die) / 2, width_of(text) / 2 + 10
    ends = line("fine", (left, y - 8), (left, top - 52 * scale)) + line("fine", (die, y - 8), (die, top + 106))
    if half * 2 + 30 > die - left:  # too narrow for the figure: it stands beside
        beside = words(left - 10, y + 8, text, classes="end") if left > half * 2 else words(die + 12, y + 8, text)
        return ends + line("dimension", (left, y), (die, y)) + beside
    gap = line("gap", (middle - half, y), (middle + half, y))
    return ends + line("dimension", (left, y), (die, y)) + gap + words(middle, y + 8, text, classes="mid")


def _under(run: Run, scale: float, *, die: float, top: float, unit: str, translate: Translate) -> str:
    """Draw the bar of distance and time below the row, with what happens at its joints."""
    y = top + 76
    start = max(die - run.distance * scale, 4.0)
    seen = start + run.unseen * scale
    stop = die + run.past * scale if run.distance < run.reach * MOST else start + run.reach * scale
    marks = ""
    if run.unseen:
        marks += _bar("behind", start, min(seen, die), y, _length(run.unseen, unit))
    if seen < min(die, stop):
        travel = min(run.reach, run.distance) - run.unseen
        marks += _bar("fine-part", seen, min(die, stop), y, _length(travel, unit))
    if run.past > 0:
        marks += box("danger", die, y, run.past * scale, DEEP)
        marks += words(stop + 7, y + 20, _length(run.past, unit, up=True), classes="danger-text")
    return marks + _moments(run, (start, seen, die, stop), y + DEEP, translate)


def _bar(classes: str, left: float, right: float, y: float, text: str) -> str:
    inside = words((left + right) / 2, y + 20, text, classes="mid") if width_of(text) + 8 < right - left else ""
    return box(classes, left, y, right - left, DEEP) + inside


def _moments(run: Run, at: tuple[float, float, float, float], y: float, translate: Translate) -> str:
    """Write what happens when, below the bar, wherever there is room for it."""
    start, seen, die, stop = at
    marks = ""
    arrives = _moment(run, translate)
    free = die - 14 - max(width_of(one) for one in arrives)
    if run.unseen and seen - start > width_of(translate(mark("unseen"))) + 8:
        marks += line("fine", (start, y), (start, y + 26)) + words(start + 6, y + 21, translate(mark("unseen")))
    zero = translate(mark("0 ms: seen"))
    if seen + 6 + width_of(zero) < (free if run.past > 0 else stop - width_of(arrives[0]) - 14):
        marks += line("fine", (seen, y), (seen, y + 26)) + words(seen + 7, y + 21, zero)
    if run.past > 0:
        stops = (translate(say("{time}:", time=f"{run.stop_ms:.0f} ms")), translate(mark("ram stops")))
        marks += "".join(words(die - 7, y + 21 + 25 * i, one, classes="end") for i, one in enumerate(arrives))
        marks += line("fine", (stop, y), (stop, y + 50))
        marks += "".join(words(stop + 7, y + 21 + 25 * i, one) for i, one in enumerate(stops))
    else:
        marks += (
            words(min(stop, die) - 7, y + 21, arrives[0], classes="end") if stop - start > width_of(arrives[0]) else ""
        )
        marks += words(die + 10, y - 6, translate(mark("stops clear")), classes="safe-text")
    return marks


def _moment(run: Run, translate: Translate) -> tuple[str, ...]:
    if run.past <= 0:
        return (translate(say("{time}: ram stops", time=f"{run.stop_ms:.0f} ms")),)
    if run.at_die_ms <= 0:
        return (translate(mark("at the die,")), translate(mark("not yet seen")))
    return (translate(say("{time}:", time=f"{run.at_die_ms:.0f} ms")), translate(mark("at the die")))


def _told(own: Run, least: Run, unit: str) -> list[Sentence]:
    told = [_told_run(own, unit)]
    return [*told, _told_run(least, unit, least=True)]


def _told_run(run: Run, unit: str, *, least: bool = False) -> Sentence:
    values = {
        "distance": _length(run.distance, unit, up=least),
        "unseen": _length(run.unseen, unit),
        "stop": f"{run.stop_ms:.0f} ms",
    }
    if run.past > 0:
        return say(
            "With the curtain {distance} out, the hand goes {unseen} unseen and is {past} past the front edge of the die when "
            "the ram stops, {stop} after it is seen.",
            **values,
            past=_length(run.past, unit, up=True),
        )
    return say(
        "With the curtain {distance} out, the hand goes {unseen} unseen and is still {clear} before the die when the ram "
        "stops, {stop} after it is seen.",
        **values,
        clear=_length(-run.past, unit),
    )


def _length(mm: float, unit: str, *, up: bool = False) -> str:
    exact = Fraction(mm).limit_denominator(10_000)
    if up:
        exact = round_up(exact, Fraction(1, 10))
    return show(Q(exact, "mm"), unit, 1 if unit == "mm" else 2)
