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
    """One run over a folder; gathers findings and the places of things.

    A site's own folder is read by a second reader beside the first (see :mod:`trainer.bank.beside`), and both gather in
    the same place. ``prefix`` then stands before the names of its files. ``added`` are the languages that the site adds:
    ``lender`` reads the words of the base in them. ``replaces`` are the ids that the base has to give up, ``held`` the ids
    and folders that the base has, ``places`` the folders that were read and their ids.
    """

    folder: Path
    languages: tuple[str, ...] = ("en",)
    findings: list[Finding] = field(default_factory=list)
    origins: dict[str, Origin] = field(default_factory=dict)
    told: dict[tuple[str, str], Origin] = field(default_factory=dict)
    drawn: dict[tuple[str, str], Origin] = field(default_factory=dict)
    broken: set[str] = field(default_factory=set)
    read: set[str] = field(default_factory=set)
    files: dict[str, File] = field(default_factory=dict)
    prefix: str = ""
    base: "Reader | None" = None
    lender: "Reader | None" = None
    added: frozenset[str] = frozenset()
    replaces: frozenset[str] = frozenset()
    given_up: dict[str, Origin] = field(default_factory=dict)
    held: dict[str, Origin] = field(default_factory=dict)
    places: dict[str, Origin] = field(default_factory=dict)

    def file(self, name: str, *, numbers: bool = False, optional: bool = False) -> File:
        """Read one file of the folder."""
        self.read.add(name)
        shown = self.prefix + name
        if optional and not (self.folder / name).exists():
            return File(shown)
        if name not in self.files:  # words in an added language are asked for by two readers
            root = self.folder.resolve().parent if self.prefix else self.folder
            self.files[name] = read_file(root, shown, self.findings, numbers=numbers)
        return self.files[name]

    def texts(self, below: str) -> Texts:
        """Read the text files of one folder, one for each language.

        A site's lists of names and labels need a language only where they have something to say in it.
        """
        optional = self.base is not None and "/" not in below
        files = {
            language: self.teller(language).file(f"{below}/{language}.yaml", optional=optional)
            for language in self.languages
        }
        wanting = {code for code in files if optional and not (self.folder / below / f"{code}.yaml").exists()}
        return Texts(files, self.findings, wanting=wanting)

    def teller(self, language: str) -> "Reader":
        """Return who has the words in a language: another reader where a site adds the language."""
        return self.lender if self.lender and language in self.added else self

    def folders(self, kind: str) -> list[str]:
        """Return the folders below ``kind``, sorted, relative to the bank."""
        top = self.folder / kind
        found = sorted(f"{kind}/{path.name}" for path in top.iterdir() if path.is_dir()) if top.is_dir() else []
        return [name for name in found if not self._lent(name)]

    def _lent(self, name: str) -> bool:
        """Say whether a folder only holds the base's words in an added language."""
        structure = f"{name.partition('/')[0].removesuffix('s')}.yaml"
        own = (self.folder / name / structure).exists()
        return self.base is not None and bool(self.added) and not own and (self.base.folder / name).is_dir()

    def skips(self, item: str, origin: Origin, folder: str = "") -> bool:
        """Say whether an item is not read: the base gives up what the site replaces, the site may replace nothing else."""
        if self.base is None and item in self.replaces:
            self.given_up[item] = origin
        elif not self._taken(item, origin, folder):
            if folder:
                self.places[folder] = self.places[item] = origin
            return False
        if folder:
            self.read |= {path.relative_to(self.folder).as_posix() for path in (self.folder / folder).glob("*")}
        return True

    def _taken(self, item: str, origin: Origin, folder: str) -> bool:
        """Report what the base has already, with both files."""
        other = self.held.get(item) or self.held.get(folder)
        if other is None:
            return False
        what = f"“{item}”" if item in self.held else f"The folder “{folder}”"
        note = f"{what} stands in {other.file.name}, line {other.line()}, as well, and replaces does not name it."
        self.findings.append(DuplicateId(file=origin.file.name, line=origin.line(), key=item, note=note))
        return True

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
        file = self.file(name, optional=self.base is not None)
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
