"""Taking a roster: all of it in the caller's one transaction, or nothing."""

from collections.abc import Mapping, Sequence

from trainer.errors import RecordError, UsageError
from trainer.records import people
from trainer.records.roster.fates import Act, Plan
from trainer.records.roster.imports import keep
from trainer.records.roster.plan import check
from trainer.records.work import Writing
from trainer.wording import say


def take(
    w: Writing,
    data: bytes,
    *,
    by: str | None,
    file: str = "",
    answers: Mapping[str, str] | None = None,
    code: str | None = None,
) -> Plan:
    """Compare a file with the record as it is now, do all of what that comes to, and return it.

    ``by`` is the key of who answers for it, needed where somebody leaves or is back; ``code`` that of the plan which a
    person has seen. Raises :class:`RecordError` when the plan is not ready or is another one by now.
    """
    plan = check(w, data, file=file, answers=answers)
    if not plan.ready:
        raise RecordError(say("Nothing was taken: {count} findings stand against it.", count=len(plan.report.errors)))
    if code is not None and code != plan.code:
        raise RecordError("The record has changed since this was shown; look at it again.")
    if by is None and any(act.logged for act in plan.acts):
        raise UsageError("Somebody leaves or is back; say who answers for this import.")
    _do(w, plan.acts, by or "", reason=f"roster {plan.file_digest[:12]}")
    keep(w, plan, by=by)
    return plan


def _do(w: Writing, acts: Sequence[Act], by: str, *, reason: str) -> None:
    """Do all acts in an order in which no number or badge is ever held twice: who leaves first, who is new last."""
    known = [act for act in acts if act.key is not None]
    for act in known:
        if act.leave_on is not None and act.back_on is None:
            people.leave(w, act.key or "", on=act.leave_on, by=by, reason=reason)
    for act in known:
        freed = dict.fromkeys((*act.frees, *(("badge",) if act.fields.get("badge") else ())))
        if freed:
            people.change(w, act.key or "", **freed)
    for act in known:
        _update(w, act, by, reason)
    for act in acts:
        if act.key is None:
            _add(w, act, by, reason)


def _update(w: Writing, act: Act, by: str, reason: str) -> None:
    key = act.key or ""
    now = people.must(w, key)
    if act.number is not None or act.name is not None or act.sort_name is not None:
        sort_name = act.sort_name or (now.sort_name if act.name is None else None)
        people.rename(w, key, name=act.name or now.name, sort_name=sort_name, number=act.number)
    if act.back_on is not None:
        people.come_back(w, key, on=act.back_on, by=by, reason=reason)
    if act.fields:
        people.change(w, key, **act.fields)
    if act.back_on is not None and act.leave_on is not None:
        people.leave(w, key, on=act.leave_on, by=by, reason=reason)


def _add(w: Writing, act: Act, by: str, reason: str) -> None:
    row = people.add(w, number=act.number or "", name=act.name or "", sort_name=act.sort_name, **act.fields)
    if act.leave_on is not None:
        people.leave(w, row.key, on=act.leave_on, by=by, reason=reason)
