"""What one fact of the ledger says as xAPI statements: the result, and for a paper each answer too."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from datetime import UTC, date, datetime, time
from fractions import Fraction
from typing import Any
from uuid import UUID
from zoneinfo import ZoneInfo

from trainer.exports.activities import ADL, Activities
from trainer.records.chain import Entry, EntryKind
from trainer.records.effects import Fact
from trainer.records.entitlements import SUPERVISE
from trainer.records.instants import instant_text, read_instant

PASSED = {"id": f"{ADL}/verbs/passed", "display": {"en": "passed"}}
FAILED = {"id": f"{ADL}/verbs/failed", "display": {"en": "failed"}}
ANSWERED = {"id": f"{ADL}/verbs/answered", "display": {"en": "answered"}}


@dataclass(frozen=True, slots=True)
class Statement:
    """One statement without its id."""

    data: Mapping[str, Any]


def statements_of(fact: Fact, entry: Entry, activities: Activities) -> Iterator[Statement]:
    """Give the statements of a fact; ``entry`` is the one under which it is stated."""
    body = fact.body
    main = MAKERS[fact.kind](fact, activities)
    context = {**main.pop("context", {})}
    context["extensions"] = {
        **activities.entry_facts(entry),
        **activities.extensions(happened_on=fact.on.isoformat(), machine=body.get("machine"), role=body.get("role")),
        **activities.extensions(time=None if fact.trusted else "unverified"),
        **context.get("extensions", {}),
    }
    whole = {
        "actor": activities.account(fact.person),
        **main,
        "context": context,
        "timestamp": instant_text(_when(fact, entry)),
    }
    yield Statement(whole)
    if fact.kind is EntryKind.SITTING_MARKED:
        for item in body["items"]:
            if item["verdict"] != "none":
                yield Statement({**whole, **_answered(item, fact, context, activities)})


def _when(fact: Fact, entry: Entry) -> datetime:
    """Return when it happened: a paper's end, the moment of writing on that day, else midday; the record has days."""
    zone = ZoneInfo(entry.zone)
    ended = fact.body.get("ended_at")
    if ended is not None and _day(read_instant(ended), zone) == fact.on:
        return read_instant(ended)
    if _day(fact.recorded_at, zone) == fact.on:
        return fact.recorded_at
    return datetime.combine(fact.on, time(12), zone).astimezone(UTC)


def _day(instant: datetime, zone: ZoneInfo) -> date:
    return instant.astimezone(zone).date()


def _sitting(fact: Fact, activities: Activities) -> dict[str, Any]:
    body = fact.body
    result: dict[str, Any] = {"success": body["passed"], "completion": True}
    right, out_of = body["score"]["right"], body["score"]["out_of"]
    if out_of:
        scaled = float(round(Fraction(right, out_of), 4))
        result["score"] = {"scaled": scaled, "raw": right, "min": 0, "max": out_of}
    if {"started_at", "ended_at"} <= set(body):
        took = read_instant(body["ended_at"]) - read_instant(body["started_at"])
        result["duration"] = f"PT{max(0, int(took.total_seconds()))}S"
    if body["critical_missed"]:
        result["extensions"] = activities.extensions(critical_missed=list(body["critical_missed"]))
    return {
        "verb": PASSED if body["passed"] else FAILED,
        "object": activities.programme(body["programme"]),
        "result": result,
        "context": {
            **_session(body),
            "extensions": activities.extensions(due_on=body.get("due_on"), edition=body.get("edition")),
        },
    }


def _session(body: Mapping[str, Any]) -> dict[str, Any]:
    said = {"platform": body.get("kiosk"), "language": body.get("language"), "revision": body.get("fingerprint")}
    context = {name: value for name, value in said.items() if value}
    if body.get("sitting"):
        context["registration"] = str(UUID(hex=body["sitting"]))
    return context


def _answered(
    item: Mapping[str, Any], fact: Fact, context: Mapping[str, Any], activities: Activities
) -> dict[str, Any]:
    kind, response = _response(item)
    activity = activities.activity("items", item["item"], f"v{item['version']}", kind="cmi.interaction", name={})
    activity["definition"]["interactionType"] = kind
    shown = activities.extensions(misconception=item.get("misconception"), slips=list(item.get("slips") or ()))
    result: dict[str, Any] = {"success": bool(item["right"]), "completion": True}
    result |= {"response": response} if response else {}
    result |= {"extensions": shown} if shown else {}
    about = {"objectType": "Activity", "id": activities.programme(fact.body["programme"])["id"]}
    where = {**context, "contextActivities": {"parent": [about]}}
    return {
        "verb": ANSWERED,
        "object": activity,
        "result": result,
        "context": where | ({"language": item["language"]} if item.get("language") else {}),
    }


