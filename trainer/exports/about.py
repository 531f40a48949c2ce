"""What every file says about itself: what was asked, of which site, when it was made, how much it holds, its code.

The check code is worked out from what was asked and from what the record answered, not from the bytes of a file: CSV,
spreadsheet, JSON and PDF of one answer carry the same code, and whoever asks the record again with the same days gets
it again, as long as nothing was changed.
"""

import hashlib
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from datetime import datetime
from typing import TypeVar
from zoneinfo import ZoneInfo

import rfc8785

from trainer.records.history import HistoryRow
from trainer.wording import Sentence, mark

SIGNS = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"  # base 32 without I, L, O and U, which are misread
LENGTH, GROUP = 12, 4  # signs of a check code; 60 bits of the digest
ASKED = {  # what can be asked for, as files name it
    "from": mark("from"),
    "up to": mark("up to"),
    "known on": mark("known on"),
    "on": mark("on"),
    "days ahead": mark("days ahead"),
    "person": mark("person"),
    "machine": mark("machine"),
    "role": mark("role"),
    "shift": mark("shift"),
    "crew": mark("crew"),
}

Row = TypeVar("Row")


@dataclass(frozen=True, slots=True, kw_only=True)
class About:
    """What a file says about itself.

    ``asked`` is the filter, by the names in :data:`ASKED`, empty for everything; ``edition`` that of the content bank,
    None where the bank has no part in the answer.
    """

    what: Sentence
    site: str
    zone: ZoneInfo
    made_at: datetime
    edition: int | None = None
    asked: Mapping[str, str] = field(default_factory=dict)


@dataclass(slots=True)
class Tally:
    """Counts what goes into a file while it goes by, and works out the check code."""

    asked: Mapping[str, str]
    rows: int = 0
    _hash: "hashlib._Hash" = field(default_factory=hashlib.sha256)

    def __post_init__(self) -> None:
        self._take(dict(sorted(self.asked.items())))

    def note(self, answer: object) -> None:
        """Count one row; ``answer`` is plain data that stands for all of it."""
        self.rows += 1
        self._take(answer)

    @property
    def code(self) -> str:
        """Return the check code so far."""
        return coded(self._hash.digest())

    def _take(self, data: object) -> None:
        self._hash.update(rfc8785.dumps(data) + b"\n")  # type: ignore[arg-type]  # plain data


def coded(digest: bytes) -> str:
    """Write the start of a digest as people read it out: ``7QK4-M2XD-0F9B``."""
    number = int.from_bytes(digest) >> (len(digest) * 8 - LENGTH * 5)
    signs = "".join(SIGNS[(number >> 5 * place) & 31] for place in reversed(range(LENGTH)))
    return grouped(signs)


def grouped(signs: str) -> str:
    """Write a code in groups of four."""
    return "-".join(signs[start : start + GROUP] for start in range(0, len(signs), GROUP))


def tallied(rows: Iterable[HistoryRow], tally: Tally) -> Iterator[HistoryRow]:
    """Let entries go by, counted. An entry's digest stands for all of it, so every form of it has the same code."""
    for row in rows:
        tally.note(row.entry.digest)
        yield row
