"""What ``trainer records items`` prints."""

from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from enum import Enum
from math import floor
from typing import Any

from trainer.assessment.itemstats import DOUBTS
from trainer.assessment.reliability import Reliability
from trainer.assessment.wrongoptions import OptionStatistics
from trainer.records.items import Findings, ItemReport, PaperReport
from trainer.wording import Sentence

MOST_MISTAKES = 3


def as_data(value: Any) -> Any:
    """Return results as plain data for JSON: sentences as text, doubts by their codes."""
    if is_dataclass(value) and not isinstance(value, Sentence):
        return {one.name: as_data(getattr(value, one.name)) for one in fields(value)}
    if isinstance(value, tuple | list):
        return [as_data(one) for one in value]
    if isinstance(value, Sentence):
        return str(value)
    return value.value if isinstance(value, Enum) else value


def lines(found: Findings) -> Iterator[str]:
    """Give the report line by line: items, those in doubt first, then papers."""
    for item in found.items:
        yield from _item(item)
    for paper in found.papers:
        yield from _paper(paper)
    doubted = sum(bool(item.doubts) for item in found.items)
    yield f"{len(found.items)} items answered, {doubted} in doubt. {len(found.papers)} programmes."


def _item(report: ItemReport) -> Iterator[str]:
    seen = report.statistics
    right = "" if seen.difficulty is None else f", right {seen.difficulty:.2f} ({seen.low:.2f} to {seen.high:.2f})"
    yield f"{report.item} version {report.version}: answers {seen.answers}{right}"
    if seen.corrected is not None:
        error = "" if seen.error is None else f" ± {seen.error:.2f}"
        yield f"    with the rest of the paper {seen.corrected:+.2f}{error}"
    if seen.upper_lower is not None:
        yield f"    best 27 % less weakest 27 % {seen.upper_lower:+.2f}"
    for option in report.options.options if report.options else ():
        yield f"    {_option(option)}"
    if report.skipped:
        yield f"    {report.skipped} left without an answer"
    yield from _fast(report)
    if report.mistakes:
        yield "    mistakes: " + ", ".join(f"{name} {count}" for name, count in report.mistakes[:MOST_MISTAKES])
    yield from (f"    {DOUBTS[doubt]}" for doubt in seen.doubts)
    if report.drift and report.drift.told:
        yield f"    {report.drift.told} ({report.drift.difference:+.2f}, {report.drift.low:+.2f} to {report.drift.high:+.2f})"
    if not report.in_bank:
        yield "    The bank has this item no longer, or in another version."
    if seen.note:
        yield f"    {seen.note}"


def _fast(report: ItemReport) -> Iterator[str]:
    seen = report.hurried
    if seen.fast:
        yield f"    {seen.fast} of {seen.timed} faster than it can be read, {seen.right} of them right"


def _option(option: OptionStatistics) -> str:
    share = "" if option.share is None else f" {option.share:.2f}"
    ends = (
        "" if option.upper is None or option.lower is None else f", best {option.upper:.2f} weakest {option.lower:.2f}"
    )
    told = "".join(f" {DOUBTS[doubt]}" for doubt in option.doubts)
    return f"{'right' if option.right else 'wrong'} {option.option}: {option.chosen}{share}{ends}.{told}"


def _paper(report: PaperReport) -> Iterator[str]:
    yield f"{report.programme}: {report.passed} of {report.people} passed at the first paper"
    seen = report.consistency
    if seen:
        yield f"    {seen.needed} of {seen.items} needed, {seen.people} papers"
    if seen and seen.exact:
        enough = "" if seen.enough or seen.note else " Too unsteady to decide alone."
        yield f"    a second paper would decide alike for {floor(seen.exact.alike * 100) / 100:.2f}, kappa {seen.exact.kappa:.2f}.{enough}"
    if report.error_at_mark is not None:
        yield f"    standard error of a score at the mark {report.error_at_mark:.1f} items"
    if seen and seen.note:
        yield f"    {seen.note}"
    if report.reliability:
        yield from _reliability(report.reliability)


def _reliability(seen: Reliability) -> Iterator[str]:
    if seen.kr20 is not None and seen.error is not None:
        note = f" {seen.note}" if seen.note else ""
        yield f"    the same {seen.items} items for {seen.people}: KR-20 {seen.kr20:.2f}, standard error {seen.error:.1f}.{note}"
