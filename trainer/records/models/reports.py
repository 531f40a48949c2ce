"""Hazards that people reported, and what was done about them."""

from sqlalchemy import ForeignKey, Text
from sqlalchemy.orm import Mapped, mapped_column, relationship

from trainer.records.models.base import Base, Instant, PersonKey, Serial, Short, plain


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
    """One report, as it was given. ``person`` is empty where the person did not want to be named."""

    __tablename__ = "hazard"

    id: Mapped[Serial]
    person: Mapped[str | None] = mapped_column(plain(32), ForeignKey("person.key"))
    machine: Mapped[str | None] = mapped_column(plain(40), ForeignKey("machine.id"))
    kiosk: Mapped[Short]
    words: Mapped[str] = mapped_column(Text)
    at: Mapped[Instant] = mapped_column(index=True)

    answers: Mapped[list[HazardAnswer]] = relationship(order_by=HazardAnswer.id)
