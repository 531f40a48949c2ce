"""New files of a bank, written as :mod:`trainer.bank.loader` reads them: all or nothing, and never over others.

A draft is a beginning for an author: nothing in it is judged here. ``trainer bank check`` does that once it stands in a
bank.
"""

import shutil
import tempfile
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import yaml

from trainer.errors import UsageError
from trainer.wording import say

FOLDER = "scenarios"
WIDTH = 120  # characters of a line, as in the shipped bank


@dataclass(frozen=True, slots=True, kw_only=True)
class ScenarioDraft:
    """One scenario: its structure without words, and its words in each language, both as in the files."""

    slug: str
    structure: Mapping[str, Any]
    words: Mapping[str, Mapping[str, Any]] = field(default_factory=dict)


def write_drafts(drafts: Iterable[ScenarioDraft], folder: Path) -> list[str]:
    """Write each scenario to ``folder/scenarios/<slug>/`` and return the names of the files, sorted.

    Nothing is ever overwritten; see :func:`write_folders`.
    """
    return write_folders({draft.slug: _files(draft) for draft in drafts}, folder, FOLDER)


def write_folders(folders: Mapping[str, Mapping[str, str]], folder: Path, kind: str) -> list[str]:
    """Write folders of new files, by slug, to ``folder/<kind>/<slug>/`` and return the names of the files, sorted.

    Nothing is ever overwritten: where one of those folders is there already, nothing at all is written and
    :class:`UsageError` names it. The folders appear only when they are whole.
    """
    top = folder / kind
    for slug in folders:
        if (top / slug).exists():
            raise UsageError(say("{folder} is there already. Name another folder.", folder=str(top / slug)))
    try:
        top.mkdir(parents=True, exist_ok=True)
        return _moved(folders, top)
    except OSError as error:
        raise UsageError(
            say("{folder} cannot be written: {reason}.", folder=str(top), reason=error.strerror or "")
        ) from error


def _moved(folders: Mapping[str, Mapping[str, str]], top: Path) -> list[str]:
    """Write everything beside its place, then move it there folder by folder."""
    made: list[str] = []
    staging = Path(tempfile.mkdtemp(prefix=".draft-", dir=top))
    try:
        for slug, files in folders.items():
            (staging / slug).mkdir()
            for name, text in files.items():
                (staging / slug / name).write_text(text, encoding="utf-8", newline="\n")
                made.append(f"{top.name}/{slug}/{name}")
        for path in sorted(staging.iterdir()):
            path.rename(top / path.name)  # fails where a folder with files has come in between
    finally:
        shutil.rmtree(staging, ignore_errors=True)
    return sorted(made)


def _files(draft: ScenarioDraft) -> dict[str, str]:
    files = {"scenario.yaml": draft.structure} | {f"{language}.yaml": told for language, told in draft.words.items()}
    return {name: as_yaml(data) for name, data in files.items()}


def as_yaml(data: Mapping[str, Any]) -> str:
    """Return data as YAML in the style of the bank: short lists and mappings on one line, keys as they come."""
    text: str = yaml.safe_dump(data, sort_keys=False, allow_unicode=True, width=WIDTH, default_flow_style=None)
    return text
