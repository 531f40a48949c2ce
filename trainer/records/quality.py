"""What in the record asks for a second look. Nothing here is proof of a fault, and nothing counts against a person.

One pass over the ledger, a few questions to the other tables. Where a limit is needed and no source gives one, it is
this program's own choice and stands beside its name.
"""

from collections import Counter, defaultdict
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import timedelta
from enum import StrEnum

from sqlalchemy import select

from trainer.assessment.hurry import WORDS_A_MINUTE, too_fast
from trainer.records import ledger, people
from trainer.records.chain import Entry, EntryKind, reference
from trainer.records.hashing import PIN
from trainer.records.models import Secret
from trainer.records.names import folded
from trainer.records.people import PersonRow
from trainer.records.work import Reading
from trainer.wording import Sentence, say

BATCH, BATCH_TIME = 4, timedelta(minutes=10)  # own choice: a practical takes longer than that by itself
LATE_DAYS = 7  # own choice: a working week
MANY, MOST_SHARE = 10, 0.8  # own choice: of so many practicals, one evaluator signed more than that share
FAST_SHARE = 0.25  # own choice: of the answers of one paper
Words = Callable[[str, int, str], int]  # of an item, a version and a language; 0 where unknown


class Kind(StrEnum):
    """What asks for a second look."""

    FUTURE = "future"
    BEFORE_HIRE = "before-hire"
    CLOCK = "clock"
    BATCH = "batch"
    LATE = "late"
    ONE_FOR_MANY = "one-for-many"
    LANGUAGE = "language"
    TOO_FAST = "too-fast"
    NO_FILE = "no-file"
    NO_WAY_IN = "no-way-in"
    NAMESAKES = "namesakes"


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """One thing to look at: whom it concerns, which entries say so, and what it is."""

    kind: Kind
    people: tuple[str, ...]
    entries: tuple[int, ...]
    told: Sentence


@dataclass(slots=True)
class _Seen:
    """What was gathered on the way through the ledger."""

    known: Mapping[str, PersonRow]
    words: Words
    found: list[Found] = field(default_factory=list)
    signed: dict[str, list[Entry]] = field(default_factory=lambda: defaultdict(list))
    foreign: dict[str, list[Entry]] = field(default_factory=lambda: defaultdict(list))


def quality(r: Reading, words: Words) -> list[Found]:
    """Return what asks for a second look, in the order of :class:`Kind`, the newest first within each.

    ``words`` says how many words a sheet has, for the answers that came before theirs could be read.
    """
    seen = _Seen(known={one.key: one for one in people.all_people(r)}, words=words)
    for entry in ledger.entries(r):
        _look(seen, entry)
    seen.found += _batches(seen.signed)
    seen.found += _one_for_many(seen.signed)
    seen.found += _foreign(seen.known, seen.foreign)
    here = people.everybody(r)
    seen.found += _no_way_in(here, set(r.session.scalars(select(Secret.person).where(Secret.kind == PIN))))
    seen.found += _namesakes(here)
    order = {kind: place for place, kind in enumerate(Kind)}
    return sorted(seen.found, key=lambda one: (order[one.kind], -max(one.entries, default=0)))


def _look(seen: _Seen, entry: Entry) -> None:
    seen.found += _days(seen.known.get(entry.person), entry)
    if entry.kind is EntryKind.PRACTICAL_SIGNED:
        seen.signed[entry.body["evaluator"]].append(entry)
    if entry.kind is EntryKind.PRIOR_ACCEPTED and not entry.body.get("file"):
        told = say("Evidence named, but no file is attached: {evidence}", evidence=entry.body["evidence"])
        seen.found.append(_one(Kind.NO_FILE, entry, told))
    if entry.kind is EntryKind.SITTING_MARKED:
        person = seen.known.get(entry.person)
        if person is not None and not person.erased and person.language not in _languages(entry):
            seen.foreign[entry.person].append(entry)
        seen.found += _fast(entry, seen.words)


def _days(person: PersonRow | None, entry: Entry) -> Iterator[Found]:
    if entry.happened_on > entry.recorded_on:
        yield _one(
            Kind.FUTURE,
            entry,
            say("Recorded on {day}, before the day on which it happened.", day=entry.recorded_on.isoformat()),
        )
    if entry.unverified:
        yield _one(
            Kind.CLOCK, entry, say("The clock could not be trusted when this was recorded; its day is to be confirmed.")
        )
    started = person.started if person else None
    if started is not None and entry.happened_on < started:
        yield _one(Kind.BEFORE_HIRE, entry, say("Happened before the first day here, {day}.", day=started.isoformat()))
    if entry.late_days >= LATE_DAYS:
        yield _one(Kind.LATE, entry, say("Entered {count} days late.", count=entry.late_days))


