"""Every place in the database that leads to a person, and what becomes of it. A test compares this with the tables."""

from collections.abc import Mapping
from typing import Literal

Fate = Literal["taken out", "opaque key stays"]

PLACES: Mapping[str, Fate] = {
    "asked.person": "taken out",
    "asked.to": "opaque key stays",
    "asked_answer.by": "opaque key stays",
    "entry.by": "opaque key stays",
    "entry.person": "opaque key stays",
    "hazard.person": "taken out",
    "hazard_answer.by": "opaque key stays",
    "head.chain": "opaque key stays",
    "kiosk.invited_by": "opaque key stays",
    "kiosk.withdrawn_by": "opaque key stays",
    "machine_fact.by": "opaque key stays",
    "machine_reading.by": "opaque key stays",
    "mail_address.person": "taken out",
    "person.key": "opaque key stays",
    "person_name.person": "taken out",
    "person_role.person": "taken out",
    "privacy_request.answered_by": "opaque key stays",
    "privacy_request.by": "opaque key stays",
    "privacy_request.person": "opaque key stays",
    "reminder.person": "taken out",
    "reminder.recipient": "taken out",
    "retention_rule.by": "opaque key stays",
    "retention_run.by": "opaque key stays",
    "roster_import.by": "opaque key stays",
    "secret.person": "taken out",
    "sign_in.person": "taken out",
    "sitting.person": "opaque key stays",
    "web_session.person": "taken out",
}
