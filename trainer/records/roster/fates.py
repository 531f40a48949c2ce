"""What becomes of every row: the plan of an import, as data for a preview, a report and the act itself."""

import hashlib
from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum
from typing import Any

import rfc8785

from trainer.findings import Report
from trainer.records.roster.questions import Question
from trainer.records.roster.refusals import Refusal
from trainer.wording import Sentence


class Fate(StrEnum):
    """What becomes of a row."""

    NEW = "new"
    CHANGED = "changed"
    UNCHANGED = "unchanged"
    LEAVER = "leaver"
    BACK = "back"
    SKIPPED = "skipped"  # there is nothing to do about it, and it says why
    REPEATED = "repeated"  # the same as an earlier row
    TOTAL = "total"  # the line that counts the rows
    ASKED = "asked"  # an open question is about it
    REFUSED = "refused"


@dataclass(frozen=True, slots=True)
class Change:
    """One thing about a person that will be another."""

    field: str
    old: str
    new: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Act:
    """What will be done about one person; ``key`` is None for a new one.

    ``number`` and ``name`` are there where they are given or changed; ``fields`` are those of ``people.change``.
    """

    key: str | None
    number: str | None = None
    name: str | None = None
    sort_name: str | None = None
    fields: Mapping[str, Any] = field(default_factory=dict)
    back_on: date | None = None
    leave_on: date | None = None
    frees: tuple[str, ...] = ()  # badge, login: given up, because they are somebody else's by now

    @property
    def idle(self) -> bool:
        """Say whether nothing would be done."""
        rest = (self.number, self.name, self.sort_name, self.back_on, self.leave_on)
        return self.key is not None and not self.fields and not any(rest)

    @property
    def logged(self) -> bool:
        """Say whether it puts an entry on the ledger, which needs an author."""
        return self.back_on is not None or self.leave_on is not None


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One row with its fate. ``line`` is that of the file, ``read`` what was read, by the file's own heads.

    ``reasons`` say why, ``refusals`` what is wrong and what would be right instead.
    """

    line: int
    fate: Fate
    number: str = ""
    name: str = ""
    read: Mapping[str, str] = field(default_factory=dict)
    reasons: tuple[Sentence, ...] = ()
    refusals: tuple[Refusal, ...] = ()
    changes: tuple[Change, ...] = ()
    act: Act | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """What an import would do. ``told`` says how the file was read; ``dropped`` are the columns that are not stored.

    ``samples`` are names with letters beyond ASCII, which show whether the file was read right.
    """

    file: str
    file_digest: str
    told: tuple[Sentence, ...] = ()
    dropped: tuple[str, ...] = ()
    samples: tuple[str, ...] = ()
    rows: tuple[Row, ...] = ()
    absent: tuple[tuple[str, str], ...] = ()
    absent_acts: tuple[Act, ...] = ()
    questions: tuple[Question, ...] = ()
    settled: Mapping[str, str] = field(default_factory=dict)
    report: Report = field(default_factory=Report)

    @property
    def ready(self) -> bool:
        """Say whether it may be taken."""
        return self.report.good

    @property
    def acts(self) -> tuple[Act, ...]:
        """Return all that would be done."""
        return (*(row.act for row in self.rows if row.act is not None and not row.act.idle), *self.absent_acts)

    @property
    def counts(self) -> Mapping[Fate, int]:
        """Return how many rows have each fate, in the order of :class:`Fate`."""
        counted = Counter(row.fate for row in self.rows)
        return {fate: counted[fate] for fate in Fate if counted[fate]}

    @property
    def code(self) -> str:
        """Return a digest of file and acts: the same as long as the record has not changed what it would come to."""
        plain = [self.file_digest, dict(self.settled), [_plain(act) for act in self.acts]]
        return hashlib.sha256(rfc8785.dumps(plain)).hexdigest()  # type: ignore[arg-type]  # plain data


def _plain(act: Act) -> list[Any]:
    days = [str(day) if day else None for day in (act.back_on, act.leave_on)]
    fields = {name: None if value is None else str(value) for name, value in act.fields.items()}
    return [act.key, act.number, act.name, act.sort_name, fields, *days, list(act.frees)]
