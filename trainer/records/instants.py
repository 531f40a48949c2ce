"""How an instant is written in the record: UTC, ISO, always the same length, so that text sorts as time does."""

from datetime import UTC, datetime

INSTANT = "%Y-%m-%dT%H:%M:%S.%fZ"


def instant_text(instant: datetime) -> str:
    """Write an aware instant in UTC with six decimals; ValueError for a naive one."""
    if instant.tzinfo is None:
        raise ValueError("an instant without a time zone")
    return instant.astimezone(UTC).strftime(INSTANT)


def read_instant(text: str) -> datetime:
    """Read what :func:`instant_text` wrote."""
    return datetime.strptime(text, INSTANT).replace(tzinfo=UTC)
