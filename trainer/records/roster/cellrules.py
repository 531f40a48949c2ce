"""What one cell may hold, by the field it is for. A value that a spreadsheet has damaged is refused, never mended."""

import re
from collections.abc import Callable

from trainer.errors import UsageError
from trainer.records import names
from trainer.records.people import PersonKind
from trainer.records.roster.cells import Cell, Kind
from trainer.records.roster.decoding import damaged
from trainer.records.roster.refusals import Refusal
from trainer.wording import say

FORMULA_ARMOUR = re.compile(r'="([^"]*)"')
EXPONENT = re.compile(r"[+-]?\d+(?:[.,]\d+)?[eE][+-]\d+|[+-]?\d+[.,]\d+[eE]\d+")
DECIMAL = re.compile(r"\d+[.,]0+")
RISKY = frozenset("=+-@\t\r\n\0\uff1d\uff0b\uff0d\uff20")  # what exports guard with an apostrophe
LANGUAGE = re.compile(r"[a-z]{2,3}(?:-[A-Za-z]{2,4})?")
KINDS = {
    "employee": "employee", "empleado": "employee", "empleada": "employee", "permanent": "employee", "fijo": "employee",
    "agency": "agency", "temp": "agency", "temporary": "agency", "agencia": "agency", "ett": "agency",
    "contractor": "contractor", "contratista": "contractor",
}  # fmt: skip
AS_TEXT = say("Format the column as text in the source and export it again.")

Value = str | Refusal


def number(cell: Cell) -> Value:
    """Return a number or badge without the signs that spreadsheets are warded off with."""
    if refusal := _not_text(cell, {Kind.NUMBER, Kind.PADDED}):
        return refusal
    armoured = FORMULA_ARMOUR.fullmatch(cell.text)
    bare = armoured[1] if armoured else cell.text.removeprefix("'")
    if EXPONENT.fullmatch(bare):
        told = say("{text} is what a spreadsheet makes of a long number; its digits are lost.", text=bare)
        return Refusal(told, AS_TEXT)
    if DECIMAL.fullmatch(bare) or (cell.kind is Kind.NUMBER and not bare.isdigit()):
        return Refusal(say("{text} went through a program that took it for an amount.", text=bare), AS_TEXT)
    return _checked(bare, lambda text: names.code(text, "number"))


def name(cell: Cell) -> Value:
    """Return a name as given; only the apostrophe is taken off that exports put in front of a formula's sign."""
    if refusal := _not_text(cell, set()):
        return refusal
    if refusal := _damaged(cell.text):
        return refusal
    return _checked(unguarded(cell.text), names.checked)


def word(cell: Cell) -> Value:
    """Return a short text such as a shift."""
    if refusal := _not_text(cell, {Kind.NUMBER, Kind.PADDED}):
        return refusal
    if cell.kind is Kind.NUMBER and not cell.text.isdigit():
        return Refusal(
            say("{text} is a number to the spreadsheet; a text such as 3E5 becomes one.", text=cell.text), AS_TEXT
        )
    if refusal := _damaged(cell.text):
        return refusal
    return _checked(unguarded(cell.text), lambda text: names.short(text, "text"))


def language(cell: Cell) -> Value:
    """Return the code of a language."""
    code = cell.text
    if LANGUAGE.fullmatch(code):
        return code
    told = say("{text} is no code of a language.", text=code[:40])
    return Refusal(told, say("Write the code, such as en or es."))


def kind(cell: Cell) -> Value:
    """Return how somebody belongs to the site."""
    found = KINDS.get(names.folded(cell.text))
    if found is not None:
        return found
    told = say("{text} is no kind of person.", text=cell.text[:40])
    return Refusal(told, say("Write one of {kinds}.", kinds=", ".join(PersonKind)))


def unguarded(text: str) -> str:
    """Take off the apostrophe that exports put in front of a cell which a spreadsheet would run."""
    return text[1:] if text[:1] == "'" and text[1:2] and text[1] in RISKY else text


def _not_text(cell: Cell, besides: set[Kind]) -> Refusal | None:
    if cell.kind is Kind.TEXT or cell.kind in besides:
        return None
    told = {
        Kind.DAY: say("{text} is a date to the spreadsheet; a text such as MAR1 becomes one.", text=cell.text),
        Kind.FORMULA: say("The cell holds the formula {text} and no text.", text=cell.text[:40]),
        Kind.FAULT: say("The cell holds the error {text}.", text=cell.text),
    }.get(cell.kind, say("{text} is no text to the spreadsheet.", text=cell.text))
    return Refusal(told, AS_TEXT)


def _damaged(text: str) -> Refusal | None:
    right = say("Export it again from the source, as UTF-8.")
    before = damaged(text)
    if before is not None:
        return Refusal(
            say("{text} was read in a wrong encoding before; it may be {before}.", text=text[:60], before=before[:60]),
            right,
        )
    if "\ufffd" in text or re.search(r"\w\?|\?\w", text):
        return Refusal(say("{text} has lost a letter to a wrong encoding.", text=text[:60]), right)
    return None


def _checked(text: str, rule: Callable[[str], str]) -> Value:
    try:
        return rule(text)
    except UsageError as error:
        return Refusal(error.sentence, say("Write it without that, as the person does."))
