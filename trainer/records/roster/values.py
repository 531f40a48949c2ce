"""From lines to people as the file states them: typed values where a cell is good, a refusal where it is not."""

import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from typing import Any

from trainer.records.roster import cellrules
from trainer.records.roster.cells import Cell, Kind, Line, Sheet
from trainer.records.roster.columns import Columns
from trainer.records.roster.days import DayColumn, read_days
from trainer.records.roster.findings import CutRoster, RosterFinding, found
from trainer.records.roster.questions import Asked, Choice, Question
from trainer.records.roster.refusals import Refusal
from trainer.wording import Sentence, say

ROW_LIMITS = (
    65_536,
    1_048_576,
)  # rows of a sheet in the spreadsheet forms of 1997 and 2007: where programs cut silently
TOTAL = re.compile(
    r"(?:grand )?(?:total|count|sum|rows|records|employees|people|suma|recuento|filas|personas|empleados)\b\D*(\d[\d., ]*)",
    re.IGNORECASE,
)
RULES: Mapping[str, Callable[[Cell], cellrules.Value]] = {
    "number": cellrules.number,
    "badge": cellrules.number,
    "name": cellrules.name,
    "given": cellrules.name,
    "family": cellrules.name,
    "sort_name": cellrules.name,
    "shift": cellrules.word,
    "crew": cellrules.word,
    "agency": cellrules.word,
    "language": cellrules.language,
    "kind": cellrules.kind,
}
DAYS = ("started", "ended", "born")
KEPT = ("badge", "shift", "crew", "language", "kind", "agency", "started", "born")
GIVEN_FIRST, FAMILY_FIRST = "given-first", "family-first"


@dataclass(slots=True, kw_only=True)
class Stated:
    """A person as one row states them. An empty cell states nothing, so it is in no mapping here.

    ``read`` is what the mapped columns hold, by the file's own heads; ``bare`` says that the number was a number to the
    spreadsheet, so that zeros in front of it are lost if there were any; ``open`` what has not been answered about it.
    """

    line: int
    number: str = ""
    name: str = ""
    sort_name: str | None = None
    ended: date | None = None
    fields: dict[str, Any] = field(default_factory=dict)
    read: dict[str, str] = field(default_factory=dict)
    refusals: list[Refusal] = field(default_factory=list)
    open: list[Sentence] = field(default_factory=list)
    bare: bool = False


@dataclass(slots=True, kw_only=True)
class Statement:
    """All that a file states. ``total`` is the line that counts the rows, if it ends in one, and what it says."""

    people: list[Stated]
    told: list[Sentence]
    findings: list[RosterFinding]
    total: tuple[Line, int] | None = None


def read_statement(sheet: Sheet, columns: Columns, asked: Asked) -> Statement:
    """Read every line of a sheet."""
    lines, total = _without_total(sheet.lines)
    stated = [_read_line(line, sheet, columns) for line in lines]
    made = Statement(people=stated, told=[], findings=_cuts(sheet, lines, total), total=total)
    for name in DAYS:
        if name in columns.places:
            cells = _cells(lines, columns.places[name])
            _take_days(made, name, read_days(cells, name, columns.heads[name], asked))
    if columns.parted:
        _put_names_together(stated, asked)
    for one in stated:
        _must_have(one)
    return made


def _without_total(lines: Sequence[Line]) -> tuple[Sequence[Line], tuple[Line, int] | None]:
    """Part the last line from the rest when it counts the rows."""
    if not lines:
        return lines, None
    match = TOTAL.fullmatch(" ".join(text for text in lines[-1].texts if text))
    if match is None:
        return lines, None
    return lines[:-1], (lines[-1], int(re.sub(r"\D", "", match[1])))


