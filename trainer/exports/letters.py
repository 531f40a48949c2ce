"""What a reminder says: one's own things, or, for a trainer, everybody's, shift by shift. In the reader's language."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from trainer.bank import Bank
from trainer.exports.voice import Voice
from trainer.records.dues import DueRow
from trainer.records.people import PersonRow
from trainer.records.reminders import Letter
from trainer.wording import Sentence, say


@dataclass(frozen=True, slots=True, kw_only=True)
class Writer:
    """What letters and lists are written with."""

    bank: Bank
    people: Mapping[str, PersonRow]
    site: str
    address: str
    on: date
    voice: Voice


def subject(letter: Letter, writer: Writer) -> str:
    """Return the subject: the site and how much, no names."""
    told = say("{site}: training that is due ({count})", site=writer.site, count=len(letter.notes))
    return " ".join(writer.voice.tell(told).split())


def text(letter: Letter, writer: Writer) -> str:
    """Return the text of a letter."""
    own = [note.row for note in letter.notes if note.row.person == letter.recipient.key]
    others = [note.row for note in letter.notes if note.row.person != letter.recipient.key]
    parts = [
        *_part(say("This is due for you:"), (_own(row, writer) for row in _by_day(own)), writer),
        *_part(say("This is due for others:"), _shifts(others, writer), writer),
        writer.voice.tell(say("Sign in at any kiosk, with badge or number, to do it. Your trainer answers questions.")),
        *([writer.address] if writer.address else []),
        "",
        writer.voice.tell(say("You are told once 30, 14 and 7 days before, and once when it is over.")),
    ]
    return "\n".join(parts) + "\n"


def shift_lists(rows: Iterable[DueRow], writer: Writer) -> Iterator[str]:
    """Give one printed list for each shift, for those who have no mail: everybody, what, by when."""
    found = _grouped(rows, writer)
    for shift, own in found.items():
        title = say("Training that is due, shift {shift}", shift=shift or "-")
        made = say("{site}, as of {day}", site=writer.site, day=writer.on.isoformat())
        lines = [writer.voice.tell(title), writer.voice.tell(made), "", *(_line(row, writer) for row in own)]
        yield "\n".join(lines) + "\n"


def when(row: DueRow, on: date) -> Sentence:
    """Say by when a thing is to be done, or since when it is over and what that means."""
    day = row.due_on.isoformat()
    if row.due_on >= on:
        return say("by {day}", day=day)
    if row.state == "assigned":
        return say("was to be done by {day}", day=day)
    if row.machines:
        return say(
            "lapsed after {day}; not to work at {machines} until passed", day=day, machines=", ".join(row.machines)
        )
    return say("lapsed after {day}", day=day)


def _part(head: Sentence, lines: Iterable[str], writer: Writer) -> list[str]:
    found = list(lines)
    return [writer.voice.tell(head), *found, ""] if found else []


def _own(row: DueRow, writer: Writer) -> str:
    programme = writer.bank.programme(row.programme).name.in_(writer.voice.language)
    return f"- {programme}: {writer.voice.tell(when(row, writer.on))}"


def _shifts(rows: Sequence[DueRow], writer: Writer) -> Iterator[str]:
    for shift, own in _grouped(rows, writer).items():
        yield writer.voice.tell(say("Shift {shift}", shift=shift or "-"))
        yield from (_line(row, writer) for row in own)


def _grouped(rows: Iterable[DueRow], writer: Writer) -> Mapping[str, list[DueRow]]:
    found: dict[str, list[DueRow]] = {}
    for row in _by_day(rows):
        found.setdefault(writer.people[row.person].shift, []).append(row)
    return dict(sorted(found.items()))


def _line(row: DueRow, writer: Writer) -> str:
    person = writer.people[row.person]
    programme = writer.bank.programme(row.programme).name.in_(writer.voice.language)
    return f"- {person.number} {person.name}: {programme}, {writer.voice.tell(when(row, writer.on))}"


def _by_day(rows: Iterable[DueRow]) -> list[DueRow]:
    return sorted(rows, key=lambda row: row.due_on)
