"""What a pause sets off: the programme of the way back, assigned at once to exactly those who are paused."""

from collections.abc import Mapping
from datetime import date

from trainer.bank import Bank
from trainer.bank.model import ProgrammeKind
from trainer.records import assignments, ledger
from trainer.records.chain import Entry, EntryKind
from trainer.records.standing import Standing, StandingWord, asked_at, standings
from trainer.records.work import Reading, Writing

SERVICE = "pauses"  # who recorded it: no person


def paused(r: Reading, bank: Bank, on: date) -> list[Standing]:
    """Return where somebody is paused on a day, because a machine was not used for too long."""
    return [one for one in standings(r, bank, on=on) if one.word is StandingWord.PAUSED]


def assign_ways_back(w: Writing, bank: Bank) -> list[Entry]:
    """Assign the way back to everybody who is paused today and was not given it since the last use; once for each."""
    backs = {(one.rules.machine, one.rules.role): _back(one.rules.programmes) for one in asked_at(w, bank)}
    made = []
    for one in paused(w, bank, w.today()):
        programme = backs.get((one.machine, one.role))
        newest = max(number for reason in one.reasons for number in reason.entries)
        if programme is not None and not _given(w, one, programme, newest):
            made.append(
                assignments.assign(
                    w,
                    person=one.person,
                    programme=programme,
                    by=SERVICE,
                    reason="the machine was not used for too long",
                    happened_on=w.today(),
                    machine=one.machine,
                    due_on=w.today(),
                )
            )
    return made


def _back(programmes: Mapping[str, ProgrammeKind]) -> str | None:
    return next((name for name, kind in programmes.items() if kind is ProgrammeKind.RETURN), None)


def _given(r: Reading, one: Standing, programme: str, after: int) -> bool:
    """Say whether the way back was assigned for the machine since the entries on which the pause rests."""
    return any(
        entry.number > after and entry.body["programme"] == programme and entry.body.get("machine") == one.machine
        for entry in ledger.entries(r, person=one.person, kind=EntryKind.ASSIGNED)
    )
