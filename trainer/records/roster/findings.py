"""What a check of a roster may find, each with a code. ``told`` says what was seen, ``right`` what would be right."""

from dataclasses import dataclass
from typing import ClassVar, TypeVar

from trainer.findings import Finding, Severity
from trainer.wording import Sentence, mark


@dataclass(frozen=True, kw_only=True, slots=True)
class RosterFinding(Finding):
    """One thing about a roster, in words that a door can translate."""

    title: ClassVar[str] = "There is something about this roster."
    fix: ClassVar[str] = ""

    told: Sentence | None = None


F = TypeVar("F", bound=RosterFinding)


def found(kind: type[F], told: Sentence, *, line: int = 0, key: str = "") -> F:
    """Make a finding whose note is the sentence."""
    return kind(line=line, key=key, note=str(told), told=told)


class UnreadableRoster(RosterFinding):
    """The file is no table that can be read."""

    code: ClassVar[str] = "unreadable-roster"
    title: ClassVar[str] = "The file cannot be read as a roster."
    fix: ClassVar[str] = mark("Save it as a spreadsheet (.xlsx) or as CSV, and try again.")


class CutRoster(RosterFinding):
    """The file looks cut or partial."""

    code: ClassVar[str] = "cut-roster"
    title: ClassVar[str] = "The file looks cut, or holds only a part of the people."
    fix: ClassVar[str] = mark("Export it again, whole; nobody is ended because of a part.")


class RosterColumns(RosterFinding):
    """The columns cannot be told."""

    code: ClassVar[str] = "roster-columns"
    title: ClassVar[str] = "It cannot be told which column is which."
    fix: ClassVar[str] = mark(
        "The first line names the columns; a roster needs the number and the name of each person."
    )


class MixedDays(RosterFinding):
    """A column of days is written in more than one way."""

    code: ClassVar[str] = "mixed-days"
    title: ClassVar[str] = "The days of this column are not written in one way."
    fix: ClassVar[str] = mark("Write every day of the column as 2026-03-09, from the source and not from this file.")


class OpenQuestion(RosterFinding):
    """A question has no answer yet."""

    code: ClassVar[str] = "open-question"
    title: ClassVar[str] = "A question has to be answered first."
    fix: ClassVar[str] = mark("Choose one of the readings.")


class RefusedRow(RosterFinding):
    """A row cannot be taken."""

    code: ClassVar[str] = "refused-row"
    title: ClassVar[str] = "This row cannot be taken."
    fix: ClassVar[str] = mark("Correct the row in the file; nothing is taken until every row can be.")


class ForReview(RosterFinding):
    """A row is taken and somebody should look at it."""

    code: ClassVar[str] = "row-for-review"
    title: ClassVar[str] = "Look at this row before it is taken."
    fix: ClassVar[str] = mark("If it is right, nothing has to be done.")
    severity: ClassVar[Severity] = Severity.WARNING
