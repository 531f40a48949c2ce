"""Has anybody changed the record? Every entry is read again, and what came late or was corrected is listed."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from trainer.findings import Finding, Report
from trainer.records.checkpoints import Checkpoint
from trainer.records.instants import read_instant
from trainer.records.ledger import Entry, EntryKind
from trainer.records.people import PersonRow
from trainer.web.entries import days_late, history
from trainer.web.office.frames import office_frame
from trainer.web.office.pages import ChangedPage, CheckpointRow, FindingRow
from trainer.web.sheet import Box, moment
from trainer.web.words import _, ngettext

CHECKPOINTS = 5  # the newest that are shown
MOST = 50  # rows of each list on the sheet; the file of all entries holds the rest
CORRECTIONS = {EntryKind.CORRECTED, EntryKind.MOVED}


@dataclass(frozen=True, slots=True, kw_only=True)
class Reread:
    """What reading the whole ledger again came to. ``late`` and ``corrected`` are newest first."""

    report: Report
    entries: int
    late: Sequence[Entry]
    late_count: int
    corrected: Sequence[Entry]
    people: Mapping[str, PersonRow]
    checkpoints: Sequence[Checkpoint]


def changed_page(reread: Reread) -> ChangedPage:
    """Build the sheet."""
    holds = not len(reread.report)
    return ChangedPage(
        frame=office_frame(
            "office.changed",
            _("Has anybody changed the record?"),
            Box(label=_("Entries read"), value=str(reread.entries)),
        ),
        heading=_("No. The ledger holds.") if holds else _("The ledger does not hold."),
        note=_("read again just now, from the first entry to the last"),
        answer=_answer(reread, holds=holds),
        findings=tuple(_finding(finding) for finding in reread.report),
        late=history(reread.late, reread.people),
        late_note=_late_note(reread),
        corrected=history(reread.corrected, reread.people),
        checkpoints=tuple(
            CheckpointRow(
                reference=one.reference, at=moment(read_instant(one.at)), entries=one.entries, digest=one.digest
            )
            for one in reread.checkpoints
        ),
    )


def _answer(reread: Reread, *, holds: bool) -> str:
    read = ngettext("%(num)s entry was read.", "%(num)s entries were read.", reread.entries)
    if holds:
        return read + " " + _("Each fits its code, each link holds, nobody is missing.")
    count = len(reread.report)
    bad = ngettext(
        "%(num)s thing does not fit; it is named below.", "%(num)s things do not fit; they are named below.", count
    )
    return f"{read} {bad} " + _("Keep the machine as it is and fetch the last backup.")


def _finding(finding: Finding) -> FindingRow:
    where = " ".join(part for part in (finding.key, finding.file) if part)
    return FindingRow(where=where, what=finding.note or finding.title, code=finding.code, fix=finding.fix)


def _late_note(reread: Reread) -> str:
    count = ngettext("%(num)s entry", "%(num)s entries", reread.late_count)
    more = reread.late_count - len(reread.late)
    return _("%(count)s, the newest %(shown)s shown", count=count, shown=len(reread.late)) if more > 0 else count


def is_late(entry: Entry) -> bool:
    """Say whether an entry was written on a later day than it happened."""
    return days_late(entry) > 0
