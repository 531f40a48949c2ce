"""Questions that people ask at a kiosk: kept at once, answered by a trainer at the desk, shown when they sign in again.

Who asked what, and when it was answered, stays. That a question was answered is an entry of the person's chain too, so
that nobody can take it back; the words stay here, because they may name somebody.
"""

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

from sqlalchemy import select, update
from sqlalchemy.orm import subqueryload

from trainer.errors import Missing, UsageError
from trainer.records import ledger, people
from trainer.records.chain import EntryKind
from trainer.records.instants import instant_text
from trainer.records.models import Asked, AskedAnswer
from trainer.records.people import PersonRow
from trainer.records.work import Reading, Writing
from trainer.wording import say

LONGEST = 240  # characters of a question or an answer: it is read on one sheet
EVENT = "question-answered"
TRAINER = "trainer"


class Wish(StrEnum):
    """What somebody wants, so that one who cannot type can ask as well."""

    EXPLAIN = "explain"
    SHOW = "show"
    OWN = "own"


@dataclass(frozen=True, slots=True, kw_only=True)
class ReplyRow:
    """What a trainer answered. ``seen_at`` is when it was first shown to the person; None while it was not."""

    id: int
    by: str
    words: str
    at: datetime
    seen_at: datetime | None


@dataclass(frozen=True, slots=True, kw_only=True)
class AskedRow:
    """One question with its answers, oldest first. ``person`` is None once the identity was taken out.

    ``to`` is who was named on the sheet, ``about`` the item of the bank that was on the glass, empty for none.
    """

    id: int
    person: str | None
    to: str | None
    about: str
    wish: Wish
    words: str
    kiosk: str
    at: datetime
    answers: tuple[ReplyRow, ...]

    @property
    def reference(self) -> str:
        """Return the question's number as people say it."""
        return f"Q-{self.id:03d}"

    @property
    def is_open(self) -> bool:
        """Say whether nobody has answered yet."""
        return not self.answers


def on_shift(r: Reading, person: PersonRow) -> PersonRow | None:
    """Return who answers somebody's questions: a trainer of the same shift, else any trainer; None where there is none."""
    trainers = [one for one in people.everybody(r) if TRAINER in one.roles and one.key != person.key]
    near = [one for one in trainers if one.shift and one.shift == person.shift]
    found = sorted(near or trainers, key=lambda one: (one.sort_name, one.number))
    return found[0] if found else None


def ask(
    w: Writing,
    *,
    person: str,
    kiosk: str,
    wish: Wish = Wish.OWN,
    words: str = "",
    about: str = "",
    to: str | None = None,
) -> AskedRow:
    """Keep a question. :class:`UsageError` when it says nothing or too much."""
    people.must(w, person)
    text = _short(words)
    if not text and wish is Wish.OWN:
        raise UsageError(say("Write what you want to know, or press one of the other keys."))
    made = Asked(person=person, to=to, about=about[:80], wish=wish.value, words=text, kiosk=kiosk[:80], at=w.now())
    w.session.add(made)
    w.session.flush()
    return _row(made)


def answer(w: Writing, asked: int, *, by: str, words: str) -> AskedRow:
    """Add an answer, and an entry that there is one. :class:`UsageError` when it says nothing or too much."""
    found = _get(w, asked)
    text = _short(words)
    if not text:
        raise UsageError(say("Write the answer in a few words."))
    found.answers.append(AskedAnswer(by=by, words=text, at=w.now(), seen_at=None))
    w.session.flush()
    row = _row(found)
    if found.person is not None:
        times = {"asked_at": instant_text(row.at), "answered_at": instant_text(row.answers[-1].at)}
        body = {"event": EVENT, "note": row.reference, **times}
        ledger.append(w, found.person, EntryKind.EVENT, body, happened_on=w.today(), by=by)
    return row


def get(r: Reading, asked: int) -> AskedRow:
    """Return one question; :class:`Missing` where there is none of that number."""
    return _row(_get(r, asked))


def questions(r: Reading, *, person: str | None = None, only_open: bool = False) -> list[AskedRow]:
    """Return the questions of a person, or everybody's, oldest first."""
    query = select(Asked).options(subqueryload(Asked.answers)).order_by(Asked.id)
    if person is not None:
        query = query.where(Asked.person == person)
    rows = [_row(found) for found in r.session.scalars(query)]
    return [row for row in rows if row.is_open or not only_open]


def unseen(r: Reading, person: str) -> list[AskedRow]:
    """Return a person's questions with an answer that was not shown to them yet, oldest first."""
    return [row for row in questions(r, person=person) if any(one.seen_at is None for one in row.answers)]


def mark_seen(w: Writing, asked: int, *, person: str) -> None:
    """Note that the answers of one's own question were shown; somebody else's is as good as not there."""
    if _get(w, asked).person != person:
        raise Missing(say("There is no question Q-{number}.", number=asked))
    w.session.execute(
        update(AskedAnswer).where(AskedAnswer.asked == asked, AskedAnswer.seen_at.is_(None)).values(seen_at=w.now())
    )


def forget(w: Writing, person: str) -> None:
    """Take a person's name off the questions that they asked; questions and answers stay."""
    w.session.execute(update(Asked).where(Asked.person == person).values(person=None))


def _get(r: Reading, asked: int) -> Asked:
    found = r.session.get(Asked, asked)
    if found is None:
        raise Missing(say("There is no question Q-{number}.", number=asked))
    return found


def _short(words: str) -> str:
    text = words.strip()
    if len(text) > LONGEST:
        raise UsageError(say("That is {count} characters long. Use at most {most}.", count=len(text), most=LONGEST))
    return text


def _row(asked: Asked) -> AskedRow:
    return AskedRow(
        id=asked.id,
        person=asked.person,
        to=asked.to,
        about=asked.about,
        wish=Wish(asked.wish),
        words=asked.words,
        kiosk=asked.kiosk,
        at=asked.at,
        answers=tuple(
            ReplyRow(id=one.id, by=one.by, words=one.words, at=one.at, seen_at=one.seen_at) for one in asked.answers
        ),
    )
