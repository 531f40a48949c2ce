"""Looking back on a list: each row of an answer beside what is right, with a word on it."""

from trainer.assessment.feedback import Feedback
from trainer.assessment.lists import Part
from trainer.assessment.paper import Sheet
from trainer.assessment.pressing import HOLE
from trainer.bank.model import Match, OnDrawing, Option, Order, Question
from trainer.web import language
from trainer.web.kiosk import pressed
from trainer.web.kiosk.pages import Looked
from trainer.web.words import _

SECOND = "second:"


def looked(question: Question, sheet: Sheet, said: Feedback) -> tuple[Looked, ...]:
    """Return the rows of an answer as they are looked back on."""
    return tuple(filter(None, (_row(question, sheet, part) for part in said.parts)))


def _row(question: Question, sheet: Sheet, part: Part) -> Looked | None:
    if isinstance(question, Order):
        return _step(question, part)
    if isinstance(question, Match):
        return _pair(question, part)
    if isinstance(question, OnDrawing) and not part.yours and not part.needed:
        return None  # its balloon in the drawing is enough
    listed = question.reasons if part.ident.startswith(SECOND) else question.options
    option = _found(listed, part.ident.removeprefix(SECOND))
    return Looked(
        ring=pressed.ring(question, sheet, part.ident),
        words=_words(option),
        partner="",
        state=("good" if part.good else "bad") if part.yours or part.needed else "",
        word=_word(question, part),
    )


def _word(question: Question, part: Part) -> str:
    fault = isinstance(question, OnDrawing) and question.kind == "spot"
    if part.yours and part.needed:
        return _("found") if fault else _("right")
    if part.yours:
        return _("this is in order") if fault else _("not so")
    if part.needed:
        return _("missed") if fault else _("this is right")
    return ""


def _step(question: Order, part: Part) -> Looked:
    word = "" if part.good else _("yours: %(number)s", number=part.yours or HOLE)
    option = _found(question.options, part.ident)
    return Looked(ring=part.needed, words=_words(option), partner="", state="good" if part.good else "bad", word=word)


def _pair(question: Match, part: Part) -> Looked:
    mine, right = (_found(question.options, ident) for ident in (part.yours, part.needed))
    yours = mine.partner.in_(language.current()) if mine and mine.partner else HOLE
    return Looked(
        ring="",
        words=_words(_found(question.options, part.ident)),
        partner=right.partner.in_(language.current()) if right and right.partner else "",
        state="good" if part.good else "bad",
        word=_("right") if part.good else _("yours: %(words)s", words=yours),
    )


def _found(options: tuple[Option, ...], ident: str) -> Option | None:
    return next((option for option in options if option.id == ident), None)


def _words(option: Option | None) -> str:
    return option.text.in_(language.current()) if option else ""
