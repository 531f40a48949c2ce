"""Reminders by mail: who is to be told of what, and that nobody is told the same twice.

A thing is a programme that somebody has to take by a day; the steps are 30, 14 and 7 days before, and when it is over
(common practice). Only the step that is reached counts: what was not sent in its time is not sent afterwards. A letter
is claimed in a transaction of its own before it is sent, so two processes never send the same; what a letter that may
or may not have arrived told is not told again by itself.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

from sqlalchemy import ColumnElement, delete, func, or_, select, update
from sqlalchemy.dialects import postgresql, sqlite

from trainer.bank import Bank
from trainer.errors import UsageError
from trainer.records.dues import DueRow, due_list
from trainer.records.models import MailAddress, Reminder
from trainer.records.people import PersonRow, everybody, must
from trainer.records.work import Reading, Writing, new_key
from trainer.settings import mail_address
from trainer.wording import say

STEPS = (7, 14, 30)  # days before
OVER = "over"
FIRST_WAIT, LONGEST_WAIT = timedelta(minutes=5), timedelta(hours=6)  # after a failure; doubled with each
LOST = timedelta(minutes=15)  # after which a letter that was being sent is not being sent any more
CLAIMED, SENT, FAILED, UNSURE = "claimed", "sent", "failed", "unsure"
ONCE = ("recipient", "person", "programme", "due_on", "step")


@dataclass(frozen=True, slots=True, kw_only=True)
class Note:
    """One thing of which a recipient is to be told, and the step that it has reached."""

    recipient: str
    row: DueRow
    step: str

    @property
    def key(self) -> tuple[str, str, str, date, str]:
        """Return what tells it from every other."""
        return self.recipient, self.row.person, self.row.programme, self.row.due_on, self.step


@dataclass(frozen=True, slots=True, kw_only=True)
class Letter:
    """A letter that this process alone may send."""

    id: str
    recipient: PersonRow
    address: str
    notes: tuple[Note, ...]


def set_address(w: Writing, person: str, address: str | None) -> None:
    """Keep where a person reads mail, or, with None, forget it."""
    found = must(w, person)
    if found.erased:
        raise UsageError("The identity of this person was taken out of the record.")
    w.session.execute(delete(MailAddress).where(MailAddress.person == person))
    if address is None:
        return
    try:
        plain = mail_address(address)
    except ValueError as error:
        raise UsageError(say("{text!r} is no plain mail address.", text=address)) from error
    if not plain:
        raise UsageError("Write the mail address.")
    w.session.add(MailAddress(person=person, address=plain, at=w.now()))
    w.session.flush()


def addresses(r: Reading) -> Mapping[str, str]:
    """Return where people read mail, by key."""
    query = select(MailAddress.person, MailAddress.address)
    return {person: address for person, address in r.session.execute(query)}  # noqa: C416  (rows are no pairs)


def forget(w: Writing, person: str) -> None:
    """Take out a person's address and every reminder to or about them."""
    w.session.execute(delete(MailAddress).where(MailAddress.person == person))
    w.session.execute(delete(Reminder).where(or_(Reminder.person == person, Reminder.recipient == person)))


def step_of(due_on: date, on: date) -> str | None:
    """Return the step that a thing has reached on a day; None while it is further away than the first."""
    left = (due_on - on).days
    if left < 0:
        return OVER
    return next((str(step) for step in STEPS if left <= step), None)


def due_notes(r: Reading, bank: Bank, *, on: date) -> list[Note]:
    """Return who would be told of what today: everybody of their own things, each trainer of everybody's.

    Only people with an address; told before or not. A thing of one's own appears once.
    """
    reach = addresses(r)
    people = everybody(r, on=on)
    trainers = [person.key for person in people if "trainer" in person.roles and person.key in reach]
    found: dict[tuple[str, str, str, date, str], Note] = {}
    for row in due_list(r, bank, on=on, days=max(STEPS)):
        step = step_of(row.due_on, on)
        if step is None:
            continue
        for recipient in (*([row.person] if row.person in reach else ()), *trainers):
            note = Note(recipient=recipient, row=row, step=step)
            found.setdefault(note.key, note)
    return list(found.values())


