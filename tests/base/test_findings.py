"""Findings are data with a place, a reason and a way to mend them."""

from dataclasses import dataclass
from typing import ClassVar

from trainer.findings import Finding, Report, Severity


@dataclass(frozen=True, kw_only=True, slots=True)
class Loose(Finding):
    code: ClassVar[str] = "loose"
    title: ClassVar[str] = "A bolt is loose."
    fix: ClassVar[str] = "Tighten it."


@dataclass(frozen=True, kw_only=True, slots=True)
class Dusty(Loose):
    code: ClassVar[str] = "dusty"
    severity: ClassVar[Severity] = Severity.WARNING


def test_a_report_is_in_the_order_of_its_places():
    report = Report([Loose(file="b.yaml", line=2), Loose(file="a.yaml", line=9), Loose(file="a.yaml", line=3)])

    assert report.rows("file", "line") == [("a.yaml", 3), ("a.yaml", 9), ("b.yaml", 2)]


def test_an_error_fails_a_report_and_a_warning_does_not():
    assert Report([Dusty()]).exit_code == 0
    assert Report([Dusty(), Loose()]).exit_code == 1
    assert Report().good


def test_a_finding_reads_as_place_code_reason_and_fix():
    assert str(Loose(file="a.yaml", line=3, key="q1", note="It turns.")) == "a.yaml:3 q1: loose: It turns. Tighten it."
