"""The machines of the site and what is on file about them."""

from collections.abc import Mapping
from dataclasses import dataclass

from sqlalchemy import select

from trainer.errors import Missing, RecordError
from trainer.records import names
from trainer.records.models import Machine
from trainer.records.work import Reading, Writing
from trainer.wording import say


@dataclass(frozen=True, slots=True, kw_only=True)
class MachineRow:
    """A machine. A fact that nobody has measured is not in ``facts``."""

    id: str
    kind: str
    name: str
    facts: Mapping[str, str]
    in_use: bool


def add(
    w: Writing,
    *,
    id: str,  # noqa: A002  (what it is called everywhere)
    kind: str,
    name: str,
    facts: Mapping[str, str] | None = None,
    in_use: bool = True,
) -> MachineRow:
    """Add a machine; :class:`RecordError` when there is one of that id already."""
    key = names.code(id, "machine number")
    if w.session.get(Machine, key) is not None:
        raise RecordError(say("There is a machine {machine} already.", machine=key))
    made = Machine(
        id=key,
        kind=names.code(kind, "kind"),
        name=names.checked(name),
        facts=dict(facts or {}),
        in_use=in_use,
        recorded_at=w.now(),
    )
    w.session.add(made)
    w.session.flush()
    return _row(made)


def get(r: Reading, machine: str) -> MachineRow:
    """Return a machine; :class:`Missing` where there is none of that id."""
    found = r.session.get(Machine, machine)
    if found is None:
        raise Missing(say("There is no machine {machine}.", machine=machine))
    return _row(found)


def all_machines(r: Reading, *, in_use: bool | None = None) -> list[MachineRow]:
    """Return every machine in the order of the ids; with ``in_use`` only those that are, or are not, in use."""
    query = select(Machine).order_by(Machine.id)
    if in_use is not None:
        query = query.where(Machine.in_use == in_use)
    return [_row(found) for found in r.session.scalars(query)]


def _row(machine: Machine) -> MachineRow:
    return MachineRow(
        id=machine.id, kind=machine.kind, name=machine.name, facts=dict(machine.facts), in_use=machine.in_use
    )
