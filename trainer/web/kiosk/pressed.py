"""Sheets that take several presses: all that apply, an order, places of a drawing, what belongs together, a reason."""

from collections.abc import Sequence
from string import ascii_uppercase

from trainer.assessment.answers import Answer
from trainer.assessment.paper import Sheet
from trainer.assessment.pressing import HOLE, Pressed, press, takes_presses, whole
from trainer.bank.bank import Item
from trainer.bank.model import Match, OnDrawing, Option, Order, Question, Reasoned
from trainer.web import language
from trainer.web.kiosk import work
from trainer.web.kiosk.pages import Row, Slot
from trainer.web.rooms import rooms
from trainer.web.words import _l

HINTS = {
    "pick-all": _l("Press each one that applies. Press again to take it back."),
    "spot": _l("Press each fault. Press again to take it back."),
    "order": _l("Press them in order, the first one first. Press again to take one back."),
    "match": _l("Press what belongs to the marked line. Press again to take it back."),
    "reasoned": _l("Press one on the left and one on the right."),
}


def held(desk: work.Desk) -> Pressed:
    """Return what is pressed and on disk."""
    return Answer.from_data(desk.answer.answer).pressed if desk.answer else Pressed()


def pressed_form(desk: work.Desk, row: str) -> dict[str, str]:
    """Return the form that says what is pressed after one more press."""
    item = rooms().bank.item(desk.sheet.item)
    assert isinstance(item, Question)  # noqa: S101  (only questions have rows)
    found = press(item, desk.sheet, held(desk), row)
    return {"choice": found.chosen or "", "given": " ".join(found.given)}


def is_whole(desk: work.Desk) -> bool:
    """Say whether there is an answer, and all of it."""
    item = rooms().bank.item(desk.sheet.item)
    if desk.answer is None:
        return False
    return not takes_presses(item) or whole(item, desk.sheet, held(desk))


def hint(item: Item) -> str:
    """Return how a sheet is answered, where one press is not all."""
    return str(HINTS.get(item.kind, "")) if isinstance(item, Question) else ""


def rows(question: Question, sheet: Sheet, now: Pressed) -> tuple[Row, ...]:
    """Return the rows on the right: options, partners or reasons."""
    if isinstance(question, Match):
        return tuple(_partners(question, sheet, now))
    if isinstance(question, Reasoned):
        listed = [one for ident in sheet.second if (one := question.reason(ident)) is not None]
        return tuple(_row(ascii_uppercase[i], one, one.id in now.given, "second:") for i, one in enumerate(listed, 3))
    listed = [one for ident in sheet.order if (one := question.option(ident)) is not None]
    if isinstance(question, Order):
        place = {one: str(number) for number, one in enumerate(now.given, 1)}
        return tuple(_row(place.get(one.id, ""), one, one.id in place) for one in listed)
    pressed = {*now.given, now.chosen}
    return tuple(_row(letter, one, one.id in pressed) for letter, one in zip(ascii_uppercase, listed, strict=False))


def firsts(question: Question, sheet: Sheet, now: Pressed) -> tuple[Row, ...]:
    """Return the rows on the left, of a choice that wants a reason."""
    if not isinstance(question, Reasoned):
        return ()
    listed = [one for ident in sheet.order if (one := question.option(ident)) is not None]
    return tuple(_row(ascii_uppercase[i], one, one.id == now.chosen) for i, one in enumerate(listed))


def slots(question: Question, sheet: Sheet, now: Pressed) -> tuple[Slot, ...]:
    """Return what the rows are matched with; the first without a partner is next."""
    if not isinstance(question, Match):
        return ()
    given = now.given or (HOLE,) * len(sheet.order)
    letters = dict(zip(sheet.second, ascii_uppercase, strict=False))
    following = given.index(HOLE) if HOLE in given else -1
    return tuple(
        Slot(
            number=str(number + 1),
            words=option.text.in_(language.current()) if (option := question.option(ident)) else ident,
            filled=letters.get(partner, ""),
            here=number == following,
        )
        for number, (ident, partner) in enumerate(zip(sheet.order, given, strict=False))
    )


def balloons(question: Question, sheet: Sheet, now: Pressed, *, marked: bool = False) -> tuple[dict[str, object], ...]:
    """Return the balloons of a question about places; ``marked`` shows what is right instead of what is pressed."""
    if not isinstance(question, OnDrawing):
        return ()
    pressed = {*now.given, now.chosen}
    return tuple(
        {"letter": letter, "at": option.at, "value": ident, "state": _state(option, ident in pressed, marked)}
        for letter, ident in zip(ascii_uppercase, sheet.order, strict=False)
        if (option := question.option(ident)) is not None
    )


def ring(question: Question, sheet: Sheet, ident: str) -> str:
    """Return the letter that a row has on its sheet; a step has none."""
    if isinstance(question, Order):
        return ""
    listed: Sequence[str] = sheet.order
    if isinstance(question, Reasoned):
        listed = [*sheet.order, *(f"second:{one}" for one in sheet.second)]
    return ascii_uppercase[listed.index(ident)] if ident in listed else ""


def _state(option: Option, pressed: bool, marked: bool) -> str:  # noqa: FBT001  (two yes-or-no facts)
    if marked:
        return "right" if option.right else "wrong" if pressed else ""
    return "pressed" if pressed else ""


def _row(letter: str, option: Option, pressed: bool, before: str = "") -> Row:  # noqa: FBT001
    return Row(letter=letter, value=f"{before}{option.id}", words=option.text.in_(language.current()), saved=pressed)


def _partners(question: Match, sheet: Sheet, now: Pressed) -> list[Row]:
    found = []
    for letter, ident in zip(ascii_uppercase, sheet.second, strict=False):
        option = question.option(ident)
        words = option.partner.in_(language.current()) if option and option.partner else ident
        found.append(Row(letter=letter, value=f"second:{ident}", words=words, saved=ident in now.given))
    return found
