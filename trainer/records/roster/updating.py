"""What a row changes about somebody who is known: the act, what differs, and what forbids it."""

from dataclasses import dataclass
from datetime import date
from typing import Any

from trainer.records.people import PersonRow
from trainer.records.roster.alike import same_name
from trainer.records.roster.fates import Act, Change, Fate, Row
from trainer.records.roster.known import Known
from trainer.records.roster.refusals import Refusal
from trainer.records.roster.values import Stated
from trainer.wording import Sentence, say


@dataclass(frozen=True, slots=True)
class _Leaving:
    on: date | None = None
    note: Sentence | None = None
    refusal: Refusal | None = None


def updated(stated: Stated, person: PersonRow, known: Known, *reasons: Sentence, back_on: date | None = None) -> Row:
    """Return the row of somebody who is known; with ``back_on`` of one who had left and is back."""
    leaving = _leaving(stated, person, known)
    refusal = leaving.refusal or _too_late(stated, person, known)
    if refusal is not None:
        return refused(stated, refusal)
    fields = _fields(stated, person, known)
    renamed = not same_name(stated.name, person.name)
    sort_name = None if stated.sort_name in {None, person.sort_name} else stated.sort_name
    act = Act(
        key=person.key,
        number=stated.number if stated.number != person.number else None,
        name=stated.name if renamed else None,
        sort_name=sort_name,
        fields=fields,
        back_on=back_on,
        leave_on=leaving.on,
        frees=known.taken(person, fields) if back_on else (),
    )
    notes = (*reasons, *((leaving.note,) if leaving.note else ()), *(_why(person, stated) if renamed else ()))
    return _row(stated, act, _changes(act, person), notes)


def refused(stated: Stated, *refusals: Refusal) -> Row:
    """Return a row that cannot be taken."""
    return Row(
        line=stated.line,
        fate=Fate.REFUSED,
        number=stated.number,
        name=stated.name,
        read=stated.read,
        refusals=refusals or tuple(stated.refusals),
    )


def with_fate(stated: Stated, fate: Fate, *reasons: Sentence, act: Act | None = None) -> Row:
    """Return a row with its fate and why."""
    return Row(
        line=stated.line, fate=fate, number=stated.number, name=stated.name, read=stated.read, reasons=reasons, act=act
    )


def _why(person: PersonRow, stated: Stated) -> tuple[Sentence, ...]:
    told = say(
        "The name changes from {old} to {new}; what is on record keeps the old one.", old=person.name, new=stated.name
    )
    return (told,)


def _row(stated: Stated, act: Act, changes: tuple[Change, ...], notes: tuple[Sentence, ...]) -> Row:
    fate = Fate.CHANGED if changes else Fate.UNCHANGED
    if act.back_on is not None:
        fate = Fate.BACK
    elif act.leave_on is not None:
        fate = Fate.LEAVER
    return Row(
        line=stated.line,
        fate=fate,
        number=stated.number,
        name=stated.name,
        read=stated.read,
        reasons=notes,
        changes=changes,
        act=act,
    )


def _fields(stated: Stated, person: PersonRow, known: Known) -> dict[str, Any]:
    """Return the fields that differ. The first day after a return is that return, not a change of the first day."""
    changed = {name: value for name, value in stated.fields.items() if value != getattr(person, name)}
    if changed.get("started") in known.returns.get(person.key, ()) or _returns(stated, person):
        changed.pop("started", None)
    return changed


def _returns(stated: Stated, person: PersonRow) -> bool:
    started = stated.fields.get("started")
    return person.status != "active" and person.ended is not None and started is not None and started > person.ended


def _changes(act: Act, person: PersonRow) -> tuple[Change, ...]:
    pairs = {"number": act.number, "name": act.name, "sort_name": act.sort_name, **act.fields, "ended": act.leave_on}
    return tuple(
        Change(name, _shown(getattr(person, name)), _shown(value)) for name, value in pairs.items() if value is not None
    )


def _shown(value: Any) -> str:
    return "" if value is None else str(value)


def _leaving(stated: Stated, person: PersonRow, known: Known) -> _Leaving:
    """Compare the last day. The record's own is never moved by a file."""
    if stated.ended is None:
        if person.ended is not None and person.status == "active":
            return _Leaving(
                note=say("On record the last day is {day}; the file has none, and it stays.", day=str(person.ended))
            )
        return _Leaving()
    if person.ended == stated.ended:
        return _Leaving()
    if person.ended is not None and person.status == "active":
        return _Leaving(note=say("On record the last day is {day}, and it stays.", day=str(person.ended)))
    _first, last = known.spans.get(person.key, (stated.ended, stated.ended))
    if last > stated.ended:
        told = say("The last day {ended} lies before an entry of {day}.", ended=str(stated.ended), day=str(last))
        return _Leaving(refusal=Refusal(told, say("Correct the last day, or the entry.")))
    return _Leaving(on=stated.ended)


def _too_late(stated: Stated, person: PersonRow, known: Known) -> Refusal | None:
    started = _fields(stated, person, known).get("started")
    first, _last = known.spans.get(person.key, (None, None))
    if started is None or first is None or first >= started:
        return None
    told = say("The first day {started} lies after an entry of {day}.", started=str(started), day=str(first))
    return Refusal(told, say("Correct the first day."))
