"""What an act is: its blanks, what entering it does, and what has to be said before."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date

from trainer.bank import Bank
from trainer.records import Reading, Writing
from trainer.records.ledger import Entry
from trainer.records.people import PersonRow
from trainer.web.acting.blanks import Blank, Given
from trainer.web.words import _


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What somebody wants to do, and to whom. ``by`` is the key of the one who does it."""

    bank: Bank
    person: PersonRow
    given: Given
    by: str
    today: date


@dataclass(frozen=True, slots=True, kw_only=True)
class Act:
    """One kind of act.

    ``note`` says in half a sentence what it is, ``told`` what follows from it, ``empty`` what to say where it has
    nothing to act on. ``wide`` acts bear on others' standing too. ``second`` ones need a second person's PIN.
    """

    id: str
    title: object
    note: object
    told: tuple[object, ...]
    blanks: Callable[[Reading, Asked], tuple[Blank, ...]]
    do: Callable[[Writing, Asked], Sequence[Entry]]
    wide: bool = False
    second: bool = False


def why() -> Blank:
    """Return the blank for the reason."""
    return Blank(name="reason", label=_("Why; it stays on the record"), kind="long")


def when(label: str = "") -> Blank:
    """Return the blank for the day, which is today unless it is filled."""
    return Blank(name="on", label=label or _("on"), kind="day", hint=_("today"))
