"""What somebody should look at before a roster is taken, though nothing is wrong with it for certain."""

import re
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence

from trainer.records.names import folded
from trainer.records.roster.cellrules import RISKY
from trainer.records.roster.cells import Sheet
from trainer.records.roster.fates import Fate, Row
from trainer.records.roster.findings import ForReview, found
from trainer.records.roster.known import Known
from trainer.wording import say

NATIONAL = (
    re.compile(r"\d{3}-\d{2}-\d{4}"),  # US Social Security number: three, two and four digits (20 CFR 422.103)
    re.compile(
        r"[A-Z]{2} ?\d{2} ?\d{2} ?\d{2} ?[A-D]"
    ),  # UK National Insurance number: two letters, six digits, A to D
    re.compile(r"[XYZ0-9]\d{7}-?[A-Z]"),  # Spanish identity number: eight digits and a letter (common practice)
)
TAKEN = frozenset({Fate.NEW, Fate.CHANGED, Fate.BACK, Fate.UNCHANGED, Fate.LEAVER})


def for_review(rows: Sequence[Row], known: Known, sheet: Sheet) -> Iterator[ForReview]:
    """Give what should be looked at."""
    taken = [row for row in rows if row.fate in TAKEN]
    for row in taken:
        yield from _odd(row)
    yield from _namesakes(taken, known)
    if sheet.line_end_missing and rows:
        yield found(ForReview, say("The last line has no end; see that it is whole."), line=rows[-1].line)


def _odd(row: Row) -> Iterator[ForReview]:
    if row.name[:1] in RISKY and row.fate is not Fate.UNCHANGED:
        told = say(
            "{name} begins with a sign that spreadsheets run as a formula; it is stored as given.", name=row.name[:60]
        )
        yield found(ForReview, told, line=row.line, key=row.number)
    for head, text in row.read.items():
        if any(form.fullmatch(text.strip()) for form in NATIONAL):
            told = say("{head} looks like a national identity number; the program needs none.", head=head)
            yield found(ForReview, told, line=row.line, key=row.number)


def _namesakes(rows: Iterable[Row], known: Known) -> Iterator[ForReview]:
    """Tell of new people whose name somebody else has; they stay apart, and give a second sign of who they are."""
    numbers: dict[str, set[str]] = defaultdict(set)
    new = [row for row in rows if row.fate is Fate.NEW]
    for row in new:
        numbers[folded(row.name)].add(row.number)
    for person in known.by_number.values():
        if folded(person.name) in numbers:
            numbers[folded(person.name)].add(person.number)
    for row in new:
        others = sorted(numbers[folded(row.name)] - {row.number})
        if others:
            told = say(
                "{name} is also the name of {numbers}; they stay two people.", name=row.name, numbers=", ".join(others)
            )
            yield found(ForReview, told, line=row.line, key=row.number)
