"""What does this roster come to? Every row's fate, what has to be answered, and the way to take all of it."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from trainer.findings import Finding
from trainer.records.people import PersonRow
from trainer.records.roster import Fate, Plan, Question, Row
from trainer.records.roster.findings import OpenQuestion, RefusedRow, RosterFinding
from trainer.records.roster.imports import ImportRow
from trainer.web.language import translate
from trainer.web.office.frames import office_frame
from trainer.web.office.uploads import ANSWER, DAY, Upload
from trainer.web.sheet import Box, Frame, moment
from trainer.web.words import _, _l, ngettext
from trainer.wording import Sentence

MOST = 500  # rows of one fate on the sheet; the command lists the rest
TITLES = {  # in the order in which a reader needs them
    Fate.REFUSED: (_l("Refused"), _l("correct these in the file; until then nothing is taken")),
    Fate.ASKED: (_l("Waiting for an answer"), _l("the questions above are about these")),
    Fate.NEW: (_l("New"), _l("they begin with an empty record")),
    Fate.CHANGED: (_l("Changed"), _l("what differs from the record")),
    Fate.BACK: (_l("Back"), _l("what they have shown before has to be renewed")),
    Fate.LEAVER: (_l("Leaving"), _l("their record stays")),
    Fate.SKIPPED: (_l("Nothing to do"), _l("and why")),
    Fate.REPEATED: (_l("Repeated"), _l("the same as an earlier row")),
    Fate.TOTAL: (_l("No person"), _l("a line that counts the rows")),
    Fate.UNCHANGED: (_l("Unchanged"), _l("as on record")),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class AskedPart:
    """One question with the names of its fields; ``day`` is empty where no day is an answer."""

    told: str
    name: str
    choices: tuple[tuple[str, str], ...]
    day: str


@dataclass(frozen=True, slots=True, kw_only=True)
class FateRow:
    """One row of the file: where it stands, whom it is about, what changes and why."""

    line: int
    number: str
    name: str
    changes: tuple[str, ...]
    words: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class FateGroup:
    """The rows that have one fate; ``more`` are not on the sheet."""

    title: str
    note: str
    count: int
    rows: tuple[FateRow, ...]
    more: int


@dataclass(frozen=True, slots=True, kw_only=True)
class NoteRow:
    """One thing about the file as a whole, or a row to look at."""

    where: str
    what: str
    fix: str


@dataclass(frozen=True, slots=True, kw_only=True)
class TakenRow:
    """One roster that was taken."""

    at: str
    who: str
    file: str
    digest: str
    counts: str
    answers: str


@dataclass(frozen=True, slots=True, kw_only=True)
class RosterPage:
    """A roster: chosen, looked at, or just taken."""

    frame: Frame
    heading: str
    note: str
    answer: str
    refusal: Sentence | None
    looked: bool
    ready: bool
    file: str
    kept: str
    code: str
    answered: tuple[tuple[str, str], ...]
    told: tuple[str, ...]
    questions: tuple[AskedPart, ...]
    notes: tuple[NoteRow, ...]
    groups: tuple[FateGroup, ...]
    log: tuple[TakenRow, ...] = ()


def roster_page(
    upload: Upload, plan: Plan | None, *, taken: int | None = None, refusal: Sentence | None = None
) -> RosterPage:
    """Build the sheet; without a plan only the way to choose a file is on it."""
    return RosterPage(
        frame=office_frame(
            "office.roster", _("Roster"), *((Box(label=_("File"), value=plan.file),) if plan and plan.file else ())
        ),
        heading=_("What does this roster come to?"),
        note=_("nothing is written before you have seen every row"),
        answer=_answer(plan, taken),
        refusal=refusal,
        looked=plan is not None,
        ready=plan is not None and plan.ready and bool(plan.acts),
        file=upload.file,
        kept=upload.kept if plan else "",
        code=plan.code if plan else "",
        answered=tuple((ANSWER + key, value) for key, value in plan.settled.items()) if plan else (),
        told=tuple(_told(plan)) if plan else (),
        questions=tuple(map(_question, plan.questions)) if plan else (),
        notes=tuple(_note(one) for one in plan.report if not isinstance(one, OpenQuestion | RefusedRow))
        if plan
        else (),
        groups=tuple(_groups(plan)) if plan else (),
    )


def taken_rows(rows: Iterable[ImportRow], people: Mapping[str, PersonRow]) -> tuple[TakenRow, ...]:
    """Show the rosters that were taken, newest first."""
    return tuple(
        TakenRow(
            at=moment(row.at),
            who=people[row.by].name if row.by and row.by in people else _("at the command line"),
            file=row.file,
            digest=row.digest,
            counts=", ".join(f"{TITLES[Fate(fate)][0]}: {count}" for fate, count in row.counts.items()),
            answers=", ".join(f"{question} = {value}" for question, value in row.answers),
        )
        for row in rows
    )


def _answer(plan: Plan | None, taken: int | None) -> str:
    if taken is not None:
        return ngettext(
            "Taken: %(num)s person was added or changed.", "Taken: %(num)s people were added or changed.", taken
        )
    if plan is None:
        return _("Choose a spreadsheet (.xlsx) or a text table with a column for the number and one for the name.")
    if not plan.ready:
        return _("It cannot be taken yet. All of it is taken, or nothing.")
    if not plan.acts:
        return _("Nothing changes: the record says all of it already.")
    return ngettext(
        "It can be taken; %(num)s person would be added or changed.",
        "It can be taken; %(num)s people would be added or changed.",
        len(plan.acts),
    )


def _told(plan: Plan) -> Iterator[str]:
    yield from map(translate, plan.told)
    if plan.dropped:
        yield _("Not stored: %(heads)s.", heads=", ".join(plan.dropped))
    if plan.samples:
        yield _("Names as read: %(names)s", names=" · ".join(plan.samples))


def _question(question: Question) -> AskedPart:
    return AskedPart(
        told=translate(question.sentence),
        name=ANSWER + question.id,
        choices=tuple((choice.value, translate(choice.sentence)) for choice in question.choices),
        day=DAY + question.id if question.takes_day else "",
    )


def _note(finding: Finding) -> NoteRow:
    told = finding.told if isinstance(finding, RosterFinding) else None
    where = _("line %(line)s", line=finding.line) if finding.line else ""
    return NoteRow(where=where, what=translate(told or finding.note), fix=translate(finding.fix))


def _groups(plan: Plan) -> Iterator[FateGroup]:
    for fate, (title, note) in TITLES.items():
        rows = [row for row in plan.rows if row.fate is fate]
        if rows:
            shown = tuple(map(_row, rows[:MOST]))
            yield FateGroup(title=str(title), note=str(note), count=len(rows), rows=shown, more=len(rows) - len(shown))
    absent = [FateRow(line=0, number=number, name=name, changes=(), words=()) for number, name in plan.absent]
    if absent:
        note = _("on record and not in the file")
        rest = len(absent) - MOST
        yield FateGroup(title=_("Absent"), note=note, count=len(absent), rows=tuple(absent[:MOST]), more=max(rest, 0))


def _row(row: Row) -> FateRow:
    changes = [f"{translate(one.field.replace('_', ' '))}: {one.old or '–'} → {one.new}" for one in row.changes]
    if row.fate in {Fate.NEW, Fate.REFUSED, Fate.ASKED}:  # nothing on record to compare with: what was read
        changes = [f"{head}: {text}" for head, text in row.read.items()]
    refusals = (
        f"{one.head + ': ' if one.head else ''}{translate(one.told)} {translate(one.right)}" for one in row.refusals
    )
    words = (*map(translate, row.reasons), *refusals)
    return FateRow(line=row.line, number=row.number, name=row.name, changes=tuple(changes), words=words)
