"""The race between hand and ram, to scale: where the fingertips are when the ram stops, for one's own distance and for the least.

Below each row lies a bar that is distance and time at once: how far the hand goes unseen, how far it goes from being
seen to the ram's stop, and in red what of that lies past the front edge of the die.
"""

from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from trainer.figures.ink import Figure, whole
from trainer.figures.rows import HEIGHT, TOPS, WIDTH, Frame, Row, drawn, scaled
from trainer.figures.showing import Translate, built_to, figure, gap, length
from trainer.safeguarding.result import Worked
from trainer.units import magnitude
from trainer.wording import Sentence, mark, say

YOURS, NEEDED = mark("yours: {distance}"), mark("needed: {distance}")
RACED = {
    *("us-presence-sensing", "us-two-hand-control", "us-two-hand-trip"),
    *("ansi-presence-sensing", "ansi-two-hand-control", "press-table-presence-sensing"),
    *("iso-presence-sensing", "iso-two-hand-control"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """One row of the race, in mm and ms: how far out it starts, what goes unseen, how far the hand goes in all."""

    distance: Fraction
    unseen: Fraction
    reach: Fraction
    stop_ms: Fraction

    @property
    def past(self) -> Fraction:
        """Return how far past the die's front edge the fingertips are when the ram stops; negative = before it."""
        return self.reach - self.distance

    @property
    def at_die_ms(self) -> Fraction:
        """Return when the fingertips are at the die, counted from being seen; 0 or below = they are not yet seen."""
        seen = self.reach - self.unseen
        return self.stop_ms * (self.distance - self.unseen) / seen if seen else Fraction(0)


def can_race(worked: Worked) -> bool:
    """Say whether a worked solution is one of a hand that runs to the die from a curtain or from a button.

    Sums that answer with a time have no distance of the person's own to run from; those of floors, mats and gates
    are about a body, not a hand.
    """
    return worked.problem in RACED and {"allowance", "total-time"} <= worked.terms.keys()


def runs(worked: Worked, answer: Any) -> tuple[Run, Run]:
    """Return the person's own run and that of the least distance.

    The reach is the distance that the rule asks for: never less than what the formula's terms add up to, and more
    where a floor of the rule counts.
    """
    terms, least = worked.terms, built_to(worked)
    unseen = magnitude(terms["allowance"], "mm") if "allowance" in terms else Fraction(0)
    common = {"unseen": unseen, "reach": magnitude(worked.value, "mm"), "stop_ms": magnitude(terms["total-time"], "ms")}
    return (
        Run(distance=magnitude(answer, "mm"), **common),
        Run(distance=least, **common),
    )


def race(
    worked: Worked,
    answer: Any,
    *,
    unit: str = "mm",
    translate: Translate = str,
    prefix: str = "race",
    own: str = YOURS,
) -> Figure:
    """Draw the race for an answer (a length) against the worked least distance; lengths are shown in ``unit``.

    ``own`` says whose the first row is.

    Needs the terms ``total-time`` and ``allowance`` of the worked solution.
    """
    mine, least = runs(worked, answer)
    from_button = "two-hand" in worked.problem
    rows = tuple(
        _row(run, unit, translate, name=own if run is mine else NEEDED, button=from_button) for run in (mine, least)
    )
    frame = Frame(unit=unit, translate=translate, scale=scaled(rows))
    marks = defs = ""
    for number, (row, top) in enumerate(zip(rows, TOPS, strict=True)):
        more, their = drawn(row, frame, top, f"{prefix}-{number}")
        marks, defs = marks + more, defs + their
    text = " ".join(translate(sentence) for sentence in told(mine, least, unit, button=from_button))
    title = translate(mark("The race between hand and ram, to scale"))
    svg = whole(marks, width=WIDTH, height=HEIGHT, title=title, text=text, prefix=prefix, defs=defs)
    return Figure(svg, text)


def _row(run: Run, unit: str, translate: Translate, *, name: str, button: bool) -> Row:
    return Row(
        distance=float(run.distance),
        unseen=float(min(run.unseen, run.reach)),
        reach=float(run.reach),
        name=translate(say(name, distance=length(run.distance, unit, up=name is NEEDED))),
        moments=_moments(run, translate, button=button),
        figures={
            "unseen": figure(length(run.unseen, unit), translate),
            "travel": figure(length(min(run.reach, run.distance) - run.unseen, unit), translate),
            "past": figure(gap(run.past, unit), translate),
        },
        words={"unseen": translate(mark("unseen")), "clear": translate(mark("stops clear"))},
        button=button,
    )


def _moments(run: Run, translate: Translate, *, button: bool) -> dict[str, str]:
    """Return what is written under the joints of the bar: when the hand is where."""
    stop = f"{float(run.stop_ms):.0f} ms"
    seen = mark("0 ms: off the button") if button else mark("0 ms: seen")
    if run.at_die_ms > 0:
        at_die = translate(say("{time}: at the die", time=f"{float(run.at_die_ms):.0f} ms"))
    else:
        at_die = translate(mark("at the die, not yet seen"))
    return {
        "seen": translate(seen),
        "die": at_die if run.past > 0 else "",
        "stop": translate(say("{time}: ram stops", time=stop)),
    }


def told(own: Run, least: Run, unit: str, *, button: bool = False) -> tuple[Sentence, ...]:
    """Say in words what the two rows show, with all their numbers."""
    return _told(own, unit, up=False, button=button), _told(least, unit, up=True, button=button)


def _told(run: Run, unit: str, *, up: bool, button: bool) -> Sentence:
    values = {"distance": length(run.distance, unit, up=up), "stop": f"{float(run.stop_ms):.0f} ms"}
    if run.past > 0:
        return say(_PAST[button], **values, unseen=length(run.unseen, unit), past=gap(run.past, unit))
    return say(_CLEAR[button], **values, unseen=length(run.unseen, unit), clear=length(-run.past, unit))


_PAST = {
    False: mark(
        "With the curtain {distance} out, the hand goes {unseen} unseen. It is {past} past the front edge of the die when"
        " the ram stops, {stop} after the hand is seen."
    ),
    True: mark(
        "With the buttons {distance} out, the hand is {past} past the front edge of the die when the ram stops, {stop}"
        " after the hand leaves its button."
    ),
}
_CLEAR = {
    False: mark(
        "With the curtain {distance} out, the hand goes {unseen} unseen. It is still {clear} before the die when the ram"
        " stops, {stop} after the hand is seen."
    ),
    True: mark(
        "With the buttons {distance} out, the hand is still {clear} before the die when the ram stops, {stop} after the"
        " hand leaves its button."
    ),
}
