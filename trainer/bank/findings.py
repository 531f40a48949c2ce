"""What reading the content files may find. What the checks may find stands beside each check."""

from typing import ClassVar

from trainer.findings import Finding, Severity


class MissingFile(Finding):
    """A file that the bank needs is not there."""

    code: ClassVar[str] = "missing-file"
    title: ClassVar[str] = "The file is not there."
    fix: ClassVar[str] = "Add the file, or take its language or folder out of the bank."


class UnreadableFile(Finding):
    """A file is no YAML, is not UTF-8, or is far too big."""

    code: ClassVar[str] = "unreadable-file"
    title: ClassVar[str] = "The file cannot be read."
    fix: ClassVar[str] = "Save it as YAML in UTF-8, under 1 MB."


class DuplicateKey(Finding):
    """A key stands twice in one mapping; one of the two would be lost."""

    code: ClassVar[str] = "duplicate-key"
    title: ClassVar[str] = "The key stands twice."
    fix: ClassVar[str] = "Rename or delete one of the two."


class DuplicateId(Finding):
    """Two things have one id."""

    code: ClassVar[str] = "duplicate-id"
    title: ClassVar[str] = "The id is taken."
    fix: ClassVar[str] = "Give it an id of its own; ids are never used again."


class UnknownBase(Finding):
    """A drill that judges the numbers of another one names none that asks for a number."""

    code: ClassVar[str] = "unknown-base"
    title: ClassVar[str] = "There is no such drill to judge."
    fix: ClassVar[str] = "Name the id of a drill that asks for a number."


class ReplacesNothing(Finding):
    """A site's own content says that it replaces something, and does not."""

    code: ClassVar[str] = "replaces-nothing"
    title: ClassVar[str] = "Nothing is replaced."
    fix: ClassVar[str] = "Take the id out of replaces, or correct it; what is replaced has to be in both folders."


class UnknownKey(Finding):
    """A key that means nothing there, often a slip of the pen."""

    code: ClassVar[str] = "unknown-key"
    title: ClassVar[str] = "The key is not known here."
    fix: ClassVar[str] = "Correct its spelling or delete it."


class MissingKey(Finding):
    """A key that has to be there is not."""

    code: ClassVar[str] = "missing-key"
    title: ClassVar[str] = "A key is missing."
    fix: ClassVar[str] = "Add it."


class BadValue(Finding):
    """A value that cannot be what its key asks for."""

    code: ClassVar[str] = "bad-value"
    title: ClassVar[str] = "The value does not fit its key."
    fix: ClassVar[str] = "Write what the note asks for."


class MissingText(Finding):
    """A text is wanting in one of the bank's languages."""

    code: ClassVar[str] = "missing-text"
    title: ClassVar[str] = "The text is missing in this language."
    fix: ClassVar[str] = "Write it in this file."


class OrphanText(Finding):
    """A text that nothing in the bank asks for."""

    code: ClassVar[str] = "orphan-text"
    title: ClassVar[str] = "Nothing uses this text."
    fix: ClassVar[str] = "Correct its key or delete it."


class StrayFile(Finding):
    """A file that the bank does not read."""

    code: ClassVar[str] = "stray-file"
    title: ClassVar[str] = "The bank does not read this file."
    fix: ClassVar[str] = "Correct its name, add its language to bank.yaml, or move it out."
    severity: ClassVar[Severity] = Severity.WARNING


class BadFigure(Finding):
    """A figure of a text that no sum gives, or a name in a text that is no figure."""

    code: ClassVar[str] = "bad-figure"
    title: ClassVar[str] = "The figure cannot be computed."
    fix: ClassVar[str] = "Name a problem of trainer calc with all its inputs, and the figure's name in the text."
