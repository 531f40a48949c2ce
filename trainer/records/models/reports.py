"""What people told or asked at a kiosk: hazards and questions, and what was answered."""

from sqlalchemy import ForeignKey, Text
from sqlalchemy.orm import Mapped, mapped_column, relationship

from trainer.records.models.base import Base, Instant, OptionalInstant, PersonKey, Serial, Short, plain


class HazardAnswer(Base):
    """What somebody did about a report. The newest one counts; ``closes`` ends the report."""

    __tablename__ = "hazard_answer"

    id: Mapped[Serial]
    hazard: Mapped[int] = mapped_column(ForeignKey("hazard.id"), index=True)
    by: Mapped[PersonKey]
    words: Mapped[str] = mapped_column(Text)
    closes: Mapped[bool]
    at: Mapped[Instant]


class Hazard(Base):
    """One report, as it was given. ``person`` is empty where the person did not want to be named.

    ``kind`` is ``hazard`` or ``suggestion``, ``place`` the zone of the drawing, empty for none.
    """

    __tablename__ = "hazard"

    id: Mapped[Serial]
    person: Mapped[str | None] = mapped_column(plain(32), ForeignKey("person.key"))
    machine: Mapped[str | None] = mapped_column(plain(40), ForeignKey("machine.id"))
    kind: Mapped[Short] = mapped_column(server_default="hazard")
    place: Mapped[Short] = mapped_column(server_default="")
    kiosk: Mapped[Short]
    words: Mapped[str] = mapped_column(Text)
    at: Mapped[Instant] = mapped_column(index=True)

    answers: Mapped[list[HazardAnswer]] = relationship(order_by=HazardAnswer.id)


class AskedAnswer(Base):
    """What a trainer answered to a question; ``seen_at`` is when it was first shown to who asked."""

    __tablename__ = "asked_answer"

    id: Mapped[Serial]
    asked: Mapped[int] = mapped_column(ForeignKey("asked.id"), index=True)
    by: Mapped[PersonKey]
    words: Mapped[str] = mapped_column(Text)
    at: Mapped[Instant]
    seen_at: Mapped[OptionalInstant]


class Asked(Base):
    """One question, as it was asked. ``to`` is who was named on the sheet, ``about`` the item that was on the glass."""

    __tablename__ = "asked"

    id: Mapped[Serial]
    person: Mapped[str | None] = mapped_column(plain(32), ForeignKey("person.key"), index=True)
    to: Mapped[str | None] = mapped_column(plain(32), ForeignKey("person.key"))
    about: Mapped[Short]
    wish: Mapped[Short]
    words: Mapped[str] = mapped_column(Text)
    kiosk: Mapped[Short]
    at: Mapped[Instant] = mapped_column(index=True)

    answers: Mapped[list[AskedAnswer]] = relationship(order_by=AskedAnswer.id)
