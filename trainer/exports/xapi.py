"""Statements as in xAPI 1.0.3, one a line: what the ledger says, for whoever keeps learning records elsewhere.

People are accounts with an opaque key, never a name or a mail address. Ids are worked out from the entry's number, so
the same record gives the same statements. What a correction takes back is voided, and what counts in its place is
stated anew under an id of its own; the ledger's own rule of what counts decides which. Verbs and kinds of activity are
those of the open ADL vocabulary; where it has none for what the record says, the address of the site's own program
makes one. Notes and reasons stay at home: the entry's number leads to them. Times of single answers do too.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Any
from uuid import NAMESPACE_URL, UUID, uuid5

from trainer.bank import Bank
from trainer.exports.activities import Activities
from trainer.exports.jsonfile import lines
from trainer.exports.statements import Statement, statements_of
from trainer.records.chain import Entry, EntryKind
from trainer.records.effects import Fact, facts
from trainer.records.instants import instant_text

VOIDED = {"id": "http://adlnet.gov/expapi/verbs/voided", "display": {"en": "voided"}}
CORRECTIONS = frozenset({EntryKind.CORRECTED, EntryKind.MOVED})
PEOPLE_HELD = 32  # whose corrections are kept in memory at a time

Chain = Callable[[str], Sequence[Entry]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """What one correction or move does: facts that no longer stand as they were stated, and what stands instead.

    ``issue`` is the number of the correction under which a fact was stated last; 0 for the entry itself.
    """

    taken_back: tuple[tuple[Fact, int], ...]
    stated: tuple[Fact, ...]


def xapi_lines(entries: Iterable[Entry], chain: Chain, bank: Bank, *, base: str) -> Iterator[bytes]:
    """Give entries as statements, one canonical JSON object a line, in pieces.

    ``chain`` gives every entry of a person, for what corrections do; ``base`` is the address of the site's program,
    such as ``https://training.example``.
    """
    return lines(statements(entries, chain, bank, base=base))


def statements(entries: Iterable[Entry], chain: Chain, bank: Bank, *, base: str) -> Iterator[dict[str, Any]]:
    """Give the statements of entries, in the order in which they were recorded."""
    home = base.rstrip("/")
    activities = Activities(home, bank)
    ids = uuid5(NAMESPACE_URL, home)

    @lru_cache(maxsize=PEOPLE_HELD)
    def changes(person: str) -> Mapping[int, Change]:
        return changes_of(chain(person))

    for entry in entries:
        if entry.kind in CORRECTIONS:
            change = changes(entry.person)[entry.number]
            yield from _voiding(entry, change, activities, ids)
            for fact in change.stated:
                yield from _stated(fact, entry, entry.number, activities, ids)
        else:
            yield from _stated(facts([entry])[0], entry, 0, activities, ids)


def changes_of(entries: Sequence[Entry]) -> dict[int, Change]:
    """Return for each correction and move on a person's chain what it changes among the facts. Pure."""
    found: dict[int, Change] = {}
    issued: dict[int, int] = {}
    for place, entry in enumerate(entries):
        if entry.kind not in CORRECTIONS:
            continue
        before = {fact.number: fact for fact in facts(entries[:place])}
        after = {fact.number: fact for fact in facts(entries[: place + 1])}
        gone = [fact for number, fact in before.items() if after.get(number) != fact]
        new = [fact for number, fact in after.items() if before.get(number) != fact]
        found[entry.number] = Change(
            taken_back=tuple((fact, issued.get(fact.number, 0)) for fact in gone), stated=tuple(new)
        )
        issued.update({fact.number: entry.number for fact in new})
    return found


def _stated(fact: Fact, entry: Entry, issue: int, activities: Activities, ids: UUID) -> Iterator[dict[str, Any]]:
    for part, statement in enumerate(statements_of(fact, entry, activities)):
        yield {"id": _id(ids, fact.number, issue, part), **statement.data}


def _voiding(entry: Entry, change: Change, activities: Activities, ids: UUID) -> Iterator[dict[str, Any]]:
    for fact, issue in change.taken_back:
        parts: list[Statement] = list(statements_of(fact, entry, activities))
        for part in range(len(parts)):
            target = _id(ids, fact.number, issue, part)
            yield {
                "id": str(uuid5(ids, f"void/{target}")),
                "actor": activities.account(entry.by),
                "verb": VOIDED,
                "object": {"objectType": "StatementRef", "id": target},
                "timestamp": instant_text(entry.recorded_at),
                "context": {"extensions": activities.entry_facts(entry)},
            }


def _id(ids: UUID, number: int, issue: int, part: int) -> str:
    return str(uuid5(ids, f"entry/{number}/{issue}/{part}"))
