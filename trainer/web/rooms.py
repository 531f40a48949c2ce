"""What the doors open on to: the bank, the record, the clock and the settings of this application."""

from dataclasses import dataclass

from flask import current_app

from trainer.bank import Bank
from trainer.clock import Clock
from trainer.records import Record
from trainer.settings import Settings


@dataclass(frozen=True, slots=True, kw_only=True)
class Rooms:
    """The rooms behind the doors."""

    settings: Settings
    bank: Bank
    record: Record
    clock: Clock


def rooms() -> Rooms:
    """Return the rooms of the application that answers this request."""
    found: Rooms = current_app.extensions["trainer"]
    return found
