"""The only place that asks what time it is. Everything else is handed a clock or a date."""

from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo


class Clock:
    """The machine's own clock."""

    def now(self) -> datetime:
        """Return the present instant, aware, in UTC."""
        return datetime.now(UTC)

    def today(self, zone: ZoneInfo) -> date:
        """Return the civil date at the site."""
        return self.now().astimezone(zone).date()


@dataclass(slots=True)
class FixedClock(Clock):
    """A clock that stands where it is put; for tests, the demo's history and replays."""

    instant: datetime

    def now(self) -> datetime:
        """Return the instant at which the hands stand, in UTC."""
        return self.instant.astimezone(UTC)

    def advance(self, step: timedelta) -> None:
        """Move the hands on by ``step``."""
        self.instant += step
