"""What an entry says, in one line, for histories and lists."""

from collections.abc import Callable, Mapping

from trainer.records.chain import Entry, EntryKind, reference
from trainer.records.effects import AWAY, CONFIRMED, WITHDRAWN
from trainer.records.entitlements import SUPERVISE
from trainer.wording import Sentence, mark, say


def line(entry: Entry, *, named: Mapping[str, str] | None = None) -> Sentence:
    """Return what an entry says. ``named`` puts names in place of the ids of programmes, checklists and people."""
    return LINES[entry.kind](entry, named or {})


def _name(named: Mapping[str, str], key: str) -> str:
    return named.get(key, key)


def _assigned(entry: Entry, named: Mapping[str, str]) -> Sentence:
    programme, reason = _name(named, entry.body["programme"]), entry.body["reason"]
    if entry.body.get("machine"):
        return say(
            "Assigned for {machine}: {programme}. Reason: {reason}",
            machine=entry.body["machine"],
            programme=programme,
            reason=reason,
        )
    return say("Assigned: {programme}. Reason: {reason}", programme=programme, reason=reason)


def _attended(entry: Entry, named: Mapping[str, str]) -> Sentence:  # noqa: ARG001
    return say("Attended: {topic}", topic=entry.body["topic"])


def _sitting(entry: Entry, named: Mapping[str, str]) -> Sentence:
    score = entry.body["score"]
    told = {"programme": _name(named, entry.body["programme"]), "right": score["right"], "out_of": score["out_of"]}
    if entry.body["passed"]:
        return say("Passed: {programme}, {right} of {out_of} right", **told)
    if entry.body["critical_missed"]:
        return say("Not passed: {programme}, {right} of {out_of} right, a critical one wrong", **told)
    return say("Not passed: {programme}, {right} of {out_of} right", **told)


def _practical(entry: Entry, named: Mapping[str, str]) -> Sentence:
    told = {"machine": entry.body["machine"], "checklist": _name(named, entry.body["checklist"])}
    if entry.body["result"] == "passed":
        return say("Practical at {machine} signed: {checklist}", **told)
    return say("Practical at {machine} not passed: {checklist}", **told)


def _prior(entry: Entry, named: Mapping[str, str]) -> Sentence:
    return say(
        "Training from elsewhere of {day} accepted for {programme}: {evidence}",
        day=entry.body["trained_on"],
        programme=_name(named, entry.body["programme"]),
        evidence=entry.body["evidence"],
    )


def _excused(entry: Entry, named: Mapping[str, str]) -> Sentence:
    return say(
        "Excused from {programme} until {until}: {reason}",
        programme=_name(named, entry.body["programme"]),
        until=entry.body["until"],
        reason=entry.body["reason"],
    )


def _suspended(entry: Entry, named: Mapping[str, str]) -> Sentence:  # noqa: ARG001
    if entry.body.get("machine"):
        return say("Suspended from {machine}: {reason}", machine=entry.body["machine"], reason=entry.body["reason"])
    return say("Suspended from every machine: {reason}", reason=entry.body["reason"])


def _reinstated(entry: Entry, named: Mapping[str, str]) -> Sentence:  # noqa: ARG001
    return say(
        "Suspension {entry} ended: {reason}", entry=reference(entry.body["suspension"]), reason=entry.body["reason"]
    )


def _corrected(entry: Entry, named: Mapping[str, str]) -> Sentence:  # noqa: ARG001
    told = {"entry": reference(entry.body["corrects"]), "reason": entry.body["reason"]}
    if entry.body["effect"] == WITHDRAWN:
        return say("{entry} does not count any more: {reason}", **told)
    if entry.body["effect"] == CONFIRMED:
        return say("The day of {entry} is confirmed as {day}: {reason}", day=entry.body["happened_on"], **told)
    return say("{entry} is corrected: {reason}", **told)


def _moved(entry: Entry, named: Mapping[str, str]) -> Sentence:  # noqa: ARG001
    told = {"entry": reference(entry.body["entry"]), "reason": entry.body["reason"]}
    if entry.body["direction"] == AWAY:
        return say("{entry} was moved to the person whom it belongs to: {reason}", **told)
    return say("{entry} belongs here and was moved from another person: {reason}", **told)


def _event(entry: Entry, named: Mapping[str, str]) -> Sentence:
    told = {"event": _name(named, entry.body["event"]), "note": entry.body["note"]}
    if entry.body.get("machine"):
        return say("Event at {machine}: {event}. {note}", machine=entry.body["machine"], **told)
    if entry.body.get("role"):
        return say("Event: {event}: {role}. {note}", role=_name(named, entry.body["role"]), **told)
    return say("Event: {event}. {note}", **told)


def _entitled(entry: Entry, named: Mapping[str, str]) -> Sentence:
    alone = entry.body.get("right") == SUPERVISE
    if "revokes" in entry.body:
        ended = (
            mark("The right to stand by of {entry} ends: {reason}")
            if alone
            else mark("The right to judge of {entry} ends: {reason}")
        )
        return say(ended, entry=reference(entry.body["revokes"]), reason=entry.body["reason"])
    given = (
        mark("May stand by for {roles} on {kinds} until {until}: {basis}")
        if alone
        else mark("May judge {roles} on {kinds} until {until}: {basis}")
    )
    return say(
        given,
        roles=", ".join(_name(named, role) for role in entry.body["roles"]),
        kinds=", ".join(_name(named, kind) for kind in entry.body["machine_kinds"]),
        until=entry.body["valid_to"],
        basis=entry.body["basis"],
    )


def _ruled(entry: Entry, named: Mapping[str, str]) -> Sentence:
    body = entry.body
    told = {"day": body["from"], "reason": body["reason"]}
    if body["subject"] == "smallest-group":
        return say("From {day} on no figure about fewer than {count} people: {reason}", count=body["value"], **told)
    programme = _name(named, body["programme"])
    if body["value"] is None:
        return say(
            "From {day} on due days go by the content again, for {programme}: {reason}", programme=programme, **told
        )
    period = body["value"]["period"].removeprefix("P").removesuffix("M")
    return say(
        "From {day} on a pass is good for {months} months, for {programme}: {reason}",
        months=period,
        programme=programme,
        **told,
    )


LINES: Mapping[EntryKind, Callable[[Entry, Mapping[str, str]], Sentence]] = {
    EntryKind.ASSIGNED: _assigned,
    EntryKind.ATTENDED: _attended,
    EntryKind.SITTING_MARKED: _sitting,
    EntryKind.PRACTICAL_SIGNED: _practical,
    EntryKind.PRIOR_ACCEPTED: _prior,
    EntryKind.EXCUSED: _excused,
    EntryKind.SUSPENDED: _suspended,
    EntryKind.REINSTATED: _reinstated,
    EntryKind.CORRECTED: _corrected,
    EntryKind.MOVED: _moved,
    EntryKind.EVENT: _event,
    EntryKind.ENTITLED: _entitled,
    EntryKind.RULED: _ruled,
}
