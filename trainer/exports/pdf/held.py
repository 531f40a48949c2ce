"""What one person's file is made from, read from the record."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from trainer.assessment.mastery import Gap, gaps
from trainer.bank import Bank
from trainer.records import Reading, evidence, ledger
from trainer.records.chain import EntryKind
from trainer.records.effects import Fact, facts
from trainer.records.entitlements import in_force
from trainer.records.history import HistoryRow, Identity, NameBook, history
from trainer.records.people import PersonRow, must
from trainer.records.standing import Standing, standings


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """What is asked of the record about a person (a key): a span of days, and what was known by the end of a day."""

    person: str
    since: date | None = None
    until: date | None = None
    known_on: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """What the record holds about a person.

    ``on`` is the day on which the standing is told, ``rights`` what they may judge then, ``entitling`` the entries of
    others' rights by which practicals were signed, ``faults`` how many things in the whole ledger do not fit.
    """

    wanted: Wanted
    person: PersonRow
    names: Sequence[Identity]
    on: date
    known_on: date
    standings: Sequence[Standing]
    gaps: Sequence[Gap]
    rights: Sequence[Fact]
    rows: Sequence[HistoryRow]
    approved: Mapping[int, str]
    entitling: Mapping[int, date | None]
    faults: int


def held(r: Reading, bank: Bank, wanted: Wanted) -> Held:
    """Read what is held about a person; :class:`~trainer.errors.Missing` where there is no such person."""
    person = must(r, wanted.person)
    on, book = wanted.until or r.today(), NameBook(r)
    known = facts(ledger.entries(r, person=person.key, known_on=wanted.known_on))
    rows = list(history(r, person=person.key, since=wanted.since, until=wanted.until, known_on=wanted.known_on))
    return Held(
        wanted=wanted,
        person=person,
        names=book.names(person.key),
        on=on,
        known_on=wanted.known_on or r.today(),
        standings=standings(r, bank, on=on, known_on=wanted.known_on, person=person.key),
        gaps=_gaps(bank, known, on),
        rights=in_force(known, on, None),
        rows=rows,
        approved=_approved(rows, book),
        entitling=_entitling(r, rows),
        faults=len(ledger.verify(r).errors),
    )


def _gaps(bank: Bank, known: Iterable[Fact], on: date) -> Sequence[Gap]:
    """Judge the competencies of the roles that the evidence speaks of."""
    found = list(evidence.from_facts(known, bank, on))
    roles = {role for one in found for role in bank.competencies[one.competency].roles}
    needed = [one for one in bank.competencies.values() if roles & set(one.roles)]
    return gaps(needed, found, on) if found else ()


def _approved(rows: Iterable[HistoryRow], book: NameBook) -> Mapping[int, str]:
    """Return who approved what needs a second person, by entry."""
    found = {
        row.entry.number: book.on(row.entry.body["approved_by"], row.entry.happened_on)
        for row in rows
        if row.entry.body.get("approved_by")
    }
    return {number: who.name for number, who in found.items() if who is not None}


def _entitling(r: Reading, rows: Iterable[HistoryRow]) -> Mapping[int, date | None]:
    """Return until when the rights run, or ran, by which practicals were signed."""
    numbers = {row.entry.body["entitlement"] for row in rows if row.entry.kind is EntryKind.PRACTICAL_SIGNED}
    ends = {number: ledger.entry(r, number).body.get("valid_to") for number in sorted(numbers)}
    return {number: date.fromisoformat(end) if end else None for number, end in ends.items()}
