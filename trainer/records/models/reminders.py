"""Mail addresses of people, and what was sent to whom about what, so that nothing is sent twice."""

from sqlalchemy import CheckConstraint, Text, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from trainer.records.models.base import Base, Day, Instant, Name, OptionalInstant, PersonKey, Serial, Short, plain


class MailAddress(Base):
    """Where somebody reads mail. Nobody needs one: reminders stand at the kiosk and on the printed list too."""

    __tablename__ = "mail_address"

    person: Mapped[PersonKey] = mapped_column(primary_key=True)
    address: Mapped[Name]
    at: Mapped[Instant]


class Reminder(Base):
    """One thing and step of which one recipient is told by mail. ``letter`` is the message that told it."""

    __tablename__ = "reminder"
    __table_args__ = (
        UniqueConstraint("recipient", "person", "programme", "due_on", "step", name="uq_reminder_once"),
        CheckConstraint("state IN ('claimed', 'sent', 'failed', 'unsure')", name="state"),
    )

    id: Mapped[Serial]
    recipient: Mapped[PersonKey]
    person: Mapped[PersonKey] = mapped_column(index=True)
    programme: Mapped[Short]
    due_on: Mapped[Day]
    step: Mapped[Short]
    state: Mapped[str] = mapped_column(plain(10))
    letter: Mapped[str] = mapped_column(plain(32), index=True)
    tries: Mapped[int]
    at: Mapped[Instant]
    retry_at: Mapped[OptionalInstant]
    note: Mapped[str] = mapped_column(Text)
