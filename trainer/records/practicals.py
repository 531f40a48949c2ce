"""Signing off practice at the machine. The one who signs is never the one who was watched, and has the right to."""

from collections.abc import Mapping
from datetime import date
from typing import Any

from trainer.bank import Bank
from trainer.bank.model import Checklist
from trainer.errors import Missing, NotEntitled, RecordError, UsageError
from trainer.records import acts, ledger, machines
from trainer.records.chain import Entry, EntryKind
from trainer.records.entitlements import Entitlement, entitlements, may_judge
from trainer.records.machines import MachineRow
from trainer.records.presence import must_be_here
from trainer.records.work import Writing
from trainer.wording import say

__all__ = ["FAILED", "RIGHT", "Entitlement", "entitlements", "may_judge", "sign"]

RIGHT, FAILED = "right", "failed"


def sign(
    w: Writing,
    bank: Bank,
    *,
    person: str,
    evaluator: str,
    machine: str,
    checklist: str,
    role: str,
    steps: Mapping[str, str | None],
    comment: str,
    happened_on: date,
) -> Entry:
    """Sign what was watched at a machine and append it; ``body["result"]`` is ``passed`` or ``failed``.

    Every step has an outcome, ``right`` or ``failed``; only after a failed critical step, which ends it, may the rest
    stay None. Raises :class:`NotEntitled` when the evaluator had no right to judge this on that day,
    :class:`RecordError` or :class:`UsageError` for anything else that is missing, :class:`Missing` for unknown names.
    """
    if evaluator == person:
        raise NotEntitled("Nobody signs for themselves; another entitled person has to watch.")
    must_be_here(w, person, happened_on)
    must_be_here(w, evaluator, happened_on)
    place = machines.get(w, machine)
    listed = _checklist(bank, checklist, place, role)
    body = {
        "checklist": checklist,
        "machine": machine,
        "machine_kind": place.kind,
        "role": role,
        "evaluator": evaluator,
        "entitlement": _right(w, evaluator, place.kind, role, happened_on),
        "edition": bank.edition,
        "fingerprint": bank.fingerprint,
        "comment": comment.strip(),
        **_outcome(listed, steps, comment),
    }
    made = ledger.append(w, person, EntryKind.PRACTICAL_SIGNED, body, happened_on=happened_on, by=evaluator)
    _changed_since(w, made, place.id)
    return made


def _changed_since(w: Writing, made: Entry, machine: str) -> None:
    """Note the changes of the machine since a practical that is keyed in late: it is no longer as it was."""
    for change in acts.changed_after(w, machine, made.happened_on):
        acts.event(
            w,
            person=made.person,
            event="machine-changed",
            note=change.value,
            by=made.by,
            happened_on=change.on,
            machine=machine,
        )


def _right(w: Writing, evaluator: str, machine_kind: str, role: str, on: date) -> int:
    found = may_judge(w, evaluator, machine_kind, role, on)
    if found is None:
        text = "No right to judge {role} on this kind of machine is on record for {day}."
        raise NotEntitled(say(text, role=role, day=on.isoformat()))
    return found.number


def _checklist(bank: Bank, checklist: str, machine: MachineRow, role: str) -> Checklist:
    found = bank.checklists.get(checklist)
    if found is None:
        raise Missing(say("The bank has no checklist {checklist}.", checklist=checklist))
    if machine.kind not in {kind.value for kind in found.machine_kinds} or found.role.value != role:
        raise UsageError(
            say(
                "The checklist {checklist} is not for {role} on {machine}.",
                checklist=checklist,
                role=role,
                machine=machine.id,
            )
        )
    return found


def _outcome(checklist: Checklist, steps: Mapping[str, str | None], comment: str) -> dict[str, Any]:
    unknown = set(steps) - {step.id for step in checklist.steps}
    if unknown or not {value for value in steps.values() if value is not None} <= {RIGHT, FAILED}:
        raise UsageError("A step is one of the checklist's and is right or failed.")
    failed = [step for step in checklist.steps if steps.get(step.id) == FAILED]
    critical = [step.id for step in failed if step.critical]
    open_steps = [step for step in checklist.steps if steps.get(step.id) is None]
    if open_steps and not critical:
        raise RecordError(say("{count} steps have no outcome yet.", count=len(open_steps)))
    if failed and not comment.strip():
        raise RecordError("A failed step needs a comment that says what was seen.")
    return {
        "steps": {step.id: steps.get(step.id) for step in checklist.steps},
        "critical_failed": critical,
        "result": "failed" if critical else "passed",
    }