def _cuts(sheet: Sheet, lines: Sequence[Line], total: tuple[Line, int] | None) -> list[RosterFinding]:
    """Return every sign that a file is not whole."""
    signs: list[tuple[Sentence, int]] = []
    if sheet.last in ROW_LIMITS:
        signs.append((say("The file has exactly {count} lines, where programs cut.", count=sheet.last), sheet.last))
    if total is not None and total[1] != len(lines):
        told = say("The last line counts {count}, and {read} rows were read.", count=total[1], read=len(lines))
        signs.append((told, total[0].number))
    if not lines:
        signs.append((say("The file names no people."), sheet.last))
    width = len(sheet.header.cells)
    if sheet.line_end_missing and total is None and lines and len(lines[-1].cells) < width:
        told = say("The file ends in the middle of a row.")
        signs.append((told, lines[-1].number))
    return [found(CutRoster, told, line=line) for told, line in signs]


def _read_line(line: Line, sheet: Sheet, columns: Columns) -> Stated:
    stated = Stated(line=line.number)
    width = len(sheet.header.cells)
    if len(line.cells) > width or (sheet.encoding and len(line.cells) < width):
        told = say("The row has {count} cells, the head has {width}.", count=len(line.cells), width=width)
        stated.refusals.append(
            Refusal(told, say("Quote a cell that holds the delimiter, or fill in the missing ones."))
        )
    for name, spot in columns.places.items():
        if spot < len(line.cells) and line.cells[spot].text:
            cell = line.cells[spot]
            stated.read[columns.heads[name]] = cell.text
            if name in RULES:
                _take(stated, name, RULES[name](cell), columns.heads[name])
            if name == "number":
                stated.bare = cell.kind is Kind.NUMBER
    return stated


def _take(stated: Stated, name: str, value: cellrules.Value, head: str) -> None:
    if isinstance(value, Refusal):
        stated.refusals.append(replace(value, head=head))
    elif name in {"number", "name", "sort_name"}:
        setattr(stated, name, value)
    else:
        stated.fields[name] = value


def _cells(lines: Iterable[Line], spot: int) -> dict[int, Cell]:
    return {line.number: line.cells[spot] for line in lines if spot < len(line.cells) and line.cells[spot].text}


def _take_days(made: Statement, name: str, column: DayColumn) -> None:
    made.findings.extend(column.findings)
    made.told.extend(() if column.told is None else (column.told,))
    for one in made.people:
        if one.line in column.open:
            one.open.append(column.open[one.line])
        elif one.line in column.refusals:
            one.refusals.append(column.refusals[one.line])
        elif one.line in column.days and name == "ended":
            one.ended = column.days[one.line]
        elif one.line in column.days:
            one.fields[name] = column.days[one.line]


def _put_names_together(stated: Iterable[Stated], asked: Asked) -> None:
    """Make whole names of given and family names, in the order that a person chooses; one alone is the whole name."""
    parts = {one.line: (one.fields.pop("given", ""), one.fields.pop("family", "")) for one in stated}
    orders = {GIVEN_FIRST: "{0} {1}", FAMILY_FIRST: "{1} {0}"}
    both = [part for part in parts.values() if all(part)]
    choices = tuple(
        Choice(order, say("{names}", names=" · ".join(form.format(*part) for part in both[:3])))
        for order, form in orders.items()
    )
    told = say("Given and family names stand apart. In which order are these people called?")
    order = asked.ask(Question(id="name-order", sentence=told, choices=choices)) if both else GIVEN_FIRST
    for one in stated:
        given, family = parts[one.line]
        one.name = orders[order or GIVEN_FIRST].format(given, family).strip()
        if one.sort_name is None and given and family:
            one.sort_name = f"{family}, {given}"


def _must_have(stated: Stated) -> None:
    if stated.refusals:
        return
    if not stated.number:
        stated.refusals.append(Refusal(say("The row has no number."), say("Give the person’s number.")))
    if not stated.name:
        stated.refusals.append(Refusal(say("The row has no name."), say("Give the person’s name.")))
    started, ended, born = stated.fields.get("started"), stated.ended, stated.fields.get("born")
    if started and ended and ended < started:
        told = say("The last day {ended} lies before the first, {started}.", ended=str(ended), started=str(started))
        stated.refusals.append(Refusal(told, say("Correct one of the two days.")))
    if born and started and born >= started:
        told = say("Born on {born} and here since {started}.", born=str(born), started=str(started))
        stated.refusals.append(Refusal(told, say("Correct one of the two days.")))
