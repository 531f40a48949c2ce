"""What the functions of the record are handed: one transaction, the clock and the site's zone."""

import uuid
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from sqlalchemy.orm import Session

from trainer.clock import Clock


@dataclass(frozen=True, slots=True)
class Reading:
    """A transaction that sees one consistent state of the record and changes nothing."""

    session: Session
    clock: Clock
    zone: ZoneInfo
    pepper: bytes

    def now(self) -> datetime:
        """Return the present instant, aware, in UTC."""
        return self.clock.now()

    def today(self) -> date:
        """Return the civil date at the site."""
        return self.clock.today(self.zone)

    def day_of(self, instant: datetime) -> date:
        """Return the civil date at the site of an instant."""
        return instant.astimezone(self.zone).date()

    def end_of(self, day: date) -> datetime:
        """Return the instant at which a civil date at the site is over."""
        return datetime.combine(day + timedelta(days=1), time.min, self.zone).astimezone(UTC)


@dataclass(frozen=True, slots=True)
class Writing(Reading):
    """A transaction that may change the record; all of it is kept, or nothing."""


def new_key() -> str:
    """Return an opaque key: 32 hex digits that say nothing about anybody."""
    return uuid.uuid4().hex
