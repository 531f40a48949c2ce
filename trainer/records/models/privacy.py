"""Requests of people about their own data, how long what is kept, and what was removed when its time was over."""

from sqlalchemy import ForeignKey, Text
from sqlalchemy.orm import Mapped, mapped_column

from trainer.records.models.base import (
    Base,
    Day,
    Instant,
    Json,
    OptionalDay,
    PersonKey,
    Serial,
    Short,
    plain,
)


class PrivacyRequest(Base):
    """Somebody asked for their own data, or for something to be done with it; answered or not yet."""

    __tablename__ = "privacy_request"

    id: Mapped[Serial]
    person: Mapped[PersonKey] = mapped_column(index=True)
    kind: Mapped[Short]
    received_on: Mapped[Day]
    due_on: Mapped[Day]
    note: Mapped[str] = mapped_column(Text)
    by: Mapped[str | None] = mapped_column(plain(32), ForeignKey("person.key"))
    at: Mapped[Instant]
    answered_on: Mapped[OptionalDay]
    answered_by: Mapped[str | None] = mapped_column(plain(32), ForeignKey("person.key"))
    answer: Mapped[str] = mapped_column(Text)


class RetentionRule(Base):
    """How long a kind of record is kept, from a moment on; the newest of a kind counts. None years: no rule any more."""

    __tablename__ = "retention_rule"

    id: Mapped[Serial]
    kind: Mapped[Short]
    years: Mapped[int | None]
    counts_from: Mapped[Short]
    reason: Mapped[str] = mapped_column(Text)
    by: Mapped[PersonKey]
    at: Mapped[Instant]


class RetentionRun(Base):
    """What was removed because its time was over: numbers only, no names."""

    __tablename__ = "retention_run"

    id: Mapped[Serial]
    by: Mapped[PersonKey]
    at: Mapped[Instant]
    removed: Mapped[Json]
