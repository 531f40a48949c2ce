"""How an instant is written in the record: UTC, ISO, always the same length, so that text sorts as time does."""

import re
from datetime import UTC, datetime

INSTANT = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}:[0-9]{2}\.[0-9]{6}Z")


def instant_text(instant: datetime) -> str:
    """Write an aware instant in UTC with six decimals; ValueError for a naive one."""
    if instant.tzinfo is None:
        raise ValueError("an instant without a time zone")
    return f"{instant.astimezone(UTC).isoformat(timespec='microseconds')[:26]}Z"


def read_instant(text: str) -> datetime:
    """Read what :func:`instant_text` wrote; ValueError for anything else."""
    if INSTANT.fullmatch(text) is None:
        raise ValueError(f"{text!r} is no instant of the record")
    return datetime.fromisoformat(text)
