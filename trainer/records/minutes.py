"""How long people were at their training: minutes of each person over a span of days.

A paper that was handed in counts from its start to its end, without the breaks in it: a gap between two answers that is
longer than the time after which a kiosk signs out is left out and counted as a break. Talks and practicals have no
duration on record; they are only counted.
"""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from itertools import pairwise

from sqlalchemy import select

from trainer.records import ledger
from trainer.records.chain import Entry, EntryKind
from trainer.records.instants import read_instant
from trainer.records.models import Answer
from trainer.records.work import Reading

LONGEST_GAP = timedelta(minutes=30)  # after which a kiosk has signed out
AT_ONCE = 500  # sittings whose answers are asked for at a time
KINDS = (EntryKind.SITTING_MARKED, EntryKind.ATTENDED, EntryKind.PRACTICAL_SIGNED)


@dataclass(frozen=True, slots=True, kw_only=True)
class Spent:
    """What one person spent: minutes at papers, rounded up for each; how many papers, talks and practicals; breaks.

    ``entries`` are the entries that it was worked out from, oldest first.
    """

    person: str
    minutes: int
    papers: int
    breaks: int
    talks: int
    practicals: int
    entries: tuple[int, ...]


def minutes(r: Reading, *, since: date, until: date) -> list[Spent]:
    """Return what was spent from a day up to a day, for everybody who has an entry then, in no order."""
    rows: dict[str, list[Entry]] = defaultdict(list)
    for kind in KINDS:
        for entry in ledger.entries(r, kind=kind, since=since, until=until):
            rows[entry.person].append(entry)
    papers = [
        one.body["sitting"] for entries in rows.values() for one in entries if one.kind is EntryKind.SITTING_MARKED
    ]
    times = _answered(r, papers)
    return [_spent(person, entries, times) for person, entries in rows.items()]


def paper_minutes(start: datetime, end: datetime, between: Iterable[datetime]) -> tuple[int, int]:
    """Return minutes from start to end without breaks, rounded up, and how many breaks were left out. Pure."""
    marks = [start, *sorted(at for at in between if start <= at <= end), max(start, end)]
    gaps = [later - earlier for earlier, later in pairwise(marks)]
    worked = sum((gap for gap in gaps if gap <= LONGEST_GAP), timedelta())
    return -(-worked // timedelta(minutes=1)), sum(gap > LONGEST_GAP for gap in gaps)


def _answered(r: Reading, papers: Sequence[str]) -> Mapping[str, list[datetime]]:
    found: dict[str, list[datetime]] = defaultdict(list)
    for start in range(0, len(papers), AT_ONCE):
        query = select(Answer.sitting, Answer.at).where(Answer.sitting.in_(papers[start : start + AT_ONCE]))
        for sitting, at in r.session.execute(query):
            found[sitting].append(at)
    return found


def _spent(person: str, entries: Sequence[Entry], times: Mapping[str, list[datetime]]) -> Spent:
    worked = breaks = 0
    counts = dict.fromkeys(KINDS, 0)
    for entry in entries:
        counts[entry.kind] += 1
        if entry.kind is EntryKind.SITTING_MARKED:
            body = entry.body
            span = read_instant(body["started_at"]), read_instant(body["ended_at"])
            some, left_out = paper_minutes(*span, times.get(body["sitting"], ()))
            worked, breaks = worked + some, breaks + left_out
    return Spent(
        person=person,
        minutes=worked,
        papers=counts[EntryKind.SITTING_MARKED],
        breaks=breaks,
        talks=counts[EntryKind.ATTENDED],
        practicals=counts[EntryKind.PRACTICAL_SIGNED],
        entries=tuple(sorted(entry.number for entry in entries)),
    )
