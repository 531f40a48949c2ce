"""Pressing answers: what a sheet holds after one more press, and whether that is a whole answer.

An answer to a list is kept in ``given``. To press what applies, and places of a drawing: the ids that are pressed. To put
steps in order: the ids in the order in which they were pressed. To match: one entry for each option as shown, the id of
its partner or :data:`HOLE`. For a choice with its reason, ``chosen`` is the choice and ``given`` holds the reason.
Whatever was pressed can be taken back by pressing it again.
"""

from dataclasses import dataclass

from trainer.assessment.paper import Sheet
from trainer.bank.model import Match, OnDrawing, Order, PickAll, Question, Reasoned

HOLE = "-"  # nothing yet


@dataclass(frozen=True, slots=True)
class Pressed:
    """What is pressed on a sheet so far."""

    chosen: str | None = None
    given: tuple[str, ...] = ()


def takes_presses(question: object) -> bool:
    """Say whether a sheet takes more than one press: its answer grows with each of them."""
    several = isinstance(question, PickAll | Order | Match | Reasoned)
    return several or (isinstance(question, OnDrawing) and question.kind == "spot")


def press(question: Question, sheet: Sheet, held: Pressed, row: str) -> Pressed:
    """Return what is pressed after ``row``: an option, or ``second:`` with the id of a reason or a partner."""
    listed, _, ident = row.rpartition(":")
    if isinstance(question, Reasoned):
        return Pressed(held.chosen, (ident,)) if listed else Pressed(ident, held.given)
    if isinstance(question, Match):
        return Pressed(given=_matched(held.given or (HOLE,) * len(sheet.order), ident))
    return Pressed(given=_toggled(held.given, ident, None if isinstance(question, Order) else sheet.order))


def whole(question: object, sheet: Sheet, held: Pressed) -> bool:
    """Say whether what is pressed answers the sheet."""
    if isinstance(question, Reasoned):
        return held.chosen in sheet.order and len(held.given) == 1
    if isinstance(question, Order):
        return sorted(held.given) == sorted(sheet.order)
    if isinstance(question, Match):
        return sorted(held.given) == sorted(sheet.second)
    if takes_presses(question):
        return bool(held.given)
    return held.chosen is not None


def known(sheet: Sheet, question: Question, held: Pressed) -> bool:
    """Say whether everything pressed stands on the sheet, and nothing twice."""
    rows = sheet.second if isinstance(question, Match | Reasoned) else sheet.order
    listed = [one for one in held.given if one != HOLE]
    chosen = held.chosen is None or held.chosen in sheet.order
    return chosen and len(set(listed)) == len(listed) and set(listed) <= set(rows)


def _toggled(given: tuple[str, ...], row: str, order: tuple[str, ...] | None) -> tuple[str, ...]:
    kept = tuple(one for one in given if one != row) if row in given else (*given, row)
    return kept if order is None else tuple(one for one in order if one in kept)


def _matched(given: tuple[str, ...], row: str) -> tuple[str, ...]:
    """Put a partner to the first option that has none; one that was put somewhere comes back."""
    if row in given:
        return tuple(HOLE if one == row else one for one in given)
    if HOLE not in given:
        return given
    free = given.index(HOLE)
    return (*given[:free], row, *given[free + 1 :])
