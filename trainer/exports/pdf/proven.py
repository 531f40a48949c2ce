"""What a certificate or a card rests on, read from the record: only what authorises today, and only from a sound ledger."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from trainer.bank import Bank
from trainer.errors import RecordError
from trainer.exports.claims import Claim, code_of
from trainer.records import Reading, ledger, machines
from trainer.records.chain import EntryKind
from trainer.records.effects import Fact, facts
from trainer.records.history import Identity, NameBook
from trainer.records.machines import MachineRow
from trainer.records.people import PersonRow, must
from trainer.records.standing import Standing, standings
from trainer.wording import Sentence, say

THEORY = frozenset({EntryKind.SITTING_MARKED, EntryKind.PRIOR_ACCEPTED})


@dataclass(frozen=True, slots=True, kw_only=True)
class Proof:
    """An authorisation that holds today: whose, for what, the passed programme and the signed practical behind it.

    ``name`` is what the person is called today, ``judge`` who signed, as they were called then, ``code`` the code by
    which anybody can ask whether it still holds.
    """

    person: PersonRow
    name: str
    machine: MachineRow
    standing: Standing
    theory: Fact
    practical: Fact
    judge: Identity
    code: str


def proofs(
    r: Reading, bank: Bank, *, person: str | None = None, machine: str | None = None, role: str | None = None
) -> list[Proof]:
    """Return every authorisation that holds today, of a person (a key), at a machine, in a role.

    Raises :class:`RecordError` where there is none, saying why, and where the ledger is not as it was written.
    """
    must_hold(r)
    asked = standings(r, bank, on=r.today(), person=person, machine=machine)
    asked = [each for each in asked if role in {None, each.role}]
    may = [each for each in asked if each.may_run]
    if not may:
        raise RecordError(_why_not(r, asked))
    book, places = NameBook(r), {each.id: each for each in machines.all_machines(r, in_use=True)}
    known: dict[str, Mapping[tuple[int, ...], Fact]] = {}
    for each in may:
        known.setdefault(each.person, _by_numbers(r, each.person))
    return [_proof(r, each, places[each.machine], known[each.person], book) for each in may if each.machine in places]


def must_hold(r: Reading) -> None:
    """Raise :class:`RecordError` where the ledger is not as it was written: no paper is made from such a one."""
    report = ledger.verify(r)
    if not report.good:
        first = str(report.errors[0])
        raise RecordError(
            say(
                "The ledger is not as it was written, so no paper is made from it: {first} Run trainer records verify.",
                first=first,
            )
        )


def _why_not(r: Reading, asked: Sequence[Standing]) -> Sentence:
    """Say why no paper is made: for one authorisation asked about by its standing, else that there is none."""
    if len(asked) != 1:
        return say("Nobody is authorised there today, so no certificate and no card is made.")
    (each,) = asked
    return say(
        "{name} is not authorised at {machine} today, so no certificate and no card is made.",
        name=must(r, each.person).name,
        machine=each.machine,
    )


def _by_numbers(r: Reading, person: str) -> Mapping[tuple[int, ...], Fact]:
    return {fact.numbers: fact for fact in facts(ledger.entries(r, person=person))}


def _proof(
    r: Reading, each: Standing, machine: MachineRow, known: Mapping[tuple[int, ...], Fact], book: NameBook
) -> Proof:
    behind = [known[reason.entries] for reason in each.reasons if reason.entries in known]
    practical = next(fact for fact in behind if fact.kind is EntryKind.PRACTICAL_SIGNED)
    evaluator = practical.body["evaluator"]
    person = must(r, each.person)
    name = book.on(each.person, r.today())
    named = name.name if name else person.name
    claim = Claim(person=each.person, name=named, machine=each.machine, role=each.role)
    return Proof(
        person=person,
        name=named,
        machine=machine,
        standing=each,
        theory=next(fact for fact in behind if fact.kind in THEORY),
        practical=practical,
        judge=book.on(evaluator, practical.on) or Identity(since=practical.on, number="", name=evaluator),
        code=code_of(r, claim),
    )
