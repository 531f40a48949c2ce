"""Sittings: a person takes a paper. Answers are only ever added."""

from sqlalchemy import CheckConstraint, ForeignKey, Index, UniqueConstraint, text
from sqlalchemy.orm import Mapped, mapped_column, relationship

from trainer.records.models.base import Base, Instant, Json, Key, OptionalInstant, PersonKey, Serial, Short, plain

_OPEN = text("state = 'open'")


class Answer(Base):
    """One answer as it was given. A sheet's newest answer counts; ``key`` makes a repeated save harmless."""

    __tablename__ = "answer"
    __table_args__ = (UniqueConstraint("sitting", "key"), UniqueConstraint("sitting", "sequence"))

    id: Mapped[Serial]
    sitting: Mapped[str] = mapped_column(plain(32), ForeignKey("sitting.id"))
    sequence: Mapped[int]
    sheet: Mapped[int]
    key: Mapped[Short]
    answer: Mapped[Json]
    mark: Mapped[Json]
    language: Mapped[Short]
    took_ms: Mapped[int]
    at: Mapped[Instant]


class SittingLock(Base):
    """A sheet whose answer can no longer be changed, because its feedback was shown."""

    __tablename__ = "sitting_lock"

    sitting: Mapped[str] = mapped_column(plain(32), ForeignKey("sitting.id"), primary_key=True)
    sheet: Mapped[int] = mapped_column(primary_key=True, autoincrement=False)
    at: Mapped[Instant]


class Sitting(Base):
    """One sitting. ``terms`` are what the programme asked for when it began, kept although the bank may change."""

    __tablename__ = "sitting"
    __table_args__ = (
        CheckConstraint("state IN ('open', 'handed-in', 'given-up')", name="state"),
        Index("uq_sitting_open", "person", "programme", unique=True, sqlite_where=_OPEN, postgresql_where=_OPEN),
        Index("ix_sitting_person_programme_started_at", "person", "programme", "started_at"),
    )

    id: Mapped[Key]
    person: Mapped[PersonKey]
    programme: Mapped[Short]
    language: Mapped[Short]
    languages: Mapped[Json]
    kiosk: Mapped[Short]
    paper: Mapped[Json]
    terms: Mapped[Json]
    sheet: Mapped[int]
    state: Mapped[str] = mapped_column(plain(10))
    started_at: Mapped[Instant]
    ended_at: Mapped[OptionalInstant]
    entry: Mapped[int | None] = mapped_column(ForeignKey("entry.number"))

    answers: Mapped[list[Answer]] = relationship(order_by=Answer.sequence)
    locks: Mapped[list[SittingLock]] = relationship()
