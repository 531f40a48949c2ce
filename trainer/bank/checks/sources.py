"""Everything rests on a source that the bank lists, or says that it is common practice."""

from collections.abc import Iterator
from typing import ClassVar

from trainer.bank.draft import Draft
from trainer.bank.model import PRACTICE, Drill, Question, Scenario
from trainer.findings import Finding
from trainer.safeguarding.result import Read


class UnknownSource(Finding):
    """A source key that ``sources.yaml`` does not list."""

    code: ClassVar[str] = "unknown-source"
    title: ClassVar[str] = "The source is not listed."
    fix: ClassVar[str] = "Correct the key, or add the document to sources.yaml."


class NoSource(Finding):
    """Nothing is cited at all."""

    code: ClassVar[str] = "no-source"
    title: ClassVar[str] = "It cites no source."
    fix: ClassVar[str] = f"Cite what it rests on, or {PRACTICE} where it is a fact of the trade."


class MemorySource(Finding):
    """Nothing stands behind it but somebody's memory of a document."""

    code: ClassVar[str] = "memory-source"
    title: ClassVar[str] = "It rests only on a source that was not read."
    fix: ClassVar[str] = "Read the source, cite another one, or leave the item out."


finds = (UnknownSource, NoSource, MemorySource)


def check(draft: Draft) -> Iterator[Finding]:
    """Look at what each scenario, question and drill cites."""
    bank = draft.bank
    items: tuple[Scenario | Question | Drill, ...]
    items = (*bank.scenarios.values(), *bank.questions.values(), *bank.drills.values())
    for item in items:
        if not item.sources:
            yield draft.at(NoSource, item.id)
        for number, key in enumerate(item.sources):
            if not draft.knows(key, bank.sources):
                yield draft.at(UnknownSource, item.id, "sources", number, note=f"“{key}” is not in sources.yaml.")
        known = [bank.sources[key] for key in item.sources if key in bank.sources]
        if known and len(known) == len(item.sources) and all(source.read is Read.MEMORY for source in known):
            yield draft.at(MemorySource, item.id, "sources")
