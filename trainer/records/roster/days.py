"""Columns of days. The order of day and month is settled for a whole column at once, or asked, or the column refused."""

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

from trainer.records.roster.cells import Cell, Kind
from trainer.records.roster.findings import MixedDays, found
from trainer.records.roster.questions import Asked, Choice, Question
from trainer.records.roster.refusals import Refusal
from trainer.wording import Sentence, say

ISO = re.compile(r"(\d{4})-(\d{2})-(\d{2})(?:[T ]00:00(?::00(?:\.0+)?)?)?")
WRITTEN = re.compile(r"(\d{1,2})[./-](\d{1,2})[./-](\d{4})(?: 0?0:00(?::00)?)?")
SHORT_YEAR = re.compile(r"\d{1,2}[./-]\d{1,2}[./-]\d{2}")
DAY_FIRST, MONTH_FIRST = "day-first", "month-first"
HINT = "2026-03-09"


@dataclass(slots=True)
class DayColumn:
    """What a column of days came to, by line. ``told`` says how it was read; ``open`` are the lines asked about."""

    head: str
    days: dict[int, date] = field(default_factory=dict)
    refusals: dict[int, Refusal] = field(default_factory=dict)
    open: dict[int, Sentence] = field(default_factory=dict)
    findings: list[MixedDays] = field(default_factory=list)
    told: Sentence | None = None

    def refuse(self, cells: Mapping[int, Cell], one: int, other: int) -> None:
        """Refuse the whole column because of two lines that cannot both be right."""
        told = say(
            "Column {head}: {one} on line {line} and {other} on line {next} do not fit together; one half may be swapped.",
            head=self.head,
            one=cells[one].text,
            line=one,
            other=cells[other].text,
            next=other,
        )
        self.findings.append(found(MixedDays, told, line=one, key=self.head))
        why = Refusal(
            say("The whole column is refused."), say("Write each day as {hint}.", hint=HINT), self.head, wide=True
        )
        self.refusals = dict.fromkeys(cells, why)


def read_days(cells: Mapping[int, Cell], name: str, head: str, asked: Asked) -> DayColumn:
    """Read a column; ``cells`` are those that hold anything, by line, ``head`` is how the file calls the column."""
    column = DayColumn(head)
    written = {line: match for line, cell in cells.items() if (match := WRITTEN.fullmatch(cell.text))}
    plain = [line for line, cell in cells.items() if cell.kind is Kind.DAY or ISO.fullmatch(cell.text)]
    day_first = [line for line, match in written.items() if int(match[1]) > 12 >= int(match[2])]
    month_first = [line for line, match in written.items() if int(match[2]) > 12 >= int(match[1])]
    for one, other in ((list(written), plain), (day_first, month_first)):
        if one and other:
            column.refuse(cells, one[0], other[0])
            return column
    order = _settled(column, cells, day_first, month_first)
    doubtful = [line for line, match in written.items() if int(match[1]) != int(match[2])]
    if order is None and doubtful:
        order = _ask(written[doubtful[0]], doubtful[0], name, head, asked)
    for line, cell in cells.items():
        if line in written and order is None and doubtful:
            column.open[line] = say("Whether the day or the month comes first is not answered yet.")
        else:
            _put(column, line, cell, written.get(line), order or DAY_FIRST)
    return column


def _settled(column: DayColumn, cells: Mapping[int, Cell], day_first: list[int], month_first: list[int]) -> str | None:
    """Return the order that a value of the column settles, and say so."""
    if day_first:
        text, line = cells[day_first[0]].text, day_first[0]
        column.told = say(
            "Column {head} is read with the day first, because of {text} on line {line}.",
            head=column.head,
            text=text,
            line=line,
        )
        return DAY_FIRST
    if month_first:
        text, line = cells[month_first[0]].text, month_first[0]
        column.told = say(
            "Column {head} is read with the month first, because of {text} on line {line}.",
            head=column.head,
            text=text,
            line=line,
        )
        return MONTH_FIRST
    return None


def _ask(match: re.Match[str], line: int, name: str, head: str, asked: Asked) -> str | None:
    readings = {DAY_FIRST: (match[2], match[1]), MONTH_FIRST: (match[1], match[2])}
    choices = tuple(
        Choice(order, say("{text} is {day}", text=match[0], day=f"{match[3]}-{int(month):02d}-{int(day):02d}"))
        for order, (month, day) in readings.items()
    )
    told = say("Column {head}: no value tells whether the day or the month comes first. Which does?", head=head)
    return asked.ask(Question(id=f"days:{name}", sentence=told, choices=choices, line=line))


def _put(column: DayColumn, line: int, cell: Cell, match: re.Match[str] | None, order: str) -> None:
    if cell.kind is Kind.DAY and cell.day is not None:
        column.days[line] = cell.day
        return
    iso = ISO.fullmatch(cell.text) if cell.kind is Kind.TEXT else None
    if match is not None:
        day, month = (match[1], match[2]) if order == DAY_FIRST else (match[2], match[1])
        parts = match[3], month, day
    elif iso is not None:
        parts = iso[1], iso[2], iso[3]
    else:
        column.refusals[line] = _unread(cell, column.head)
        return
    try:
        column.days[line] = date(*map(int, parts))
    except ValueError:
        told = say("There is no day {text}.", text=cell.text)
        column.refusals[line] = Refusal(told, say("Write the day that is meant, as {hint}.", hint=HINT), column.head)


def _unread(cell: Cell, head: str) -> Refusal:
    right = say("Write it with four digits of the year, as {hint}.", hint=HINT)
    if SHORT_YEAR.fullmatch(cell.text):
        return Refusal(say("{text} has two digits of a year; the century is not said.", text=cell.text), right, head)
    return Refusal(say("{text} cannot be read as a day.", text=cell.text[:40]), right, head)
