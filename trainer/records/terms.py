"""What a programme asks for, as plain data: a copy of it is kept with each sitting and in each entry."""

from typing import Any

from trainer.bank import Bank
from trainer.bank.model import Programme
from trainer.records.duedates import Policy


def policy(programme: Programme) -> Policy:
    """Return the due-date policy of a programme, as it is for grown-up people."""
    return Policy(period=programme.interval, warn_days=programme.warn_days, **programme.due.model_dump())


def of(bank: Bank, programme: str, ruled: Policy | None = None) -> dict[str, Any]:
    """Return the terms of a programme; :class:`~trainer.errors.Missing` where the bank has none of that id.

    ``ruled`` is the due-date policy where the site has set another than the content's.
    """
    found = bank.programme(programme)
    return {
        "programme": found.id,
        "programme_kind": found.kind.value,
        "role": found.role.value,
        "machine_kinds": [kind.value for kind in found.machine_kinds],
        "checklist": found.checklist,
        "pass_share": str(found.pass_share),
        "policy": (ruled or policy(found)).as_data(),
        "edition": bank.edition,
        "fingerprint": bank.fingerprint,
        **({"stops": found.stops.model_dump()} if found.stops else {}),
    }
