"""Every way to the tools: over, under, around and through the field, behind it, at the ends, at the rear.

A safeguard is complete only when each of them is closed. What nobody has looked at counts as open.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from trainer.safeguarding.selection.facts import FACTS, UNKNOWN, Facts
from trainer.wording import Sentence, mark, say


@dataclass(frozen=True, slots=True, kw_only=True)
class WayIn:
    """One way to the tools that is open, or of which it is not known (``known`` is False)."""

    fact: str
    known: bool
    sentence: Sentence


_FIELD = {
    ("reach_past", "over"): mark("Over the field: a hand gets above the top beam."),
    ("reach_past", "under"): mark("Under the field: a hand gets below the lowest beam."),
    ("reach_past", "around"): mark("Around the field: a hand gets past its end, or between field and frame."),
    ("reach_past", "through"): mark("Through the field: a hand gets through a gap in it."),
    ("stand_inside", "possible"): mark("Behind the field: a person can stand there unseen."),
}
_WINDOW = {("blank_gap", "open"): mark("Through the field: the blanked window is not filled.")}
_BRAKE = {
    ("ends_closed", "no"): mark("At a die end: it is not covered."),
    ("rear_closed", "no"): mark("From the rear: it is not guarded."),
    ("backstop", "powered_unguarded"): mark("At the back-stop: it moves and nothing guards it."),
}


def ways_in(facts: Facts) -> tuple[WayIn, ...]:
    """Return every way to the tools that is not known to be closed.

    The ways past a field are asked for only where a light curtain is fitted, those through a blanked window only where
    beams are blanked.
    """
    asked = dict(_BRAKE)
    if facts.get("curtain_state") != "not_fitted":
        asked = {**_FIELD, **asked}
        if facts.get("blanking_setting") != "none":
            asked = {**_WINDOW, **asked}
    return tuple(_open(facts, asked))


def _open(facts: Facts, asked: dict[tuple[str, str], str]) -> Iterator[WayIn]:
    for fact in _in_order(key for key, _word in asked):
        value = facts.get(fact, UNKNOWN)
        if value == UNKNOWN:
            yield WayIn(fact=fact, known=False, sentence=say(FACTS[fact].find_out))
        elif (fact, value) in asked:
            yield WayIn(fact=fact, known=True, sentence=say(asked[fact, str(value)]))


def _in_order(keys: Iterable[str]) -> list[str]:
    return list(dict.fromkeys(keys))
