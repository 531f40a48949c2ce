"""Marking what is pressed: which rows are right, and which wrong ideas the others show. One rule for each kind."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass

from trainer.assessment.paper import Sheet
from trainer.assessment.pressing import HOLE, Pressed
from trainer.bank.model import Match, OnDrawing, Option, Order, PickAll, PickOne, Question, Reasoned


@dataclass(frozen=True, slots=True)
class Outcome:
    """Whether all of it is right, and the misconceptions that it shows, the most telling first."""

    right: bool
    misconceptions: tuple[str, ...] = ()


def outcome(question: Question, sheet: Sheet, held: Pressed) -> Outcome:
    """Mark what was pressed; an answer counts as right only when it is right as a whole."""
    right, shown = RULES[type(question)](question, sheet, held)
    return Outcome(right, () if right else tuple(dict.fromkeys(shown)))


def _one(question: Question, _sheet: Sheet, held: Pressed) -> tuple[bool, list[str]]:
    option = question.option(held.chosen or "")
    return option is not None and option.right, _shown(option.misconception if option else None)


def _all(question: Question, _sheet: Sheet, held: Pressed) -> tuple[bool, list[str]]:
    # What was pressed and is wrong tells more than what was left out.
    pressed = [o for o in question.options if o.id in held.given and not o.right]
    missed = [o for o in question.options if o.right and o.id not in held.given]
    return not pressed and not missed, _shown(*(o.misconception for o in (*pressed, *missed)))


def _on_drawing(question: Question, sheet: Sheet, held: Pressed) -> tuple[bool, list[str]]:
    return (_all if question.kind == "spot" else _one)(question, sheet, held)


def _order(question: Question, _sheet: Sheet, held: Pressed) -> tuple[bool, list[str]]:
    right = [option.id for option in question.options]
    place = {one: number for number, one in enumerate(held.given)}
    both = [m for m in question.mistakes if m.first in place and m.then in place]
    return list(held.given) == right, [m.misconception for m in both if place[m.first] < place[m.then]]


def _match(question: Question, sheet: Sheet, held: Pressed) -> tuple[bool, list[str]]:
    pairs = dict(zip(sheet.order, held.given, strict=False))
    right = all(pairs.get(option.id) == option.id for option in question.options)
    return right, [m.misconception for m in question.mistakes if pairs.get(m.first) == m.then]


def _reasoned(question: Question, _sheet: Sheet, held: Pressed) -> tuple[bool, list[str]]:
    option = question.option(held.chosen or "")
    reason = question.reason(held.given[0] if held.given else HOLE)
    found = [one for one in (option, reason) if one is not None]
    return len(found) == 2 and all(one.right for one in found), _shown(*(one.misconception for one in found))


def _shown(*names: str | None) -> list[str]:
    return [name for name in names if name]


Rule = Callable[[Question, Sheet, Pressed], tuple[bool, list[str]]]
RULES: Mapping[type[Question], Rule] = {
    PickOne: _one,
    PickAll: _all,
    OnDrawing: _on_drawing,
    Order: _order,
    Match: _match,
    Reasoned: _reasoned,
}


@dataclass(frozen=True, slots=True)
class Part:
    """One row of an answer that is looked back on.

    ``ident`` is the option (``second:`` before a reason), ``yours`` what the person made of it and ``needed`` what it
    should have been: "" for not pressed, "x" for pressed, the number of its place, or the id of its partner.
    """

    ident: str
    yours: str
    needed: str

    @property
    def good(self) -> bool:
        """Say whether this row was right."""
        return self.yours == self.needed


def parts(question: Question, sheet: Sheet, held: Pressed) -> tuple[Part, ...]:
    """Return what was pressed beside what is right, row by row, in the order that helps most to see it."""
    return tuple(_parts(question, sheet, held))


def _parts(question: Question, sheet: Sheet, held: Pressed) -> Iterator[Part]:
    if isinstance(question, Order):
        place = {one: str(number) for number, one in enumerate(held.given, 1)}
        for number, option in enumerate(question.options, 1):
            yield Part(option.id, place.get(option.id, ""), str(number))
    elif isinstance(question, Match):
        pairs = dict(zip(sheet.order, held.given, strict=False))
        for ident in sheet.order:
            yield Part(ident, pairs.get(ident, HOLE), ident)
    elif isinstance(question, Reasoned):
        for option in _listed(question.options, sheet.order):
            yield Part(option.id, _mark(option.id == held.chosen), _mark(option.right))
        for reason in _listed(question.reasons, sheet.second):
            yield Part(f"second:{reason.id}", _mark(reason.id in held.given), _mark(reason.right))
    else:
        pressed = {*held.given, held.chosen}
        for option in _listed(question.options, sheet.order):
            yield Part(option.id, _mark(option.id in pressed), _mark(option.right))


def _listed(options: tuple[Option, ...], order: tuple[str, ...]) -> list[Option]:
    return sorted(options, key=lambda option: order.index(option.id) if option.id in order else len(order))


def _mark(pressed: bool) -> str:  # noqa: FBT001  (one word for one of two)
    return "x" if pressed else ""
