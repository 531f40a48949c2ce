"""What a person should be able to explain: from the questions that they truly passed, for an interview at the machine."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from typing import Any

from trainer.bank import Bank
from trainer.bank.model import ComputeDrill, Drill, Lesson, Question
from trainer.errors import Missing, RecordError
from trainer.exports.voice import Voice
from trainer.records import Reading, editions, ledger
from trainer.records.chain import EntryKind
from trainer.records.effects import Fact, facts

KINDS = (EntryKind.SITTING_MARKED, EntryKind.CORRECTED, EntryKind.MOVED)


@dataclass(frozen=True, slots=True, kw_only=True)
class Explained:
    """One thing to explain, as it was asked and answered rightly in a paper that was passed.

    ``asked`` is the question, ``why`` what the content gives as its reason; words are in the reader's language where the
    content has it. ``critical`` says that a wrong answer would have failed the paper.
    """

    competency: str
    critical: bool
    asked: str
    why: str
    item: str
    version: int
    entry: int
    on: date


Banks = dict[str, Bank | None]


def explained(
    r: Reading,
    person: str,
    voice: Voice,
    *,
    on: date,
    known_on: date | None = None,
    banks: Banks | None = None,
) -> list[Explained]:
    """Return one thing for each competency, the newest; what was critical first, then what was passed last.

    Only papers count that were passed, up to a day, and still stand, and of them only what was answered rightly. What
    was asked from content that was not kept is left out. ``banks`` keeps the contents that were read from one person to
    the next.
    """
    rows = [entry for kind in KINDS for entry in ledger.entries(r, person=person, kind=kind, known_on=known_on)]
    passed = [one for one in facts(sorted(rows, key=lambda row: row.number)) if _passed(one, on)]
    banks = {} if banks is None else banks
    found: dict[str, Explained] = {}
    for paper in passed:
        key = paper.body["fingerprint"]
        if key not in banks:
            banks[key] = _kept(r, key)
        for one in _of(paper, banks[key], voice):
            held = found.get(one.competency)
            if held is None or (one.critical, one.on) >= (held.critical, held.on):
                found[one.competency] = one
    return sorted(found.values(), key=lambda one: (not one.critical, -one.on.toordinal(), one.competency))


def _passed(fact: Fact, on: date) -> bool:
    return fact.kind is EntryKind.SITTING_MARKED and fact.body["passed"] is True and fact.on <= on and fact.trusted


def _kept(r: Reading, fingerprint: str) -> Bank | None:
    try:
        return editions.bank_of(r, fingerprint)
    except (Missing, RecordError):
        return None


def _of(paper: Fact, bank: Bank | None, voice: Voice) -> Iterator[Explained]:
    if bank is None:
        return
    for kept in _right(paper):
        item = bank.item(kept["item"])
        competency = bank.competencies.get(kept["competency"])
        if competency is None or isinstance(item, Lesson):
            continue
        yield Explained(
            competency=competency.name.in_(voice.language),
            critical=bool(kept["critical"]),
            asked=_asked(item, voice),
            why=item.why.in_(voice.language) if isinstance(item, Question) else "",
            item=kept["item"],
            version=kept["version"],
            entry=paper.number,
            on=paper.on,
        )


def _right(paper: Fact) -> list[dict[str, Any]]:
    return [kept for kept in paper.body["items"] if kept["right"]]


def _asked(item: Question | Drill, voice: Voice) -> str:
    told = item.told.in_(voice.language)
    asked = item.asked.in_(voice.language)
    title = item.title.in_(voice.language) if isinstance(item, ComputeDrill) else ""
    return " ".join(part for part in (title and f"{title}:", told if not title else "", asked) if part)