def untold(r: Reading, notes: Iterable[Note]) -> list[Note]:
    """Return those of ``notes`` that may be sent now: never tried, or failed and the wait is over."""
    query = select(Reminder.recipient, Reminder.person, Reminder.programme, Reminder.due_on, Reminder.step).where(
        or_(Reminder.state != FAILED, Reminder.retry_at > r.now())
    )
    told = {tuple(row) for row in r.session.execute(query)}
    return [note for note in notes if note.key not in told]


def claim(w: Writing, recipient: str, notes: Sequence[Note]) -> Letter | None:
    """Claim what nobody else has claimed; None when nothing is left. Send only what this returns, after keeping it."""
    letter, address = new_key(), addresses(w).get(recipient)
    if address is None:
        return None
    won = [note for note in sorted(notes, key=lambda note: note.key) if _win(w, note, letter)]
    if not won:
        return None
    return Letter(id=letter, recipient=must(w, recipient), address=address, notes=tuple(won))


def settle(w: Writing, letter: str, state: str, note: str = "") -> None:
    """Note what became of a letter: sent, failed (it will be tried again), or unsure."""
    for found in w.session.scalars(select(Reminder).where(Reminder.letter == letter, Reminder.state == CLAIMED)):
        found.state, found.at, found.note = state, w.now(), note[:300]
        found.retry_at = w.now() + wait(found.tries) if state == FAILED else None
    w.session.flush()


def wait(tries: int) -> timedelta:
    """Return how long to wait after so many failed tries."""
    doubled: int = 2 ** min(tries - 1, 20)
    return min(LONGEST_WAIT, FIRST_WAIT * doubled)


def give_up_lost(w: Writing) -> int:
    """Mark letters unsure that were being sent when a process ended; return how many things are unsure now."""
    lost = (Reminder.state == CLAIMED) & (Reminder.at < w.now() - LOST)
    told = "The program ended while it was being sent."
    w.session.execute(update(Reminder).where(lost).values(state=UNSURE, note=told))
    return unsure(w)


def unsure(r: Reading) -> int:
    """Return how many things are told by letters that may or may not have arrived."""
    return r.session.scalar(select(func.count()).where(Reminder.state == UNSURE)) or 0


def tell_unsure_again(w: Writing) -> None:
    """Let what is unsure be told again, although somebody may then read it twice."""
    w.session.execute(update(Reminder).where(Reminder.state == UNSURE).values(state=FAILED, retry_at=w.now()))


def _win(w: Writing, note: Note, letter: str) -> bool:
    """Claim one thing: a new row, or the one of a failure whose wait is over. The database lets one process win."""
    values = {
        **dict(zip(ONCE, note.key, strict=True)),
        "state": CLAIMED,
        "letter": letter,
        "tries": 1,
        "at": w.now(),
        "retry_at": None,
        "note": "",
    }
    build: Any = postgresql.insert if w.session.get_bind().dialect.name == "postgresql" else sqlite.insert
    fresh = build(Reminder).values(values).on_conflict_do_nothing(index_elements=list(ONCE)).returning(Reminder.id)
    if w.session.execute(fresh).first() is not None:
        return True
    again = (
        update(Reminder)
        .where(_same(note), Reminder.state == FAILED, Reminder.retry_at <= w.now())
        .values(state=CLAIMED, letter=letter, tries=Reminder.tries + 1, at=w.now(), retry_at=None)
        .returning(Reminder.id)
    )
    return w.session.execute(again).first() is not None


def _same(note: Note) -> ColumnElement[bool]:
    recipient, person, programme, due_on, step = note.key
    return (
        (Reminder.recipient == recipient)
        & (Reminder.person == person)
        & (Reminder.programme == programme)
        & (Reminder.due_on == due_on)
        & (Reminder.step == step)
    )
