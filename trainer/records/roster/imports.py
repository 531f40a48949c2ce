"""The log of imports: each roster that was taken, also one that changed nothing. It is only ever added to.

What was answered is kept; whose row a question was about is not, so that no number outlives its person here.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import select

from trainer.records.models import RosterImport
from trainer.records.roster.fates import Plan
from trainer.records.work import Reading, Writing

LONGEST = 100  # characters of a file's name
OF_PEOPLE = frozenset({"person", "line"})  # questions whose id goes on with somebody's number


@dataclass(frozen=True, slots=True, kw_only=True)
class ImportRow:
    """One roster that was taken: when, by whom, the file with its SHA-256, rows by fate, answers as pairs."""

    id: int
    at: datetime
    by: str | None
    file: str
    digest: str
    changed: int
    counts: Mapping[str, int]
    answers: tuple[tuple[str, str], ...]


def keep(w: Writing, plan: Plan, *, by: str | None) -> None:
    """Keep that a plan was taken."""
    w.session.add(
        RosterImport(
            at=w.now(),
            by=by,
            file=plan.file[:LONGEST],
            digest=plan.file_digest,
            changed=len(plan.acts),
            counts={fate.value: count for fate, count in plan.counts.items()},
            answers=[[_asked(question), value] for question, value in sorted(plan.settled.items())],
        )
    )
    w.session.flush()


def imports(r: Reading) -> list[ImportRow]:
    """Return every roster that was taken, newest first."""
    query = select(RosterImport).order_by(RosterImport.id.desc())
    return [
        ImportRow(
            id=found.id,
            at=found.at,
            by=found.by,
            file=found.file,
            digest=found.digest,
            changed=found.changed,
            counts=found.counts,
            answers=tuple((question, value) for question, value in found.answers),
        )
        for found in r.session.scalars(query)
    ]


def _asked(question: str) -> str:
    kind, _colon, _whose = question.partition(":")
    return kind if kind in OF_PEOPLE else question
