"""The content bank: scenarios, questions and drills, read from a folder of YAML and judged as a whole.

:func:`load` gives the bank and everything that was found; :func:`open_bank` gives the bank or raises. A bank with one
error is refused whole.
"""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from trainer.bank.bank import Bank
from trainer.bank.checks import judge
from trainer.bank.draft import Draft
from trainer.bank.loader import read_folder
from trainer.errors import BankError
from trainer.findings import Report
from trainer.wording import say

__all__ = ["Bank", "CheckDrawing", "Loaded", "load", "open_bank"]

CheckDrawing = Callable[[Mapping[str, Any]], Iterable[str]]


@dataclass(frozen=True, slots=True)
class Loaded:
    """What came of reading a folder. ``draft`` is what could be read, whatever was found."""

    draft: Draft
    report: Report

    @property
    def bank(self) -> Bank | None:
        """Return the bank, or None where an error was found."""
        return self.draft.bank if self.report.good else None


def load(folder: Path, extra: Path | None = None, *, check_drawing: CheckDrawing | None = None) -> Loaded:
    """Read and judge a folder of content, with a site's own folder ``extra`` laid beside it (:mod:`trainer.bank.beside`).

    ``check_drawing`` says what is wrong with a drawing, in sentences.
    """
    draft, findings = read_folder(folder, extra)
    findings.extend(judge(draft, check_drawing))
    return Loaded(draft, Report(findings))


def open_bank(folder: Path, extra: Path | None = None, *, check_drawing: CheckDrawing | None = None) -> Bank:
    """Return the bank in a folder, with a site's own content; :class:`BankError` with the first finding for an error."""
    loaded = load(folder, extra, check_drawing=check_drawing)
    if loaded.bank is None:
        errors = loaded.report.errors
        raise BankError(
            say(
                "The content bank in {folder} has {count} errors; run “trainer bank check”. The first: {first}",
                folder=str(folder),
                count=len(errors),
                first=str(errors[0]),
            )
        )
    return loaded.bank
