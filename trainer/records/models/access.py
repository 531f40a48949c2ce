"""Secrets (hashed), waits after failed tries, and the log of sign-ins."""

from sqlalchemy import Text
from sqlalchemy.orm import Mapped, mapped_column

from trainer.records.models.base import Base, Instant, OptionalInstant, PersonKey, Serial, Short, plain


class Secret(Base):
    """A hashed PIN or password. ``pepper`` says which key file it was made with.

    ``lent_until`` is filled for one that was handed out: its person has to choose their own by then.
    """

    __tablename__ = "secret"

    person: Mapped[PersonKey] = mapped_column(primary_key=True)
    kind: Mapped[str] = mapped_column(plain(10), primary_key=True)
    hash: Mapped[str] = mapped_column(Text)
    pepper: Mapped[Short]
    changed_at: Mapped[Instant]
    lent_until: Mapped[OptionalInstant]


class Throttle(Base):
    """Failed tries of one person or at one place, and until when the next try waits."""

    __tablename__ = "throttle"

    scope: Mapped[str] = mapped_column(plain(10), primary_key=True)
    subject: Mapped[str] = mapped_column(plain(64), primary_key=True)
    failures: Mapped[int]
    failed_at: Mapped[Instant] = mapped_column(index=True)
    until: Mapped[OptionalInstant]


class SignIn(Base):
    """One try to sign in; never what was typed."""

    __tablename__ = "sign_in"

    id: Mapped[Serial]
    at: Mapped[Instant] = mapped_column(index=True)
    kind: Mapped[str] = mapped_column(plain(10))
    place: Mapped[Short]
    person: Mapped[str | None] = mapped_column(plain(32), index=True)
    outcome: Mapped[str] = mapped_column(plain(10))
