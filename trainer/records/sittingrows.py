"""What a sitting looks like from outside: frozen rows."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any, Protocol


class Data(Protocol):
    """What assessment hands over: anything that can give itself as plain data."""

    def as_data(self) -> Mapping[str, Any]:
        """Return it as plain data."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AnswerRow:
    """A sheet's answer and its mark, as plain data. ``locked`` once its feedback was shown."""

    sheet: int
    answer: Mapping[str, Any]
    mark: Mapping[str, Any]
    locked: bool
    language: str
    took_ms: int
    at: datetime


@dataclass(frozen=True, slots=True, kw_only=True)
class SittingRow:
    """One sitting. ``at`` is the number of the sheet that it has come to, ``entry`` the ledger's once handed in."""

    id: str
    person: str
    programme: str
    language: str
    languages: tuple[str, ...]
    kiosk: str
    paper: Mapping[str, Any]
    terms: Mapping[str, Any]
    at: int
    state: str
    started_at: datetime
    ended_at: datetime | None
    entry: int | None
    answers: Mapping[int, AnswerRow]
