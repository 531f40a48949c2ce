"""Sittings: one person takes one paper. An answer is committed before anybody is told that it is saved."""

from collections.abc import Mapping
from datetime import date
from typing import Any

from sqlalchemy import select

from trainer.bank import Bank
from trainer.errors import Missing, RecordError
from trainer.records import coaching, editions, ledger, names, siterules, terms
from trainer.records.bodies import sitting_marked
from trainer.records.chain import Entry, EntryKind
from trainer.records.duedates import Policy
from trainer.records.effects import facts
from trainer.records.instants import instant_text
from trainer.records.models import Answer, Sitting, SittingLock
from trainer.records.people import must
from trainer.records.renewals import due_after
from trainer.records.sittingrows import AnswerRow, Data, SittingRow
from trainer.records.work import Reading, Writing, new_key
from trainer.wording import say

__all__ = [
    "AnswerRow",
    "SittingRow",
    "get",
    "give_up",
    "hand_in",
    "lock",
    "move_to",
    "of_entry",
    "open_for",
    "open_now",
    "recent_papers",
    "save_answer",
    "set_language",
    "start",
]

OPEN, HANDED_IN, GIVEN_UP = "open", "handed-in", "given-up"


def start(
    w: Writing,
    bank: Bank,
    *,
    person: str,
    programme: str,
    paper: Data | Mapping[str, Any],
    language: str,
    kiosk: str,
) -> SittingRow:
    """Begin a sitting; what the programme asks for now is kept with it, whatever becomes of the bank meanwhile.

    Raises :class:`RecordError` while the person has an open sitting of that programme, and while a paper of it that was
    not passed waits for a coach: here, so that no door can pass that by.
    """
    must(w, person)
    kiosk = names.short(kiosk, "kiosk")
    editions.keep(w, bank)
    query = select(Sitting.id).where(Sitting.person == person, Sitting.programme == programme, Sitting.state == OPEN)
    if w.session.scalar(query) is not None:
        raise RecordError("There is an open sitting of this programme; go on with it.")
    coaching.must_be_free(w, person, programme)
    made = Sitting(
        id=new_key(),
        person=person,
        programme=programme,
        language=language,
        languages=[language],
        kiosk=kiosk,
        paper=_data(paper),
        terms=terms.of(bank, programme, siterules.policy(w, bank, programme, w.today())),
        sheet=1,
        state=OPEN,
        started_at=w.now(),
    )
    w.session.add(made)
    w.session.flush()
    return _row(made)


def get(r: Reading, sitting: str) -> SittingRow:
    """Return a sitting; :class:`Missing` where there is none of that id."""
    return _row(_stored(r, sitting))


def of_entry(r: Reading, number: int) -> SittingRow:
    """Return the sitting that an entry of the ledger records; :class:`Missing` where that entry records none."""
    found = r.session.scalars(select(Sitting).where(Sitting.entry == number)).first()
    if found is None:
        raise Missing(say("{entry} records no sitting.", entry=f"L-{number}"))
    return _row(found)


def open_for(r: Reading, person: str) -> list[SittingRow]:
    """Return a person's open sittings, the newest first."""
    query = select(Sitting).where(Sitting.person == person, Sitting.state == OPEN)
    return [_row(found) for found in r.session.scalars(query.order_by(Sitting.started_at.desc(), Sitting.id))]


def open_now(r: Reading) -> list[SittingRow]:
    """Return every open sitting of anybody, the newest first."""
    query = select(Sitting).where(Sitting.state == OPEN).order_by(Sitting.started_at.desc(), Sitting.id)
    return [_row(found) for found in r.session.scalars(query)]


def save_answer(
    w: Writing,
    sitting: str,
    sheet: int,
    answer: Data | Mapping[str, Any],
    mark: Data | Mapping[str, Any],
    *,
    key: str,
    took_ms: int,
) -> AnswerRow:
    """Store an answer with its mark; it is safe once the transaction has been kept.

    The same ``key`` again stores nothing and returns what was stored. Until the sheet is locked another answer may be
    given, and the newest counts. Raises :class:`RecordError` for a locked sheet or a sitting that is handed in.
    """
    found = _mine(w, sitting)
    again = next((stored for stored in found.answers if stored.key == key), None)
    if again is not None:
        return _answer_row(again, locked=again.sheet in _locked(found))
    _must_be_open(found)
    key = names.code(key, "key")
    if sheet in _locked(found):
        raise RecordError("This answer was given already and its feedback was shown; it cannot be changed.")
    made = Answer(
        sitting=sitting,
        sequence=len(found.answers) + 1,
        sheet=_sheet(found, sheet),
        key=key,
        answer=_data(answer),
        mark=_data(mark),
        language=found.language,
        took_ms=max(0, took_ms),
        at=w.now(),
    )
    found.answers.append(made)
    w.session.flush()
    return _answer_row(made, locked=False)


def lock(w: Writing, sitting: str, sheet: int) -> None:
    """Let a sheet's answer not be changed any more, because its feedback is shown. Locking twice is harmless."""
    found = _mine(w, sitting)
    if sheet not in _locked(found):
        found.locks.append(SittingLock(sitting=sitting, sheet=_sheet(found, sheet), at=w.now()))
        w.session.flush()


def move_to(w: Writing, sitting: str, sheet: int) -> None:
    """Note which sheet the sitting has come to, so that it goes on there."""
    found = _mine(w, sitting)
    _must_be_open(found)
    found.sheet = _sheet(found, sheet)


