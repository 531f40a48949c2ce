"""What the body of an entry holds: what each kind must say, and how the body of a sitting is put together."""

from collections.abc import Mapping
from datetime import date
from typing import Any

from trainer.errors import UsageError
from trainer.records.chain import EntryKind
from trainer.records.duedates import Policy
from trainer.records.instants import instant_text
from trainer.records.sittingrows import AnswerRow, SittingRow
from trainer.wording import say

NEEDED: Mapping[EntryKind, frozenset[str]] = {
    EntryKind.ASSIGNED: frozenset({"programme", "reason"}),
    EntryKind.ATTENDED: frozenset({"topic"}),
    EntryKind.SITTING_MARKED: frozenset(
        {"programme", "machine_kinds", "policy", "passed", "score", "critical_missed", "items"}
    ),
    EntryKind.PRACTICAL_SIGNED: frozenset({"machine", "role", "checklist", "result", "entitlement"}),
    EntryKind.PRIOR_ACCEPTED: frozenset({"programme", "machine_kinds", "policy", "trained_on", "evidence"}),
    EntryKind.EXCUSED: frozenset({"programme", "until", "reason"}),
    EntryKind.SUSPENDED: frozenset({"reason"}),
    EntryKind.REINSTATED: frozenset({"suspension", "reason"}),
    EntryKind.CORRECTED: frozenset({"corrects", "effect", "reason"}),
    EntryKind.MOVED: frozenset({"entry", "direction", "reason"}),
    EntryKind.EVENT: frozenset({"event", "note"}),
    EntryKind.ENTITLED: frozenset({"machine_kinds", "roles", "basis", "valid_to"}),
    EntryKind.RULED: frozenset({"subject", "programme", "value", "from", "reason"}),
}
REVOKING = frozenset({"revokes", "reason"})  # an entry of the last kind that ends a right
TERMS = ("programme", "programme_kind", "role", "machine_kinds", "policy")


def must_be_whole(kind: EntryKind, body: Mapping[str, Any]) -> None:
    """Raise :class:`UsageError` when a body lacks what its kind must say; whoever reads it later relies on it."""
    needed = REVOKING if "revokes" in body else NEEDED[kind]
    lacking = sorted(needed - set(body))
    if lacking:
        raise UsageError(say("An entry of the kind {kind} lacks {what}.", kind=kind.value, what=", ".join(lacking)))


def sitting_marked(
    sitting: SittingRow, result: Mapping[str, Any], policy: Policy, due_on: date | None
) -> dict[str, Any]:
    """Return the body of a marked sitting: all that is needed to print it again as it was.

    ``policy`` is the due-date policy as it applies to this person, ``due_on`` when a passed one has to be renewed.
    Only what was marked is listed; a sheet without an answer counts as wrong and says ``"verdict": "none"``. Of a paper
    that its stopping rule ended, what was not asked any more is left out, and ``stops`` says by which rule.
    """
    paper, passed = sitting.paper, bool(result["passed"])
    body = {name: sitting.terms[name] for name in TERMS}
    body["policy"] = policy.as_data()
    body |= {name: paper[name] for name in ("edition", "fingerprint", "seed")}
    body |= {
        "sitting": sitting.id,
        "language": sitting.language,
        "languages": list(sitting.languages),
        "kiosk": sitting.kiosk,
        "started_at": instant_text(sitting.started_at),
        "ended_at": instant_text(sitting.ended_at or sitting.started_at),
        "items": [_item(sheet, sitting.answers.get(sheet["number"])) for sheet in _marked(paper)],
        "score": {"right": result["right"], "out_of": result["out_of"]},
        "needed": result["needed"],
        "critical_missed": list(result["critical_missed"]),
        "passed": passed,
    }
    if result.get("ended_early"):
        body["ended_early"] = True
        body["items"] = [item for item in body["items"] if item["verdict"] != "none"]
    if "stops" in sitting.terms:
        body["stops"] = dict(sitting.terms["stops"])
    if due_on is not None:
        body["due_on"] = due_on.isoformat()
    return body


def _marked(paper: Mapping[str, Any]) -> list[Mapping[str, Any]]:
    return [sheet for sheet in paper["sheets"] if sheet["kind"] != "lesson"]


def _item(sheet: Mapping[str, Any], answer: AnswerRow | None) -> dict[str, Any]:
    item = {name: sheet.get(name) for name in ("item", "version", "kind", "competency", "critical")}
    item |= {"order": list(sheet.get("order") or ()), "drawn": dict(sheet.get("drawn") or {})}
    if answer is None:
        return {**item, "verdict": "none", "right": False}
    mark = {name: answer.mark.get(name) for name in ("verdict", "right", "misconception", "slips", "gap", "needed")}
    given = {name: answer.answer.get(name) for name in ("chosen", "value")}
    listed = {"given": answer.answer.get("given"), "others": answer.mark.get("others"), "second": sheet.get("second")}
    given |= {name: list(found) for name, found in listed.items() if found}
    return {**item, **given, **mark, "language": answer.language, "took_ms": answer.took_ms}
