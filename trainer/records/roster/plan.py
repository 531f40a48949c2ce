"""The plan of an import: a file compared with the people known, with every row's fate. It changes nothing."""

import hashlib
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from functools import partial

from trainer.errors import UsageError
from trainer.findings import Report
from trainer.records.roster.absent import settle_absent
from trainer.records.roster.cells import Sheet
from trainer.records.roster.clashes import without_clashes
from trainer.records.roster.columns import known_heads, map_columns
from trainer.records.roster.decoding import decode, samples
from trainer.records.roster.delimited import read_delimited
from trainer.records.roster.fates import Fate, Plan, Row
from trainer.records.roster.findings import OpenQuestion, RefusedRow, RosterFinding, found
from trainer.records.roster.known import Known, read_known
from trainer.records.roster.matching import FUTURE, Context, decide
from trainer.records.roster.notes import for_review
from trainer.records.roster.questions import Asked, Choice, Question, Stop
from trainer.records.roster.spreadsheet import is_spreadsheet, read_spreadsheet
from trainer.records.roster.updating import with_fate
from trainer.records.roster.values import Stated, Statement, read_statement
from trainer.records.roster.zeros import settle_zeros
from trainer.records.work import Reading
from trainer.wording import Sentence, say

LARGEST = 32 * 1024 * 1024  # bytes of a file; ten times a roster of 65,536 people


def check(r: Reading, data: bytes, *, file: str = "", answers: Mapping[str, str] | None = None) -> Plan:
    """Return what importing a file would do, row by row; ``answers`` settle questions by their ids.

    Raises :class:`UsageError` for a file that is too large to look at.
    """
    if len(data) > LARGEST:
        raise UsageError(say("The file is too large to be a roster; {most} MB is the most.", most=LARGEST // 1024**2))
    asked = Asked(answers or {})
    made = Plan(file=file, file_digest=hashlib.sha256(data).hexdigest())
    try:
        sheet = _read(data, asked)
        columns = map_columns(sheet.header, asked.answers)
        made = replace(made, dropped=columns.dropped)
        made = _compared(made, sheet, read_statement(sheet, columns, asked), read_known(r), asked)
    except Stop as stop:
        made = replace(made, report=Report(stop.findings))
    still_open = [found(OpenQuestion, one.sentence, line=one.line, key=one.id) for one in asked.open]
    findings = [replace(finding, file=file) for finding in (*made.report, *still_open)]
    return replace(made, questions=tuple(asked.open), settled=dict(asked.settled), report=Report(findings))


def _read(data: bytes, asked: Asked) -> Sheet:
    known = partial(known_heads, answers=asked.answers)
    if is_spreadsheet(data):
        return read_spreadsheet(data, known, asked)
    text, encoding = decode(data, asked)
    return read_delimited(text, encoding, known)


def _compared(made: Plan, sheet: Sheet, statement: Statement, known: Known, asked: Asked) -> Plan:
    """Return the plan with every row's fate and, in its report, what the comparison found."""
    settle_zeros(statement.people, known, asked)
    chosen, repeated = _once_each(statement.people, asked)
    seen = frozenset(known.by_number[one.number].key for one in statement.people if one.number in known.by_number)
    context = Context(known=known, asked=asked, seen=seen, future=_future(chosen, known, asked))
    decided = [decide(one, context) for one in chosen]
    unsettled = sum(row.fate in {Fate.ASKED, Fate.REFUSED} for row in (*decided, *repeated))
    about = {row.act.key for row in decided if row.act and row.act.key}
    absent = settle_absent(seen | about, unsettled, known, asked)
    rows = [*without_clashes(decided, absent.acts, known), *repeated, *_total(statement)]
    rows.sort(key=lambda row: row.line)
    return replace(
        made,
        told=(*_told(sheet, statement), *statement.told),
        samples=samples("\n".join(one.name for one in statement.people)),
        rows=tuple(rows),
        absent=tuple((one.number, one.name) for one in absent.people),
        absent_acts=absent.acts,
        report=Report([*statement.findings, *_refused(rows), *absent.findings, *for_review(rows, known, sheet)]),
    )


def _once_each(people: Sequence[Stated], asked: Asked) -> tuple[list[Stated], list[Row]]:
    """Return each number once, and the rows of those that come twice: the same again, or one to be chosen."""
    by_number: dict[str, list[Stated]] = defaultdict(list)
    for one in people:
        by_number[one.number or f"line {one.line}"].append(one)
    chosen: list[Stated] = []
    rows: list[Row] = []
    for number, those in by_number.items():
        if all(_statement(one) == _statement(those[0]) for one in those):
            chosen.append(those[0])
            again = say("The same as line {line}.", line=those[0].line)
            rows += [with_fate(one, Fate.REPEATED, again) for one in those[1:]]
            continue
        line = _which(number, those, asked)
        told = say("{number} stands on lines {lines}.", number=number, lines=", ".join(str(one.line) for one in those))
        chosen += [one for one in those if str(one.line) == line]
        fate = Fate.ASKED if line is None else Fate.SKIPPED
        rows += [with_fate(one, fate, told) for one in those if str(one.line) != line]
    return chosen, rows


def _statement(one: Stated) -> tuple[object, ...]:
    return one.name, one.sort_name, one.ended, one.fields, one.refusals, one.open


def _which(number: str, those: Sequence[Stated], asked: Asked) -> str | None:
    choices = tuple(
        Choice(str(one.line), say("Line {line}: {read}", line=one.line, read=" · ".join(one.read.values())))
        for one in those
    )
    told = say("{number} stands more than once in the file, with different values. Which line is right?", number=number)
    return asked.ask(Question(id=f"line:{number}", sentence=told, choices=choices, line=those[0].line))


def _future(people: Iterable[Stated], known: Known, asked: Asked) -> bool:
    """Ask once whether first days that are still to come are right."""
    days = [(one.fields["started"], one) for one in people if one.fields.get("started", known.today) > known.today]
    new = [(day, one) for day, one in days if one.number not in known.by_number and not one.refusals]
    if not new:
        return True
    day, last = max(new, key=lambda pair: (pair[0], pair[1].line))
    told = say(
        "{count} people begin on a day that is still to come; the last is {name}, on {day}. Is that right?",
        count=len(new),
        name=last.name,
        day=str(day),
    )
    choice = Choice("right", say("Yes, these days are right"))
    return asked.ask(Question(id=FUTURE, sentence=told, choices=(choice,), line=last.line)) is not None


def _total(statement: Statement) -> list[Row]:
    if statement.total is None:
        return []
    line, count = statement.total
    told = say(
        "No person: the line counts {count} rows, and {read} were read.", count=count, read=len(statement.people)
    )
    return [Row(line=line.number, fate=Fate.TOTAL, name=" ".join(text for text in line.texts if text), reasons=(told,))]


def _told(sheet: Sheet, statement: Statement) -> Iterable[Sentence]:
    """Say how the file was read."""
    if sheet.name:
        yield say("Read from the sheet {name}.", name=sheet.name)
    else:
        yield say("Read as {encoding}, parted by {delimiter}.", encoding=sheet.encoding, delimiter=sheet.delimiter)
    yield say("{count} rows were read, up to line {line}.", count=len(statement.people), line=sheet.last)


def _refused(rows: Iterable[Row]) -> Iterator[RosterFinding]:
    for row in rows:
        for refusal in row.refusals:
            if not refusal.wide:
                yield found(RefusedRow, refusal.told, line=row.line, key=refusal.head or row.number)
