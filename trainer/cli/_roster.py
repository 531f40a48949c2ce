"""How ``trainer roster`` reads its answers and shows a plan."""

from collections.abc import Iterator
from typing import Any

from trainer.errors import UsageError
from trainer.records.roster import Plan, Question, Row
from trainer.wording import say


def read_answers(answers: tuple[str, ...], columns: tuple[str, ...]) -> dict[str, str]:
    """Read ``ID=CHOICE`` and ``FIELD=HEAD``; an id may hold an equals sign, a choice holds none."""
    found: dict[str, str] = {}
    for text in answers:
        key, sign, value = text.rpartition("=")
        if not sign or not key or not value:
            raise UsageError(say("{text!r} is no answer; write it as encoding=cp1252.", text=text))
        found[key] = value
    for text in columns:
        field, sign, head = text.partition("=")
        if not sign or not field or not head:
            raise UsageError(say("{text!r} names no column; write it as number=Clock no.", text=text))
        found[f"column:{field}"] = head
    return found


def lines(plan: Plan) -> Iterator[str]:
    """Give a plan as lines to read: how the file was read, every row's fate, what is asked, what it comes to."""
    yield from map(str, plan.told)
    if plan.dropped:
        yield f"Not stored: {', '.join(plan.dropped)}."
    if plan.samples:
        yield f"Names as read: {' · '.join(plan.samples)}"
    for row in plan.rows:
        yield from _row(row)
    for number, name in plan.absent:
        yield f"{'absent':>18}  {number} {name}"
    for finding in plan.report:
        if finding.code not in {"open-question", "refused-row"}:
            yield str(finding)
    for question in plan.questions:
        yield from _question(question)
    counts = ", ".join(f"{count} {fate.value}" for fate, count in plan.counts.items()) or "no rows"
    yield f"{counts}. {len(plan.acts)} to be done, {len(plan.report.errors)} against it."


def _row(row: Row) -> Iterator[str]:
    yield f"{f'line {row.line}':>9}  {row.fate.value:>9}  {row.number} {row.name}".rstrip()
    for change in row.changes:
        yield f"{'':22}{change.field}: {change.old or '(nothing)'} → {change.new}"
    for reason in row.reasons:
        yield f"{'':22}{reason}"
    for refusal in row.refusals:
        head = f"{refusal.head}: " if refusal.head else ""
        yield f"{'':22}{head}{refusal.told} {refusal.right}"


def _question(question: Question) -> Iterator[str]:
    where = f" (line {question.line})" if question.line else ""
    yield f"? {question.sentence}{where}"
    for choice in question.choices:
        yield f"    --answer {question.id}={choice.value}    {choice.sentence}"
    if question.takes_day:
        yield f"    --answer {question.id}=DATE    that was their last day, such as 2026-03-09"


def as_data(plan: Plan) -> dict[str, Any]:
    """Return a plan as plain data."""
    return {
        "file": plan.file,
        "file_digest": plan.file_digest,
        "code": plan.code,
        "ready": plan.ready,
        "told": list(map(str, plan.told)),
        "dropped": list(plan.dropped),
        "samples": list(plan.samples),
        "counts": {fate.value: count for fate, count in plan.counts.items()},
        "to_do": len(plan.acts),
        "rows": list(map(_row_data, plan.rows)),
        "absent": [{"number": number, "name": name} for number, name in plan.absent],
        "questions": list(map(_question_data, plan.questions)),
        "settled": dict(plan.settled),
        "findings": plan.report.as_data(),
    }


def _row_data(row: Row) -> dict[str, Any]:
    return {
        "line": row.line,
        "fate": row.fate.value,
        "number": row.number,
        "name": row.name,
        "read": dict(row.read),
        "reasons": list(map(str, row.reasons)),
        "refusals": [{"column": one.head, "told": str(one.told), "right": str(one.right)} for one in row.refusals],
        "changes": [{"field": one.field, "old": one.old, "new": one.new} for one in row.changes],
    }


def _question_data(question: Question) -> dict[str, Any]:
    return {
        "id": question.id,
        "line": question.line,
        "asked": str(question.sentence),
        "choices": [{"answer": choice.value, "told": str(choice.sentence)} for choice in question.choices],
        "takes_day": question.takes_day,
    }
