"""Who is signed in where. A session ends in the database, whatever a browser still holds."""

from sqlalchemy.orm import Mapped, mapped_column

from trainer.records.models.base import Base, Instant, OptionalInstant, PersonKey, Short, plain


class WebSession(Base):
    """One sign-in; ``token`` is the digest of what the browser holds."""

    __tablename__ = "web_session"

    token: Mapped[str] = mapped_column(plain(64), primary_key=True)
    person: Mapped[PersonKey] = mapped_column(index=True)
    door: Mapped[Short]
    place: Mapped[Short]
    began_at: Mapped[Instant]
    ended_at: Mapped[OptionalInstant]
