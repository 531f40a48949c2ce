"""Findings: what a check has to say, as data.

A finding is a class with a code, so that reports, tests and documentation speak of the same thing. An instance says
where it is and what was seen. The bank's checks, the drills' self-checks and the verification of the ledger all
report through :class:`Report`.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from enum import StrEnum
from typing import ClassVar


class Severity(StrEnum):
    """Whether a finding stops the thing from being used."""

    ERROR = "error"
    WARNING = "warning"


@dataclass(frozen=True, kw_only=True, slots=True)
class Finding:
    """One thing that a check found.

    ``file`` and ``line`` say where (a path relative to what was checked, or empty), ``key`` which entry, ``note`` what
    was seen. The class says what it means and how to mend it.
    """

    code: ClassVar[str]
    title: ClassVar[str]
    fix: ClassVar[str]
    severity: ClassVar[Severity] = Severity.ERROR

    file: str = ""
    line: int = 0
    key: str = ""
    note: str = ""

    def __str__(self) -> str:
        place = f"{self.file}:{self.line}" if self.line else self.file
        where = " ".join(part for part in (place, self.key) if part)
        return f"{where}: {self.code}: {self.note or self.title} {self.fix}".strip()


class Report:
    """The findings of one run, in the order of their places."""

    def __init__(self, findings: Iterable[Finding] = ()) -> None:
        self.findings = sorted(findings, key=lambda f: (f.file, f.line, f.key, f.code))

    def __iter__(self) -> Iterator[Finding]:
        return iter(self.findings)

    def __len__(self) -> int:
        return len(self.findings)

    @property
    def errors(self) -> list[Finding]:
        """Return the findings that stop the thing from being used."""
        return [finding for finding in self.findings if finding.severity is Severity.ERROR]

    @property
    def good(self) -> bool:
        """Say whether nothing stops the thing from being used."""
        return not self.errors

    @property
    def exit_code(self) -> int:
        """Return the exit code of a command that printed this report."""
        return 0 if self.good else 1

    def rows(self, *names: str) -> list[tuple[object, ...]]:
        """Return the named attributes of each finding, for a test to compare in one assert."""
        return [tuple(getattr(finding, name) for name in names) for finding in self.findings]

    def as_data(self) -> list[dict[str, object]]:
        """Return the findings as plain data, for ``--json``."""
        return [
            {
                "code": f.code,
                "severity": f.severity.value,
                "file": f.file,
                "line": f.line,
                "key": f.key,
                "note": f.note or f.title,
                "fix": f.fix,
            }
            for f in self.findings
        ]
