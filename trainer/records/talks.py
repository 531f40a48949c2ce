"""Talks to a group: who was there, one badge after another. Being there never authorises anybody."""

from dataclasses import dataclass
from datetime import datetime
from typing import Any

from trainer.errors import RecordError, UsageError
from trainer.records import ledger, people
from trainer.records.access import READER_MARKS
from trainer.records.chain import Entry, EntryKind
from trainer.records.instants import instant_text
from trainer.records.people import PersonRow
from trainer.records.presence import must_be_here
from trainer.records.work import Reading, Writing
from trainer.wording import say

MINUTE = 60  # seconds


@dataclass(frozen=True, slots=True, kw_only=True)
class Talk:
    """A talk as it is held: ``item`` is the programme or scenario shown, ``begun_at`` when it began, if it has."""

    id: str
    topic: str
    item: str
    edition: int
    language: str
    presenter: str
    begun_at: datetime | None = None


def badge_in(w: Writing, talk: Talk, text: str) -> tuple[PersonRow, Entry]:
    """Note that whoever has this badge or number is there, with the minutes missed since the talk began.

    Raises :class:`UsageError` for a badge that nobody here has, :class:`RecordError` for one that is in already.
    """
    person = _whose(w, text)
    must_be_here(w, person.key, w.today())
    if any(entry.person == person.key for entry in attendance(w, talk.id)):
        raise RecordError(say("{person} is in already.", person=person.name))
    body: dict[str, Any] = {
        "topic": talk.topic,
        "item": talk.item,
        "edition": talk.edition,
        "language": talk.language,
        "presenter": talk.presenter,
        "session": talk.id,
        "came_at": instant_text(w.now()),
    }
    if talk.begun_at is not None:
        missed = max(0, int((w.now() - talk.begun_at).total_seconds()) // MINUTE)
        body |= {"begun_at": instant_text(talk.begun_at), "late_minutes": missed}
    kind = EntryKind.ATTENDED
    return person, ledger.append(w, person.key, kind, body, happened_on=w.today(), by=talk.presenter)


def attendance(r: Reading, talk: str) -> list[Entry]:
    """Return the entries of those who were at a talk, in the order in which they came."""
    found = ledger.entries(r, kind=EntryKind.ATTENDED)
    return [entry for entry in found if entry.body.get("session") == talk]


def _whose(r: Reading, text: str) -> PersonRow:
    given = text.strip(READER_MARKS)
    found = [one for one in people.find(r, given) if given in {one.badge, one.number} and one.status == "active"]
    if len(found) != 1:
        raise UsageError(say("Nobody here has that badge or number. Badge in again, or type the number."))
    return found[0]
