"""What the kiosk asks of the rooms behind it: open a sitting, keep an answer, lock, hand in."""

import secrets
from collections.abc import Mapping
from dataclasses import dataclass

from trainer.assessment.answers import Answer, AskBack, read_answer
from trainer.assessment.ending import decided
from trainer.assessment.marking import Mark, mark
from trainer.assessment.paper import Paper, Sheet, SheetKind, build_paper
from trainer.assessment.result import Result, result
from trainer.assessment.sequential import Decision
from trainer.errors import Missing
from trainer.records import dues, sittings
from trainer.records.dues import DueRow
from trainer.records.people import PersonRow
from trainer.records.sittings import AnswerRow, SittingRow
from trainer.records.standing import asked_at, facts_by_person
from trainer.records.work import Reading
from trainer.web import language
from trainer.web.kiosk.own import own_machine_of, tell_trainer
from trainer.web.rooms import rooms
from trainer.wording import say

DAYS_AHEAD = 90
SEED_BITS = 48  # a whole number that JSON holds exactly


@dataclass(frozen=True, slots=True, kw_only=True)
class Desk:
    """A sitting on the glass: its row, its paper, and the sheet that is looked at."""

    row: SittingRow
    paper: Paper
    sheet: Sheet

    @property
    def answer(self) -> AnswerRow | None:
        """Return what is stored for this sheet."""
        return self.row.answers.get(self.sheet.number)

    @property
    def locked(self) -> bool:
        """Say whether the feedback of this sheet was shown."""
        return self.answer is not None and self.answer.locked

    @property
    def open(self) -> bool:
        """Say whether the sitting can still be answered."""
        return self.row.state == sittings.OPEN


def waiting_for(r: Reading, person: str) -> list[DueRow]:
    """Return what a person has to take: overdue, due, or assigned and not yet passed; the most pressing first."""
    today = r.today()
    facts = facts_by_person(r, person=person).get(person, ())
    rows = dues.due_of(person, facts, asked_at(r, rooms().bank), on=today, days=DAYS_AHEAD)
    return sorted(rows, key=lambda row: row.due_on)


def begin(person: PersonRow, programme: str, kiosk: str) -> SittingRow:
    """Go on with the open sitting of a programme, or start one; only what is waiting for the person can be started."""
    opened = rooms()
    with opened.record.writing() as w:
        found = next((row for row in sittings.open_for(w, person.key) if row.programme == programme), None)
        if found is not None:
            return found
        waiting = next((row for row in waiting_for(w, person.key) if row.programme == programme), None)
        if waiting is None:
            raise Missing(say("That programme is not waiting for you. Ask your trainer to assign it."))
        own = own_machine_of(w, waiting.machines)
        recent = sittings.recent_papers(w, person.key, programme)
        paper = build_paper(opened.bank, programme, secrets.randbits(SEED_BITS), recent=recent, own=own)
        if own is not None:
            tell_trainer(w, own, paper, kiosk)
        return sittings.start(
            w,
            opened.bank,
            person=person.key,
            programme=programme,
            paper=paper,
            language=language.current(),
            kiosk=kiosk,
        )


def find(person: PersonRow, sitting: str, number: int) -> Desk:
    """Return a sheet of one's own sitting; somebody else's is as good as not there."""
    with rooms().record.reading() as r:
        row = sittings.get(r, sitting)
    if row.person != person.key:
        raise Missing(say("There is no such sitting."))
    paper = Paper.from_data(row.paper)
    return Desk(row=row, paper=paper, sheet=paper.sheet(number))


def read(desk: Desk, form: Mapping[str, str]) -> Answer | AskBack:
    """Read what a form answers. Raises :class:`~trainer.errors.UsageError` with one sentence."""
    return read_answer(rooms().bank, desk.sheet, form, language.current())


def save(desk: Desk, answer: Answer, *, key: str, took_ms: int) -> None:
    """Mark an answer and put it on disk, in one transaction; the same key stores it once."""
    marked = mark(rooms().bank, desk.sheet, answer)
    with rooms().record.writing() as w:
        if desk.row.language != language.current():
            sittings.set_language(w, desk.row.id, language.current())
        sittings.save_answer(w, desk.row.id, desk.sheet.number, answer, marked, key=key, took_ms=took_ms)


def lock(desk: Desk) -> None:
    """Let the answer stand: its feedback is about to be shown."""
    with rooms().record.writing() as w:
        sittings.lock(w, desk.row.id, desk.sheet.number)


def turn(desk: Desk) -> int:
    """Go on to the next sheet and return its number; past the last one it is the number of sheets plus one."""
    following = desk.sheet.number + 1
    if desk.open and settled(desk.row, desk.paper):
        return len(desk.paper.sheets) + 1
    if following <= len(desk.paper.sheets) and desk.open and desk.row.at == desk.sheet.number:
        with rooms().record.writing() as w:
            sittings.move_to(w, desk.row.id, following)
    return following


def unanswered(row: SittingRow, paper: Paper) -> list[int]:
    """Return the numbers of the marked sheets whose feedback has not been seen yet; none once enough is known."""
    if settled(row, paper):
        return []
    return [
        sheet.number for sheet in paper.marked if not (sheet.number in row.answers and row.answers[sheet.number].locked)
    ]


def settled(row: SittingRow, paper: Paper) -> bool:
    """Say whether the programme's stopping rule has ended the paper, by the answers that stand."""
    standing = [Mark.from_data(stored.mark) for stored in row.answers.values() if stored.locked]
    return decided(rooms().bank.programme(row.programme), paper, standing) in {Decision.PASSED, Decision.FAILED}


def hand_in(desk: Desk) -> None:
    """Sum up and hand in what its person has confirmed with a PIN; twice is once."""
    with rooms().record.writing() as w:
        sittings.hand_in(w, desk.row.id, summed_up(desk.row, desk.paper), confirmed_with="pin")


def summed_up(row: SittingRow, paper: Paper) -> Result:
    """Return what a sitting came to."""
    return result(rooms().bank, paper, [Mark.from_data(stored.mark) for stored in row.answers.values()])


def is_read(desk: Desk) -> bool:
    """Say whether the sheet only has to be read."""
    return desk.sheet.kind is SheetKind.LESSON