def _response(item: Mapping[str, Any]) -> tuple[str, str]:
    """Return the kind of interaction and the answer as given; the record tells a choice, a figure, or something else."""
    if item.get("value"):
        return "fill-in", str(item["value"])
    given = [str(one) for one in item.get("given") or ()]
    chosen = [str(item["chosen"])] if item.get("chosen") else []
    return ("choice" if chosen and not given else "other"), "[,]".join(chosen + given)


def _practical(fact: Fact, activities: Activities) -> dict[str, Any]:
    body = fact.body
    passed = body["result"] == "passed"
    return {
        "verb": PASSED if passed else FAILED,
        "object": activities.practical(body["checklist"], body["machine"]),
        "result": {"success": passed, "completion": True},
        "context": {
            "instructor": activities.account(body.get("evaluator", fact.by)),
            **({"revision": body["fingerprint"]} if body.get("fingerprint") else {}),
        },
    }


def _prior(fact: Fact, activities: Activities) -> dict[str, Any]:
    body = fact.body
    return {
        "verb": activities.verb(fact.kind),
        "object": activities.programme(body["programme"]),
        "result": {"success": True, "completion": True},
        "context": {"extensions": activities.extensions(trained_on=body["trained_on"], due_on=body.get("due_on"))},
    }


def _assigned(fact: Fact, activities: Activities) -> dict[str, Any]:
    due = activities.extensions(due_on=fact.body.get("due_on") or fact.body.get("until"))
    about = {"verb": activities.verb(fact.kind), "object": activities.programme(fact.body["programme"])}
    return {**about, "context": {"extensions": due}}


def _attended(fact: Fact, activities: Activities) -> dict[str, Any]:
    topic = activities.topic(fact.body["topic"], fact.body.get("language", ""))
    return {"verb": activities.verb(fact.kind), "object": topic}


def _at_machine(fact: Fact, activities: Activities) -> dict[str, Any]:
    number = fact.body.get("suspension")
    about = activities.extensions(suspension=None if number is None else f"L-{number}")
    machine = activities.machine(fact.body.get("machine"))
    return {"verb": activities.verb(fact.kind), "object": machine, "context": {"extensions": about}}


def _event(fact: Fact, activities: Activities) -> dict[str, Any]:
    event = fact.body["event"]
    activity = activities.activity("events", event, kind="event", name={"en": event.replace("-", " ")})
    return {"verb": activities.verb(fact.kind), "object": activity}


def _entitled(fact: Fact, activities: Activities) -> dict[str, Any]:
    body = fact.body
    alone = body.get("right") == SUPERVISE
    name, words = ("standing-by", "standing by") if alone else ("judging", "judging practice")
    activity = activities.activity("rights", name, kind="right", name={"en": words})
    revoked = None if "revokes" not in body else f"L-{body['revokes']}"
    about = activities.extensions(
        roles=list(body.get("roles", ())),
        machine_kinds=list(body.get("machine_kinds", ())),
        valid_to=body.get("valid_to"),
        revokes=revoked,
    )
    return {"verb": activities.verb(fact.kind), "object": activity, "context": {"extensions": about}}


def _ruled(fact: Fact, activities: Activities) -> dict[str, Any]:
    subject = fact.body["subject"]
    activity = activities.activity("rules", subject, kind="rule", name={"en": subject.replace("-", " ")})
    return {"verb": activities.verb(fact.kind), "object": activity}


MAKERS: Mapping[EntryKind, Callable[[Fact, Activities], dict[str, Any]]] = {
    EntryKind.ASSIGNED: _assigned,
    EntryKind.ATTENDED: _attended,
    EntryKind.SITTING_MARKED: _sitting,
    EntryKind.PRACTICAL_SIGNED: _practical,
    EntryKind.PRIOR_ACCEPTED: _prior,
    EntryKind.EXCUSED: _assigned,
    EntryKind.SUSPENDED: _at_machine,
    EntryKind.REINSTATED: _at_machine,
    EntryKind.EVENT: _event,
    EntryKind.ENTITLED: _entitled,
    EntryKind.RULED: _ruled,
}
