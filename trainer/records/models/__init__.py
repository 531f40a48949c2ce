"""ORM classes; nothing outside records imports them."""

from trainer.records.models.access import Secret, SignIn, Throttle
from trainer.records.models.base import Base
from trainer.records.models.editions import Edition
from trainer.records.models.imports import RosterImport
from trainer.records.models.kiosks import Kiosk
from trainer.records.models.ledger import Checkpoint, Entry, Head
from trainer.records.models.machines import Machine, MachineFact, MachineReading
from trainer.records.models.people import Person, PersonName, PersonRole
from trainer.records.models.privacy import PrivacyRequest, RetentionRule, RetentionRun
from trainer.records.models.reminders import MailAddress, Reminder
from trainer.records.models.reports import Asked, AskedAnswer, Hazard, HazardAnswer
from trainer.records.models.sessions import WebSession
from trainer.records.models.sittings import Answer, Sitting, SittingLock

__all__ = [
    "Answer",
    "Asked",
    "AskedAnswer",
    "Base",
    "Checkpoint",
    "Edition",
    "Entry",
    "Hazard",
    "HazardAnswer",
    "Head",
    "Kiosk",
    "Machine",
    "MachineFact",
    "MachineReading",
    "MailAddress",
    "Person",
    "PersonName",
    "PersonRole",
    "PrivacyRequest",
    "Reminder",
    "RetentionRule",
    "RetentionRun",
    "RosterImport",
    "Secret",
    "SignIn",
    "Sitting",
    "SittingLock",
    "Throttle",
    "WebSession",
]
