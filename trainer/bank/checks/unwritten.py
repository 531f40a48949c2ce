"""Nothing that an author still has to write reaches a learner."""

from collections.abc import Iterator
from typing import ClassVar

from trainer.bank.basis import TO_WRITE
from trainer.bank.draft import Draft
from trainer.bank.texts import leaves
from trainer.findings import Finding


class UnwrittenText(Finding):
    """A text of a skeleton that nobody has written yet."""

    code: ClassVar[str] = "unwritten-text"
    title: ClassVar[str] = "The text is still to be written."
    fix: ClassVar[str] = f"Write it, and take {TO_WRITE} away."


finds = (UnwrittenText,)


def check(draft: Draft) -> Iterator[Finding]:
    """Look at every text of every file of words."""
    files = {origin.file.name: origin.file for origin in draft.told.values()}
    for file in files.values():
        for path, found in leaves(file.data):
            if isinstance(found, str) and found.lstrip().startswith(TO_WRITE):
                note = f"“{' '.join(found.split())[:60]}”."
                yield UnwrittenText(file=file.name, line=file.line(*path), key=".".join(path), note=note)
