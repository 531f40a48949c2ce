"""The machines of the site."""

from sqlalchemy import Boolean
from sqlalchemy.orm import Mapped, mapped_column

from trainer.records.models.base import Base, Instant, Json, Name, Short, plain


class Machine(Base):
    """A machine. ``facts`` are what the shop has on file about it."""

    __tablename__ = "machine"

    id: Mapped[str] = mapped_column(plain(40), primary_key=True)
    kind: Mapped[Short]
    name: Mapped[Name]
    facts: Mapped[Json]
    in_use: Mapped[bool] = mapped_column(Boolean)
    recorded_at: Mapped[Instant]
