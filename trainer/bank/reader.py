"""The reader of a folder: it opens files, makes models, and gathers findings and places on the way."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, TypeVar

from pydantic import BaseModel

from trainer.bank.draft import Origin
from trainer.bank.findings import DuplicateId, MissingKey
from trainer.bank.making import make
from trainer.bank.model import Frozen
from trainer.bank.texts import Texts
from trainer.bank.yamlfile import File, read_file
from trainer.findings import Finding

M = TypeVar("M", bound=BaseModel)


@dataclass(slots=True)
class Reader:
    """One run over a folder; gathers findings and the places of things."""

    folder: Path
    languages: tuple[str, ...] = ("en",)
    findings: list[Finding] = field(default_factory=list)
    origins: dict[str, Origin] = field(default_factory=dict)
    told: dict[tuple[str, str], Origin] = field(default_factory=dict)
    drawn: dict[tuple[str, str], Origin] = field(default_factory=dict)
    broken: set[str] = field(default_factory=set)
    read: set[str] = field(default_factory=set)

    def file(self, name: str, *, numbers: bool = False, optional: bool = False) -> File:
        """Read one file of the folder."""
        self.read.add(name)
        if optional and not (self.folder / name).exists():
            return File(name)
        return read_file(self.folder, name, self.findings, numbers=numbers)

    def texts(self, below: str) -> Texts:
        """Read the text files of one folder, one for each language."""
        files = {language: self.file(f"{below}/{language}.yaml") for language in self.languages}
        return Texts(files, self.findings)

    def folders(self, kind: str) -> list[str]:
        """Return the folders below ``kind``, sorted, relative to the bank."""
        top = self.folder / kind
        return sorted(f"{kind}/{path.name}" for path in top.iterdir() if path.is_dir()) if top.is_dir() else []

    def add(self, item: str, origin: Origin, texts: Texts | None = None, *path: str) -> bool:
        """Note where an item stands; False, with a finding, where its id is taken."""
        if item in self.origins:
            other = self.origins[item]
            note = f"“{item}” stands in {other.file.name}, line {other.line()}, as well."
            self.findings.append(DuplicateId(file=origin.file.name, line=origin.line(), key=item, note=note))
            return False
        self.origins[item] = origin
        for language, file in (texts.files if texts else {}).items():
            self.told[item, language] = Origin(file, path)
        return True

    def make(self, model: type[M], item: str, origin: Origin, **given: Any) -> M | None:
        """Make a model of an entry and remember it as broken where it does not fit."""
        made = make(model, item, origin, self.findings, **given)
        if made is None:
            self.broken.add(item)
        return made

    def each(self, name: str) -> Iterator[tuple[str, Origin]]:
        """Give every entry of a file that maps ids to entries."""
        file = self.file(name)
        if file.there and not isinstance(file.data, dict):
            self.make(Frozen, "", Origin(file))
        for key in file.data if isinstance(file.data, dict) else ():
            yield key, Origin(file, (key,))

    def whole(self, name: str) -> Origin | None:
        """Read a file that is one entry; None where it cannot be read."""
        file = self.file(name)
        return Origin(file) if file.there else None

    def within(self, origin: Origin, item: str, kind: str) -> Iterator[tuple[str, Origin]]:
        """Give every entry of a list that stands in an entry, with its ``id``; a wanting or doubled id is a finding."""
        listed = origin.file.get(*origin.path, kind)
        seen = set()
        for number, entry in enumerate(listed if isinstance(listed, list) else ()):
            place = Origin(origin.file, (*origin.path, kind, number))
            key = entry.get("id") if isinstance(entry, dict) else None
            if not isinstance(key, str) or not key:
                self.findings.append(MissingKey(file=place.file.name, line=place.line(), key=f"{item} {kind} id"))
            elif key in seen:
                self.findings.append(DuplicateId(file=place.file.name, line=place.line("id"), key=f"{item} {key}"))
            else:
                seen.add(key)
                yield key, place
