"""The one base class and the column types.

Days and instants are stored as ISO text of a fixed length, in both databases alike: what is hashed is what is stored,
and text of that form sorts as time does.
"""

import json
from datetime import date, datetime
from typing import Annotated, Any

import rfc8785
from sqlalchemy import Dialect, ForeignKey, MetaData, String, Text, TypeDecorator
from sqlalchemy.orm import DeclarativeBase, mapped_column

from trainer.records.instants import instant_text, read_instant

NAMES = {
    "ix": "ix_%(table_name)s_%(column_0_N_name)s",
    "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    "ck": "ck_%(table_name)s_%(constraint_name)s",
    "fk": "fk_%(table_name)s_%(column_0_name)s_%(referred_table_name)s",
    "pk": "pk_%(table_name)s",
}


class Base(DeclarativeBase):
    """Base of every ORM class; constraints get their names by rule."""

    metadata = MetaData(naming_convention=NAMES)


def plain(length: int) -> Any:
    """Return a text column type that sorts by code point in both databases."""
    return String(length).with_variant(String(length, collation="C"), "postgresql")


class DayType(TypeDecorator[date]):
    """A civil date as ``2026-03-09``."""

    impl = plain(10)
    cache_ok = True

    def process_bind_param(self, value: date | None, dialect: Dialect) -> str | None:  # noqa: ARG002
        """Write it."""
        return None if value is None else value.isoformat()

    def process_result_value(self, value: str | None, dialect: Dialect) -> date | None:  # noqa: ARG002
        """Read it."""
        return None if value is None else date.fromisoformat(value)


class InstantType(TypeDecorator[datetime]):
    """An instant in UTC as ``2026-03-09T13:12:00.000000Z``."""

    impl = plain(27)
    cache_ok = True

    def process_bind_param(self, value: datetime | None, dialect: Dialect) -> str | None:  # noqa: ARG002
        """Write it."""
        return None if value is None else instant_text(value)

    def process_result_value(self, value: str | None, dialect: Dialect) -> datetime | None:  # noqa: ARG002
        """Read it."""
        return None if value is None else read_instant(value)


class JsonType(TypeDecorator[Any]):
    """Plain data as canonical JSON text (RFC 8785)."""

    impl = Text
    cache_ok = True

    def process_bind_param(self, value: Any, dialect: Dialect) -> str | None:  # noqa: ARG002
        """Write it."""
        return None if value is None else rfc8785.dumps(value).decode()

    def process_result_value(self, value: str | None, dialect: Dialect) -> Any:  # noqa: ARG002
        """Read it."""
        return None if value is None else json.loads(value)


Key = Annotated[str, mapped_column(plain(32), primary_key=True)]  # opaque, hex
Number = Annotated[int, mapped_column(primary_key=True, autoincrement=False)]
Serial = Annotated[int, mapped_column(primary_key=True, autoincrement=True)]
Short = Annotated[str, mapped_column(plain(80))]
OptionalShort = Annotated[str | None, mapped_column(plain(80))]
Name = Annotated[str, mapped_column(String(300))]
Digest = Annotated[str, mapped_column(plain(64))]  # SHA-256 in hex
Day = Annotated[date, mapped_column(DayType)]
OptionalDay = Annotated[date | None, mapped_column(DayType)]
Instant = Annotated[datetime, mapped_column(InstantType)]
OptionalInstant = Annotated[datetime | None, mapped_column(InstantType)]
Json = Annotated[Any, mapped_column(JsonType)]
PersonKey = Annotated[str, mapped_column(plain(32), ForeignKey("person.key"))]
