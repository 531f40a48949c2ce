"""People: who somebody is, kept apart from what the ledger says about an opaque key."""

from sqlalchemy import Boolean, CheckConstraint, Index, text
from sqlalchemy.orm import Mapped, mapped_column, relationship

from trainer.records.models.base import (
    Base,
    Day,
    Instant,
    Key,
    Name,
    OptionalDay,
    OptionalShort,
    PersonKey,
    Serial,
    Short,
    plain,
)

_ACTIVE = text("status = 'active'")


def _one_active(column: str) -> Index:
    """Return an index that lets a number be used again once its holder has left, never before."""
    return Index(f"uq_person_{column}", column, unique=True, sqlite_where=_ACTIVE, postgresql_where=_ACTIVE)


class PersonRole(Base):
    """A door that a person may use."""

    __tablename__ = "person_role"

    person: Mapped[PersonKey] = mapped_column(primary_key=True)
    role: Mapped[str] = mapped_column(plain(20), primary_key=True)


class Person(Base):
    """A person as they are now."""

    __tablename__ = "person"
    __table_args__ = (
        CheckConstraint("status IN ('active', 'left')", name="status"),
        CheckConstraint("kind IN ('employee', 'agency', 'contractor')", name="kind"),
        _one_active("number"),
        _one_active("badge"),
        _one_active("login"),
    )

    key: Mapped[Key]
    number: Mapped[Short]
    badge: Mapped[OptionalShort]
    login: Mapped[OptionalShort]
    name: Mapped[Name]
    sort_name: Mapped[Name]
    shift: Mapped[Short]
    crew: Mapped[Short]
    language: Mapped[Short]
    kind: Mapped[Short]
    agency: Mapped[OptionalShort]
    status: Mapped[Short]
    started: Mapped[OptionalDay]
    ended: Mapped[OptionalDay]
    born: Mapped[OptionalDay]
    erased: Mapped[bool] = mapped_column(Boolean, default=False)
    recorded_at: Mapped[Instant]

    roles: Mapped[list[PersonRole]] = relationship(lazy="selectin", cascade="all, delete-orphan")


class PersonName(Base):
    """A number and name that a person had from a day on; the newest is the present one."""

    __tablename__ = "person_name"

    id: Mapped[Serial]
    person: Mapped[PersonKey] = mapped_column(index=True)
    number: Mapped[Short]
    name: Mapped[Name]
    sort_name: Mapped[Name]
    folded: Mapped[Name] = mapped_column(index=True)
    since: Mapped[Day]
    recorded_at: Mapped[Instant]
