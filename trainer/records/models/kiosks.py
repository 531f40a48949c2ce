"""Kiosks: devices on which a badge and a PIN open sheets."""

from sqlalchemy import ForeignKey
from sqlalchemy.orm import Mapped, mapped_column

from trainer.records.models.base import Base, Instant, Key, OptionalInstant, Short, plain


class Kiosk(Base):
    """One device, from its code to its withdrawal. ``code`` and ``token`` are digests of what was handed out."""

    __tablename__ = "kiosk"

    id: Mapped[Key]
    name: Mapped[Short]
    code: Mapped[str | None] = mapped_column(plain(64), index=True)
    code_until: Mapped[OptionalInstant]
    token: Mapped[str | None] = mapped_column(plain(64), unique=True)
    invited_by: Mapped[str] = mapped_column(plain(32), ForeignKey("person.key"))
    invited_at: Mapped[Instant]
    enrolled_at: Mapped[OptionalInstant]
    withdrawn_by: Mapped[str | None] = mapped_column(plain(32), ForeignKey("person.key"))
    withdrawn_at: Mapped[OptionalInstant]
