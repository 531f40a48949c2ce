"""What ``trainer due remind`` does: claim, send, note what became of it, one letter after another."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import date, datetime, timedelta

from trainer.bank import Bank
from trainer.exports.letters import Writer, shift_lists, subject, text
from trainer.exports.mailing import Mail, NotSent, Post
from trainer.records import Reading, Record, dues, people, reminders
from trainer.records.people import PersonRow
from trainer.records.reminders import FAILED, SENT, UNSURE, Letter, Note
from trainer.settings import MailServer, Settings
from trainer.web.language import offered, voice


@dataclass(slots=True)
class Round:
    """What became of the letters of one run: numbers of their readers; ``unsure`` counts things, also of earlier runs."""

    sent: list[str] = field(default_factory=list)
    failed: list[tuple[str, str]] = field(default_factory=list)
    unsure: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Desk:
    """What every letter of a run needs."""

    record: Record
    bank: Bank
    settings: Settings
    people: dict[str, PersonRow]
    on: date


def dry(record: Record, bank: Bank) -> Iterator[str]:
    """Say who would be told of what now, and how many have no address."""
    with record.reading() as reading:
        today = reading.today()
        known = {person.key: person for person in people.everybody(reading, on=today)}
        notes = _waiting(reading, bank)
        rows = dues.due_list(reading, bank, on=today, days=max(reminders.STEPS))
        silent = {row.person for row in rows} - set(reminders.addresses(reading))
    for note in notes:
        who, about = known[note.recipient], known[note.row.person]
        step = "over" if note.step == reminders.OVER else f"{note.step} days"
        day = note.row.due_on.isoformat()
        yield f"{who.number} {who.name}: {about.number} {about.name}, {note.row.programme}, {day} ({step})"
    yield f"{len(notes)} reminders would be sent. {len(silent)} people have no address: kiosk and printed list tell them."


def send(record: Record, bank: Bank, settings: Settings, *, unsure_again: bool = False) -> Round:
    """Send every letter that is due now; nothing is claimed while the mail server cannot be reached at all."""
    with record.writing() as writing:
        reminders.give_up_lost(writing)
        if unsure_again:
            reminders.tell_unsure_again(writing)
    with record.reading() as reading:
        known = {person.key: person for person in people.everybody(reading, on=reading.today())}
        desk = Desk(record=record, bank=bank, settings=settings, people=known, on=reading.today())
        waiting: dict[str, list[Note]] = {}
        for note in _waiting(reading, bank):
            waiting.setdefault(note.recipient, []).append(note)
    done = Round()
    if waiting and settings.smtp_url is not None:
        _deliver(desk, settings.smtp_url, waiting, done)
    with record.reading() as reading:
        done.unsure = reminders.unsure(reading)
    return done


def lists(
    record: Record, bank: Bank, settings: Settings, *, on: date, days: int, shift: str | None, language: str
) -> list[str]:
    """Return a printed list for each shift."""
    with record.reading() as reading:
        known = {person.key: person for person in people.everybody(reading, on=on)}
        found = dues.due_list(reading, bank, on=on, days=days)
    rows = [
        row for row in found if shift in {None, known[row.person].shift} and row.due_on <= on + timedelta(days=days)
    ]
    writer = Writer(bank=bank, people=known, site=settings.site, address=settings.address, on=on, voice=voice(language))
    return list(shift_lists(rows, writer))


def _waiting(reading: Reading, bank: Bank) -> list[Note]:
    return reminders.untold(reading, reminders.due_notes(reading, bank, on=reading.today()))


def _deliver(desk: Desk, server: MailServer, waiting: dict[str, list[Note]], done: Round) -> None:
    post = Post(server)
    try:
        post.connect()
        for recipient, notes in waiting.items():
            with desk.record.writing() as writing:
                letter = reminders.claim(writing, recipient, notes)
                now = writing.now()
            if letter is not None:
                mail = _mail(letter, desk, now)
                _hand_over(desk, post, mail, letter, done)
    except NotSent as error:
        done.failed.append(("all", str(error)))
    finally:
        post.close()


def _hand_over(desk: Desk, post: Post, mail: Mail, letter: Letter, done: Round) -> None:
    state, reason = SENT, ""
    try:
        post.send(mail)
    except NotSent as error:
        state, reason = UNSURE if error.unsure else FAILED, str(error)
        done.failed.append((letter.recipient.number, reason))
    else:
        done.sent.append(letter.recipient.number)
    with desk.record.writing() as writing:
        reminders.settle(writing, letter.id, state, reason)


def _mail(letter: Letter, desk: Desk, now: datetime) -> Mail:
    code = letter.recipient.language if letter.recipient.language in offered() else "en"
    writer = Writer(
        bank=desk.bank,
        people=desk.people,
        site=desk.settings.site,
        address=desk.settings.address,
        on=desk.on,
        voice=voice(code),
    )
    return Mail(
        id=letter.id,
        sender=desk.settings.mail_from,
        to=letter.address,
        subject=subject(letter, writer),
        text=text(letter, writer),
        at=now,
    )
