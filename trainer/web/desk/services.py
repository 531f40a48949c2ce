"""What the desk's sheets need from the record, read in one transaction each."""

import re
from collections.abc import Iterable, Mapping

from trainer.bank import Bank
from trainer.errors import Missing, UsageError
from trainer.records import (
    Reading,
    Writing,
    asking,
    coaching,
    dues,
    evidence,
    hazards,
    ledger,
    machines,
    people,
    practicals,
)
from trainer.records.effects import facts
from trainer.records.hazards import HazardRow
from trainer.records.ledger import Entry, EntryKind
from trainer.records.machines import MachineRow
from trainer.records.people import PersonRow
from trainer.records.standing import asked_at, standing, standings
from trainer.safeguarding.register import on_file
from trainer.web.days import read_last_day
from trainer.web.desk.assigning import MOST
from trainer.web.desk.coaching import to_coach
from trainer.web.desk.dues import DAYS
from trainer.web.desk.judges import Judges
from trainer.web.desk.person import Read
from trainer.web.desk.signing import Practical, checklist_for
from trainer.web.desk.skills import skill_groups
from trainer.web.desk.slips import slip_lines
from trainer.web.desk.waiting import LONG, Facts
from trainer.web.roster import Roster, gather, known
from trainer.wording import Sentence, say

YEAR = 365  # days ahead on the sheet of one person


def week_facts(reading: Reading, bank: Bank, *, me: str) -> Facts:
    """Read what the sheet of the week is made from."""
    today = reading.today()
    roster = gather(reading, bank, on=today)
    late = _of_late(reading, EntryKind.EVENT)
    return Facts(
        bank=bank,
        roster=roster,
        dues=dues.due_list(reading, bank, on=today, days=DAYS),
        sittings=_of_late(reading, EntryKind.SITTING_MARKED),
        events=[one for one in late if one.body["event"] == "machine-changed"],
        coached=frozenset(one.body["after"] for one in late if one.body["event"] == coaching.COACHED),
        judges=read_judges(reading),
        hazards=hazards.reports(reading, only_open=True),
        questions=asking.questions(reading, only_open=True),
        now=reading.now(),
        me=me,
    )


def _of_late(reading: Reading, kind: EntryKind) -> list[Entry]:
    first = reading.today() - LONG
    return list(reversed(list(ledger.entries(reading, kind=kind, since=first))))


def read_judges(reading: Reading) -> Judges:
    """Read who may judge today."""
    return Judges(rights=practicals.entitlements(reading, reading.today()))


def read_person(reading: Reading, bank: Bank, key: str) -> Read:
    """Read what the sheet about one person is made from."""
    person = people.must(reading, key)
    today = reading.today()
    entries = list(reversed(list(ledger.entries(reading, person=key))))
    seen = evidence.of(reading, bank, key, today)
    return Read(
        bank=bank,
        roster=Roster(on=today, people=known(reading, entries), machines={}, standings=()),
        person=person,
        standings=standings(reading, bank, on=today, person=key),
        dues=dues.due_of(key, facts(reversed(entries)), asked_at(reading, bank), on=today, days=YEAR),
        entries=entries,
        skills=skill_groups(bank, seen, today),
        first=min((one.on for one in seen), default=None),
        slips=slip_lines(bank, entries, today),
        to_coach=to_coach(bank, coaching.locked(facts(reversed(entries)))),
        machines=tuple(one.id for one in machines.all_machines(reading)),
    )


def read_history(reading: Reading, key: str) -> tuple[PersonRow, list[Entry], Mapping[str, PersonRow]]:
    """Read a person, every entry of theirs (newest first), and those whom the entries name."""
    person = people.must(reading, key)
    entries = list(reversed(list(ledger.entries(reading, person=key))))
    return person, entries, known(reading, entries)


