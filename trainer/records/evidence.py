"""What the ledger holds for the reckoning of mastery: one piece of evidence for each marked answer and each practical."""

from collections.abc import Iterable, Iterator
from datetime import date

from trainer.assessment.mastery import Evidence
from trainer.bank import Bank
from trainer.bank.model import CompetencyKind
from trainer.records import ledger
from trainer.records.chain import EntryKind
from trainer.records.effects import Fact, facts
from trainer.records.work import Reading


def of(r: Reading, bank: Bank, person: str, on: date) -> list[Evidence]:
    """Return the evidence about a person up to a day, in the order in which it happened.

    What was withdrawn, or whose day is in doubt, is left out, as are answers to competencies that the bank no longer
    has.
    """
    return list(from_facts(facts(ledger.entries(r, person=person)), bank, on))


def from_facts(known: Iterable[Fact], bank: Bank, on: date) -> Iterator[Evidence]:
    """Give the evidence in a person's facts. Pure."""
    for fact in known:
        if fact.on <= on and fact.trusted and fact.kind is EntryKind.SITTING_MARKED:
            yield from _answers(fact, bank)
        elif fact.on <= on and fact.trusted and fact.kind is EntryKind.PRACTICAL_SIGNED:
            yield from _practice(fact, bank)


def _answers(fact: Fact, bank: Bank) -> Iterator[Evidence]:
    for item in fact.body["items"]:
        if item["competency"] in bank.competencies and item["verdict"] != "none":
            options = len(item["order"])
            yield Evidence(
                competency=item["competency"],
                right=bool(item["right"]),
                guess=1 / options if options else 0.0,
                on=fact.on,
            )


def _practice(fact: Fact, bank: Bank) -> Iterator[Evidence]:
    """Count a practical once for each competency of practice of its role: steps do not say which they show."""
    for competency in bank.competencies.values():
        if competency.kind is CompetencyKind.PRACTICE and fact.body["role"] in {
            role.value for role in competency.roles
        }:
            yield Evidence(
                competency=competency.id, right=fact.body["result"] == "passed", guess=0.0, on=fact.on, observed=True
            )
