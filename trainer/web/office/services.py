"""What the office's answers need from the record, read in one transaction each."""

from collections.abc import Iterable
from dataclasses import replace
from datetime import date

from trainer.bank import Bank
from trainer.errors import Missing, UsageError
from trainer.exports.pack.asked import Asked as PackAsked
from trainer.records import Reading, checkpoints, ledger, machines, people, roster
from trainer.records.effects import facts
from trainer.records.entitlements import in_force
from trainer.records.ledger import Entry
from trainer.records.machines import MachineRow
from trainer.records.privacy.holds import hold_on
from trainer.records.standing import standings
from trainer.web.office.about import Held
from trainer.web.office.asof import Answer, Asked, authorised
from trainer.web.office.changed import CHECKPOINTS, CORRECTIONS, MOST, Reread, is_late
from trainer.web.office.uploads import Upload
from trainer.web.roster import Roster, gather, known
from trainer.wording import say


def bare_roster(reading: Reading) -> Roster:
    """Read people and machines, without standings."""
    return Roster(
        on=reading.today(),
        people={person.key: person for person in people.everybody(reading)},
        machines={machine.id: machine for machine in machines.all_machines(reading)},
        standings=(),
    )


def read_answer(reading: Reading, bank: Bank, asked: Asked) -> Answer:
    """Read who stood where on a day, as known on another, with the entries that say so."""
    machine = machines.get(reading, asked.machine) if asked.machine else first_machine(reading, bank)
    asked = replace(asked, machine=machine.id)
    roster = gather(reading, bank, on=asked.on)
    found = standings(reading, bank, on=asked.on, known_on=asked.known_on, machine=machine.id)
    behind = {number for one in found for reason in one.reasons for number in reason.entries}
    entries = {entry.number: entry for entry in read_entries(reading, behind)}
    then = found
    if asked.known_on > asked.on:
        then = standings(reading, bank, on=asked.on, known_on=asked.on, machine=machine.id)
    return Answer(
        asked=asked,
        today=reading.today(),
        roster=roster,
        machine=machine,
        standings=found,
        entries=entries,
        then=len(authorised(then)),
        faults=len(ledger.verify(reading)),
    )


def first_machine(reading: Reading, bank: Bank) -> MachineRow:
    """Return the machine that is asked about when none is named: the first that the bank teaches, else the first.

    Raises :class:`~trainer.errors.Missing` where there is none at all.
    """
    found = machines.all_machines(reading)
    taught = {kind for programme in bank.programmes.values() for kind in programme.machine_kinds}
    if not found:
        raise Missing(say("There is no machine on file yet."))
    return next((machine for machine in found if machine.kind in taught), found[0])


def read_entries(reading: Reading, numbers: Iterable[int]) -> list[Entry]:
    """Read some entries by their numbers."""
    return [ledger.entry(reading, number) for number in sorted(numbers)]


def read_held(reading: Reading, bank: Bank, key: str, on: date) -> Held:
    """Read what is held about a person up to a day."""
    person = people.must(reading, key)
    entries = list(reversed(list(ledger.entries(reading, person=key, until=on))))
    return Held(
        person=person,
        on=on,
        today=reading.today(),
        standings=standings(reading, bank, on=on, person=key),
        entries=entries,
        people=known(reading, entries),
        rights=in_force(facts(reversed(entries)), on, None),
        hold=hold_on(reading, key),
    )


def read_plan(reading: Reading, upload: Upload) -> roster.Plan | None:
    """Compare a roster with the record; None where no file was chosen."""
    if not upload.data and not upload.file:
        return None
    return roster.check(reading, upload.data, file=upload.file, answers=upload.answers)


def reread(reading: Reading) -> Reread:
    """Read the whole ledger again: what does not fit, what came late, what was corrected."""
    late: list[Entry] = []
    corrected: list[Entry] = []
    count = late_count = 0
    for entry in ledger.entries(reading):
        count += 1
        if is_late(entry):
            late_count += 1
            late = [entry, *late[: MOST - 1]]
        if entry.kind in CORRECTIONS:
            corrected = [entry, *corrected[: MOST - 1]]
    return Reread(
        report=ledger.verify(reading),
        entries=count,
        late=late,
        late_count=late_count,
        corrected=corrected,
        people=known(reading, [*late, *corrected]),
        checkpoints=checkpoints.latest(reading, CHECKPOINTS),
    )


def asked_for_pack(r: Reading, who: str, machine: str, *, on: date, known_on: date) -> PackAsked:
    """Return what a pack is about: the people of these numbers or, without one, whoever has to do with the machine.

    Raises :class:`~trainer.errors.UsageError` for a number that nobody or more than one person has.
    """
    numbers = who.replace(",", " ").replace(";", " ").split()
    keys = []
    for number in dict.fromkeys(numbers):
        found = people.with_number(r, number)
        if len(found) != 1:
            raise UsageError(say("{count} people have the number {number}.", count=len(found), number=number[:40]))
        keys.append(found[0].key)
    then = known_on if known_on < r.today() else None  # today is as the record knows it now
    return PackAsked(on=on, people=tuple(keys), machine=None if keys else machine, known_on=then)