def _batches(signed: Mapping[str, Sequence[Entry]]) -> Iterator[Found]:
    """Give runs of sign-offs that one evaluator recorded in less time than they can have taken."""
    for evaluator, rows in signed.items():
        run: list[Entry] = []
        for row in [*sorted(rows, key=lambda one: one.recorded_at), None]:
            if row is not None and run and row.recorded_at - run[-1].recorded_at <= BATCH_TIME:
                run.append(row)
                continue
            if len(run) >= BATCH:
                yield _batch(evaluator, run)
            run = [] if row is None else [row]


def _batch(evaluator: str, run: Sequence[Entry]) -> Found:
    minutes = -((run[0].recorded_at - run[-1].recorded_at) // timedelta(minutes=1))
    told = say(
        "{count} practicals recorded within {minutes} min on {day}.",
        count=len(run),
        minutes=max(1, minutes),
        day=run[0].recorded_on.isoformat(),
    )
    return Found(kind=Kind.BATCH, people=(evaluator,), entries=tuple(row.number for row in run), told=told)


def _one_for_many(signed: Mapping[str, Sequence[Entry]]) -> Iterator[Found]:
    whole = sum(map(len, signed.values()))
    for evaluator, rows in signed.items():
        if whole >= MANY and len(rows) > MOST_SHARE * whole:
            told = say("Signed {count} of all {all} practicals.", count=len(rows), all=whole)
            yield Found(
                kind=Kind.ONE_FOR_MANY, people=(evaluator,), entries=tuple(row.number for row in rows[-3:]), told=told
            )


def _foreign(known: Mapping[str, PersonRow], rows: Mapping[str, Sequence[Entry]]) -> Iterator[Found]:
    for person, papers in rows.items():
        shown = sorted({code for paper in papers for code in _languages(paper)})
        told = say(
            "Reads {language} by the roster, was asked in {shown}: {count} papers.",
            language=known[person].language,
            shown=", ".join(shown),
            count=len(papers),
        )
        yield Found(kind=Kind.LANGUAGE, people=(person,), entries=tuple(paper.number for paper in papers), told=told)


def _languages(entry: Entry) -> tuple[str, ...]:
    return tuple(entry.body.get("languages") or (entry.body["language"],))


def _fast(entry: Entry, words: Words) -> Iterator[Found]:
    timed = [item for item in entry.body["items"] if item.get("took_ms")]
    fast = [
        item
        for item in timed
        if too_fast(
            item["took_ms"], words(item["item"], item["version"], item.get("language") or entry.body["language"])
        )
    ]
    if timed and len(fast) >= FAST_SHARE * len(timed):
        told = say(
            "{count} of {all} answers came faster than {pace} words a minute.",
            count=len(fast),
            all=len(timed),
            pace=WORDS_A_MINUTE,
        )
        yield _one(Kind.TOO_FAST, entry, told)


def _no_way_in(here: Iterable[PersonRow], with_pin: set[str]) -> Iterator[Found]:
    for one in here:
        if one.key in with_pin and one.badge:
            continue
        if one.key in with_pin:
            told = say("Has no badge on file, only the number.")
        else:
            told = (
                say("Has no PIN, so the kiosk does not open.") if one.badge else say("Has neither a badge nor a PIN.")
            )
        yield Found(kind=Kind.NO_WAY_IN, people=(one.key,), entries=(), told=told)


def _namesakes(here: Iterable[PersonRow]) -> Iterator[Found]:
    same: dict[str, list[PersonRow]] = defaultdict(list)
    for one in here:
        if not one.erased:
            same[folded(one.name)].append(one)
    for those in same.values():
        if len(those) > 1:
            numbers = ", ".join(one.number for one in those)
            told = say("{count} people of one name, with the numbers {numbers}.", count=len(those), numbers=numbers)
            yield Found(kind=Kind.NAMESAKES, people=tuple(one.key for one in those), entries=(), told=told)


def _one(kind: Kind, entry: Entry, told: Sentence) -> Found:
    return Found(kind=kind, people=(entry.person,), entries=(entry.number,), told=told)


def counted(found: Iterable[Found]) -> Mapping[Kind, int]:
    """Return how much there is of each kind."""
    return Counter(one.kind for one in found)


def references(found: Found) -> str:
    """Return the entries of a finding as people call them."""
    return " ".join(map(reference, found.entries))
