"""Answers by rule: the right one, and the one of somebody who holds a given misconception and knows all else."""

from collections.abc import Callable, Iterator, Mapping

from trainer.assessment import drills
from trainer.assessment.answers import Answer
from trainer.assessment.lists import outcome
from trainer.assessment.paper import Sheet
from trainer.bank.model import Match, Number, OnDrawing, Order, PickAll, PickOne, Question, Reasoned
from trainer.units import show

PLACES = 4


def right_answer(question: Question, sheet: Sheet) -> Answer:
    """Return the answer of somebody who knows."""
    return KNOWING[type(question)](question, sheet)


def showing(question: Question, sheet: Sheet, misconception: str) -> Answer | None:
    """Return the answer of somebody with one wrong idea; None where the question cannot show it."""
    for answer in _mistaken(question, sheet):
        found = outcome(question, sheet, answer.pressed)
        if not found.right and misconception in found.misconceptions[:1]:
            return answer
    return None


def shown_by(question: Question) -> tuple[str, ...]:
    """Return the misconceptions that a question can show, each once."""
    listed = [one.misconception for one in (*question.options, *question.reasons)]
    named = [*listed, *(mistake.misconception for mistake in question.mistakes)]
    return tuple(dict.fromkeys(name for name in named if name))


def _picked(question: Question, sheet: Sheet) -> Answer:
    return Answer(item=sheet.item, chosen=question.key.id)


def _all(question: Question, sheet: Sheet) -> Answer:
    return Answer(item=sheet.item, given=tuple(option.id for option in question.right))


def _on_drawing(question: Question, sheet: Sheet) -> Answer:
    return (_all if question.kind == "spot" else _picked)(question, sheet)


def _in_order(question: Question, sheet: Sheet) -> Answer:
    return Answer(item=sheet.item, given=tuple(option.id for option in question.options))


def _matched(_question: Question, sheet: Sheet) -> Answer:
    return Answer(item=sheet.item, given=sheet.order)


def _with_reason(question: Question, sheet: Sheet) -> Answer:
    reasons = tuple(reason.id for reason in question.reasons if reason.right)
    return Answer(item=sheet.item, chosen=question.key.id, given=reasons)


def _number(question: Question, sheet: Sheet) -> Answer:
    assert isinstance(question, Number)  # noqa: S101  (the table below says so)
    worked = drills.worked(question.drill, sheet.drawn)
    return Answer(item=sheet.item, value=show(worked.rounded, question.unit, PLACES))


KNOWING: Mapping[type[Question], Callable[[Question, Sheet], Answer]] = {
    PickOne: _picked,
    PickAll: _all,
    OnDrawing: _on_drawing,
    Order: _in_order,
    Match: _matched,
    Reasoned: _with_reason,
    Number: _number,
}


def _mistaken(question: Question, sheet: Sheet) -> Iterator[Answer]:
    """Give the answers that are wrong in one thing."""
    if isinstance(question, Number):
        return
    right = right_answer(question, sheet)
    if isinstance(question, Order | Match):
        for mistake in question.mistakes:
            yield _swapped(question, right, mistake.first, mistake.then)
    elif isinstance(question, Reasoned):
        yield from (Answer(item=sheet.item, chosen=option.id, given=right.given) for option in question.options)
        yield from (Answer(item=sheet.item, chosen=right.chosen, given=(reason.id,)) for reason in question.reasons)
    elif right.given:
        yield from (_toggled(question, right, option.id) for option in question.options)
    else:
        yield from (Answer(item=sheet.item, chosen=option.id) for option in question.options)


def _toggled(question: Question, right: Answer, ident: str) -> Answer:
    kept = {*right.given} ^ {ident}
    return Answer(item=right.item, given=tuple(option.id for option in question.options if option.id in kept))


def _swapped(question: Question, right: Answer, first: str, then: str) -> Answer:
    """Put a step right before the one that it belongs after, or change the partners of two."""
    given = list(right.given)
    if isinstance(question, Order):
        given.remove(first)
        given.insert(given.index(then), first)
    else:
        one, other = given.index(first), given.index(then)
        given[one], given[other] = given[other], given[one]
    return Answer(item=right.item, given=tuple(given))
