"""What a verification of the record may find, each with a code."""

from typing import ClassVar

from trainer.findings import Finding, Severity


class AlteredEntry(Finding):
    """A column of an entry is not what was written."""

    code: ClassVar[str] = "altered-entry"
    title: ClassVar[str] = "This entry was changed after it was written."
    fix: ClassVar[str] = "Compare it with a backup or a printed record, and find out who had access to the database."


class BrokenLink(Finding):
    """An entry does not follow on the one before it."""

    code: ClassVar[str] = "broken-link"
    title: ClassVar[str] = "This entry does not follow on the one before it in the person's chain."
    fix: ClassVar[str] = "The entry before it was changed, removed or put in; compare with a backup."


class MissingEntry(Finding):
    """A number is not there."""

    code: ClassVar[str] = "missing-entry"
    title: ClassVar[str] = "This entry was removed."
    fix: ClassVar[str] = "Restore it from a backup, and find out who had access to the database."


class ExtraEntry(Finding):
    """An entry that the ledger never took in."""

    code: ClassVar[str] = "extra-entry"
    title: ClassVar[str] = "This entry was put in beside the program."
    fix: ClassVar[str] = "Do not rely on it; compare with a backup, and find out who had access to the database."


class MissingPerson(Finding):
    """A whole person is gone."""

    code: ClassVar[str] = "missing-person"
    title: ClassVar[str] = "The person of these entries was removed."
    fix: ClassVar[str] = "Restore the person from a backup; a person is made nameless, never removed."


class HeadMismatch(Finding):
    """A chain does not end where it should."""

    code: ClassVar[str] = "head-mismatch"
    title: ClassVar[str] = "This chain does not end where its head says."
    fix: ClassVar[str] = "Its end was changed, removed or put in; compare with a backup."


class AlteredCheckpoint(Finding):
    """A checkpoint is not what was written."""

    code: ClassVar[str] = "altered-checkpoint"
    title: ClassVar[str] = "This checkpoint was changed after it was written."
    fix: ClassVar[str] = "Compare it with a copy that was printed or sent away."


class MissingCheckpoint(Finding):
    """A checkpoint is not there."""

    code: ClassVar[str] = "missing-checkpoint"
    title: ClassVar[str] = "This checkpoint was removed."
    fix: ClassVar[str] = "Restore it from a backup."


class CheckpointMismatch(Finding):
    """The ledger is not the one that a checkpoint was taken of."""

    code: ClassVar[str] = "checkpoint-mismatch"
    title: ClassVar[str] = "The entries are not the ones that this checkpoint was taken of."
    fix: ClassVar[str] = "Entries before it were changed and made to fit; compare with a backup."


class MissingGuard(Finding):
    """A trigger that refuses changes is gone."""

    code: ClassVar[str] = "missing-guard"
    title: ClassVar[str] = "The database no longer refuses to change the record."
    fix: ClassVar[str] = "Somebody took the guard away; check who, restore it from a backup or a fresh database."


class ClockBack(Finding):
    """An entry is older than the one before it."""

    code: ClassVar[str] = "clock-back"
    title: ClassVar[str] = "This entry was recorded at an earlier instant than the one before it."
    fix: ClassVar[str] = "The clock of the machine was set back; confirm on which day it happened."
    severity: ClassVar[Severity] = Severity.WARNING


class UnreadableRecord(Finding):
    """The database itself cannot be read."""

    code: ClassVar[str] = "unreadable-record"
    title: ClassVar[str] = "The database cannot be read."
    fix: ClassVar[str] = "Its file is damaged; restore it from a backup."
