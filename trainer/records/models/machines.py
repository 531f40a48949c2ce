"""The machines of the site, what was found out about each, and the stopping times that were measured on it."""

from sqlalchemy import Boolean, ForeignKey, Text
from sqlalchemy.orm import Mapped, mapped_column, relationship

from trainer.records.models.base import Base, Day, Instant, Json, Name, Serial, Short, plain


class MachineFact(Base):
    """One fact as it came to be known; the newest of a key counts, an empty value means that it is not known any more.

    ``by`` is None for what an administrator entered at the command line.
    """

    __tablename__ = "machine_fact"

    id: Mapped[Serial]
    machine: Mapped[str] = mapped_column(plain(40), ForeignKey("machine.id"), index=True)
    key: Mapped[Short]
    value: Mapped[str] = mapped_column(Text)
    on: Mapped[Day]
    by: Mapped[str | None] = mapped_column(plain(32), ForeignKey("person.key"))
    at: Mapped[Instant]


class MachineReading(Base):
    """One stopping time as it was measured, with its unit."""

    __tablename__ = "machine_reading"

    id: Mapped[Serial]
    machine: Mapped[str] = mapped_column(plain(40), ForeignKey("machine.id"), index=True)
    time: Mapped[str] = mapped_column(plain(40))
    note: Mapped[str] = mapped_column(Text)
    on: Mapped[Day]
    by: Mapped[str | None] = mapped_column(plain(32), ForeignKey("person.key"))
    at: Mapped[Instant]


class Machine(Base):
    """A machine. ``facts`` are what the shop had on file about it when it was added."""

    __tablename__ = "machine"

    id: Mapped[str] = mapped_column(plain(40), primary_key=True)
    kind: Mapped[Short]
    name: Mapped[Name]
    facts: Mapped[Json]
    in_use: Mapped[bool] = mapped_column(Boolean)
    recorded_at: Mapped[Instant]

    later: Mapped[list[MachineFact]] = relationship(order_by=MachineFact.id)
    readings: Mapped[list[MachineReading]] = relationship(order_by=MachineReading.id)