def read_practical(reading: Reading, bank: Bank, key: str, machine: str, role: str) -> Practical:
    """Read what a practical is about; :class:`~trainer.errors.Missing` where there is no such person or machine."""
    person = people.must(reading, key)
    today = reading.today()
    roster = gather(reading, bank, on=today)
    if machine not in roster.machines:
        raise Missing(say("There is no machine {machine}.", machine=machine))
    kind = roster.machines[machine].kind
    return Practical(
        person=person,
        machine=roster.machines[machine],
        role=role,
        checklist=checklist_for(bank, kind, role),
        standing=standing(reading, bank, person=key, machine=machine, role=role, on=today),
        rights=read_judges(reading).rights,
        people=roster.people,
    )


def signed_words(entries: Iterable[Entry], number: int) -> Sentence | None:
    """Say what was just signed or entered, if that entry is one of this person's."""
    for entry in entries:
        if entry.number == number and entry.body.get("event") == coaching.COACHED:
            return say("Noted. The next try is open. {entry}", entry=entry.reference)
        if entry.number == number and entry.kind is EntryKind.PRACTICAL_SIGNED:
            told = {"machine": str(entry.body["machine"]), "entry": entry.reference}
            if entry.body["result"] == "passed":
                return say("Signed: {machine}, passed. {entry}", **told)
            return say("Signed: {machine}, not passed. {entry}", **told)
        if entry.number == number:
            return say("Entered. {entry}", entry=entry.reference)
    return None


def read_given(reading: Reading, programme: str) -> Mapping[str, Entry]:
    """Return the newest assignment of a programme to each person."""
    found = ledger.entries(reading, kind=EntryKind.ASSIGNED)
    return {entry.person: entry for entry in found if entry.body["programme"] == programme}


def read_assigned(reading: Reading, first: int, last: int) -> list[Entry]:
    """Read the assignments among a run of entries."""
    return _run(reading, first, min(last, first + MOST), {EntryKind.ASSIGNED})


def read_made(reading: Reading, first: int, last: int) -> list[Entry]:
    """Read the events and assignments among a run of entries."""
    return _run(reading, first, min(last, first + 2 * MOST), {EntryKind.EVENT, EntryKind.ASSIGNED})


def _run(reading: Reading, first: int, last: int, kinds: set[EntryKind]) -> list[Entry]:
    """Read a run of entries at once; :class:`~trainer.errors.Missing` where one of them is not there."""
    found = list(ledger.entries(reading, first=first, upto=last))
    if first < 1 or len(found) != last - first + 1:
        ledger.entry(reading, last if found and found[0].number == first else first)
    return [entry for entry in found if entry.kind in kinds]


def read_hazard(reading: Reading, number: int) -> tuple[HazardRow, Mapping[str, PersonRow]]:
    """Read one report and those whom it names."""
    found = hazards.get(reading, number)
    keys = {found.person, *(answer.by for answer in found.answers)}
    return found, people.among(reading, (key for key in keys if key))


def read_machine(reading: Reading, machine: str) -> tuple[MachineRow, Mapping[str, PersonRow]]:
    """Read one machine and those who entered what is on file about it."""
    row = machines.get(reading, machine)
    keys = {one.by for one in row.readings} | {one.by for one in row.changes}
    return row, people.among(reading, (key for key in keys if key))


def note_reading(writing: Writing, machine: str, fields: Mapping[str, str], *, by: str) -> None:
    """Put one or several stopping times of a day on file, all or none."""
    on = read_last_day(fields.get("on", ""), today=writing.today())
    times = [part.strip() for part in re.split(r"[;\n]|,(?=\s)", fields.get("time", "")) if part.strip()]
    if not times:
        raise UsageError(say("Write the stopping time with its unit, such as 186 ms."))
    for time in times:
        machines.note_reading(writing, machine, time, on=on, by=by, note=fields.get("note", ""))


def note_fact(writing: Writing, machine: str, fields: Mapping[str, str], *, by: str) -> None:
    """Put a fact on file; one that the register could not work with is refused."""
    key, value = fields.get("key", ""), fields.get("value", "").strip()
    on = read_last_day(fields.get("found", ""), today=writing.today())
    facts = {**machines.get(writing, machine).facts, key: value}
    wrong = on_file({name: text for name, text in facts.items() if text}, machine).wrong
    if value and wrong is not None:
        raise UsageError(wrong)
    machines.note_fact(writing, machine, key, value, on=on, by=by)
