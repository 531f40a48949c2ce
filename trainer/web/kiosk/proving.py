"""Proving who one is at this kiosk: number or badge with a PIN. Tries are counted here as everywhere."""

from flask import g

from trainer.records import access
from trainer.records.people import PersonRow
from trainer.web.kiosk.enrolment import here
from trainer.web.rooms import rooms


def proved(code: str, pin: str) -> PersonRow:
    """Return whose number and PIN these are. Raises :class:`~trainer.records.access.SignInRefused`."""
    with rooms().record.writing() as w:
        return access.sign_in_pin(w, code, pin, place=where())


def prove_again(pin: str) -> None:
    """Let go on only who is signed in. Raises :class:`~trainer.records.access.SignInRefused`."""
    proved(g.person.number, pin)


def where() -> str:
    """Name this kiosk for the log of sign-ins."""
    return f"kiosk:{here()}"
