"""Assigning programmes. An assignment is an entry; whether it is fulfilled is read from the ledger."""

from datetime import date
from typing import Any

from trainer.records import ledger, machines
from trainer.records.chain import Entry, EntryKind
from trainer.records.people import must
from trainer.records.work import Writing


def assign(
    w: Writing,
    *,
    person: str,
    programme: str,
    by: str,
    reason: str,
    happened_on: date,
    machine: str | None = None,
    due_on: date | None = None,
) -> Entry:
    """Assign a programme to a person, for one machine or for all of its kinds; ``reason`` says why, for the record."""
    must(w, person)
    body: dict[str, Any] = {"programme": programme, "reason": reason}
    if machine is not None:
        body["machine"] = machines.get(w, machine).id
    if due_on is not None:
        body["due_on"] = due_on.isoformat()
    return ledger.append(w, person, EntryKind.ASSIGNED, body, happened_on=happened_on, by=by)