def set_language(w: Writing, sitting: str, language: str) -> None:
    """Go on in another language; every language that was shown is kept."""
    found = _mine(w, sitting)
    found.language = language
    if language not in found.languages:
        found.languages = [*found.languages, language]


def hand_in(w: Writing, sitting: str, result: Data | Mapping[str, Any], *, confirmed_with: str = "") -> Entry:
    """Close a sitting and append its result to the ledger, both or neither. The day is the one it ended on, at the site.

    ``confirmed_with`` says how its person confirmed that the answers are their own; empty where nobody asked for it.
    Handing in again returns the entry that there is.
    """
    found = _mine(w, sitting)
    if found.state == HANDED_IN and found.entry is not None:
        return ledger.entry(w, found.entry)
    _must_be_open(found)
    found.ended_at = max(w.now(), found.started_at)
    body = _body(w, _row(found), _data(result), w.day_of(found.ended_at))
    if confirmed_with:
        body["confirmed"] = {"with": confirmed_with, "at": instant_text(found.ended_at)}
    if w.now() < found.started_at:
        body["time"] = "unverified"
    made = ledger.append(
        w, found.person, EntryKind.SITTING_MARKED, body, happened_on=w.day_of(found.ended_at), by=found.person
    )
    found.state, found.entry = HANDED_IN, made.number
    w.session.flush()
    return made


def _body(r: Reading, sitting: SittingRow, result: Mapping[str, Any], on: date) -> dict[str, Any]:
    """Put a marked sitting's body together, under the policy of when it began, as it applies to the person's age."""
    policy = Policy.from_data(sitting.terms["policy"]).for_born(must(r, sitting.person).born, on)
    if not result["passed"]:
        return sitting_marked(sitting, result, policy, None)
    known = facts(ledger.entries(r, person=sitting.person))
    due = due_after(known, sitting.terms["role"], sitting.terms["machine_kinds"], policy, on)
    return sitting_marked(sitting, result, policy, due)


def give_up(w: Writing, sitting: str, *, reason: str, by: str) -> Entry:
    """Close a sitting that cannot be finished, such as one whose questions were withdrawn; it counts for nothing.

    It stays on the record that there was one and how far it went, so that a paper that goes badly is not made to
    vanish.
    """
    found = _mine(w, sitting)
    _must_be_open(found)
    found.state, found.ended_at = GIVEN_UP, max(w.now(), found.started_at)
    body = {
        "event": "sitting-given-up",
        "note": reason,
        "programme": found.programme,
        "sitting": found.id,
        "answered": len({answer.sheet for answer in found.answers}),
        "right": sum(bool(answer.mark.get("right")) for answer in _row(found).answers.values()),
    }
    made = ledger.append(w, found.person, EntryKind.EVENT, body, happened_on=w.today(), by=by)
    found.entry = made.number
    w.session.flush()
    return made


def recent_papers(r: Reading, person: str, programme: str, n: int = 3) -> list[frozenset[str]]:
    """Return what the newest papers of a person asked, newest first: items with their drawn numbers."""
    from trainer.assessment.paper import Paper  # noqa: PLC0415  (brings every sum along; nothing else here needs one)

    query = (
        select(Sitting.paper)
        .where(Sitting.person == person, Sitting.programme == programme)
        .order_by(Sitting.started_at.desc(), Sitting.id)
        .limit(n)
    )
    return [Paper.from_data(paper).asked for paper in r.session.scalars(query)]


def _mine(w: Writing, sitting: str) -> Sitting:
    """Return a sitting that nobody else writes to until this transaction ends."""
    query = select(Sitting).where(Sitting.id == sitting).with_for_update()
    found = w.session.scalars(query.execution_options(populate_existing=True)).first()
    if found is None:
        raise Missing("There is no such sitting.")
    return found


def _stored(r: Reading, sitting: str) -> Sitting:
    found = r.session.get(Sitting, sitting)
    if found is None:
        raise Missing("There is no such sitting.")
    return found


def _must_be_open(sitting: Sitting) -> None:
    if sitting.state != OPEN:
        raise RecordError("This sitting is closed; nothing more can be answered in it.")


def _locked(sitting: Sitting) -> frozenset[int]:
    return frozenset(entry.sheet for entry in sitting.locks)


def _sheet(sitting: Sitting, sheet: int) -> int:
    if not any(each["number"] == sheet for each in sitting.paper["sheets"]):
        raise Missing("The paper has no such sheet.")
    return sheet


def _data(given: Data | Mapping[str, Any]) -> dict[str, Any]:
    return dict(given if isinstance(given, Mapping) else given.as_data())


def _answer_row(answer: Answer, *, locked: bool) -> AnswerRow:
    return AnswerRow(
        sheet=answer.sheet,
        answer=answer.answer,
        mark=answer.mark,
        locked=locked,
        language=answer.language,
        took_ms=answer.took_ms,
        at=answer.at,
    )


def _row(sitting: Sitting) -> SittingRow:
    locked = _locked(sitting)
    return SittingRow(
        id=sitting.id,
        person=sitting.person,
        programme=sitting.programme,
        language=sitting.language,
        languages=tuple(sitting.languages),
        kiosk=sitting.kiosk,
        paper=sitting.paper,
        terms=sitting.terms,
        at=sitting.sheet,
        state=sitting.state,
        started_at=sitting.started_at,
        ended_at=sitting.ended_at,
        entry=sitting.entry,
        answers={each.sheet: _answer_row(each, locked=each.sheet in locked) for each in sitting.answers},
    )
