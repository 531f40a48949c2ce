"""A package taken in: drafts of scenarios, and a finding for each item that could not be."""

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from trainer.bank.drafting import ScenarioDraft
from trainer.exports.qti.findings import DrillLeft
from trainer.exports.qti.joining import joined
from trainer.exports.qti.names import DRILL
from trainer.exports.qti.reading import Taken, Unfit
from trainer.exports.qti.taking import take
from trainer.exports.qti.unpack import items
from trainer.findings import Finding, Report


@dataclass(frozen=True, slots=True, kw_only=True)
class Intake:
    """What came of a package: drafts that :func:`trainer.bank.drafting.write_drafts` can write, and the findings."""

    drafts: tuple[ScenarioDraft, ...]
    questions: int
    report: Report


def intake(path: Path) -> Intake:
    """Read a package; :class:`~trainer.errors.UsageError` where it is none. Nothing is written."""
    findings: list[Finding] = []
    joining = joined(_taken(path, findings), findings)
    drafts = tuple(joining.drafts())
    return Intake(drafts=drafts, questions=joining.count(), report=Report(findings))


def _taken(path: Path, findings: list[Finding]) -> Iterator[Taken]:
    for name, root in items(path, findings):
        drill = next((one for one in root.walk() if one.get(DRILL)), None)
        if drill is not None:
            findings.append(DrillLeft(file=name, line=drill.line, key=root.get("identifier")[:80]))
            continue
        try:
            yield take(name, root)
        except Unfit as unfit:
            findings.append(unfit.finding)
