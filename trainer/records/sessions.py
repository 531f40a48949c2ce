"""Sessions behind the doors' cookies: a copied cookie is worth nothing once the person has signed out or left."""

import hashlib
import secrets

from sqlalchemy import delete, select, update

from trainer.records.models import WebSession
from trainer.records.work import Reading, Writing


def begin(w: Writing, *, person: str, door: str, place: str) -> str:
    """Begin a session and return its token, 256 random bits; only its digest is kept."""
    token = secrets.token_urlsafe(32)
    w.session.add(
        WebSession(token=_digest(token), person=person, door=door, place=place, began_at=w.now(), ended_at=None)
    )
    return token


def is_open(r: Reading, token: str, person: str) -> bool:
    """Say whether a token stands for a session of that person that has not ended."""
    query = select(WebSession.person).where(WebSession.token == _digest(token), WebSession.ended_at.is_(None))
    return r.session.scalar(query) == person


def end(w: Writing, token: str) -> None:
    """End one session."""
    w.session.execute(
        update(WebSession)
        .where(WebSession.token == _digest(token), WebSession.ended_at.is_(None))
        .values(ended_at=w.now())
    )


def end_all(w: Writing, person: str) -> None:
    """End every session of a person, as when a secret is changed or the person leaves."""
    w.session.execute(
        update(WebSession).where(WebSession.person == person, WebSession.ended_at.is_(None)).values(ended_at=w.now())
    )


def forget(w: Writing, person: str) -> None:
    """Take every session of a person out, those that have ended too."""
    w.session.execute(delete(WebSession).where(WebSession.person == person))


def _digest(token: str) -> str:
    return hashlib.sha256(token.encode()).hexdigest()
