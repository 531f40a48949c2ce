"""A bank as it was read, before it is judged: with the places that each entry was read from."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from typing import TypeVar

from trainer.bank.bank import Bank
from trainer.bank.yamlfile import File, Path_
from trainer.findings import Finding

F = TypeVar("F", bound=Finding)


@dataclass(frozen=True, slots=True)
class Origin:
    """Where an entry stands: a file and a path in it."""

    file: File
    path: Path_ = ()

    def line(self, *path: str | int) -> int:
        """Return the line of something in the entry."""
        return self.file.line(*self.path, *path)


@dataclass(frozen=True, slots=True)
class Replaced:
    """Something of the bank that a site's own content stands in for, with the file of each."""

    item: str
    file: str
    by: str


@dataclass(frozen=True, slots=True)
class Draft:
    """What the checks are given.

    ``origins`` maps an id to its structure, ``told`` an id and a language to its words,
    ``drawn`` a folder and a drawing's name to the drawing. ``broken`` holds the ids that
    exist but could not be read, so that no check calls them unknown. ``replaced`` lists what
    a site's own content replaces, as it says itself.
    """

    bank: Bank
    origins: dict[str, Origin] = field(default_factory=dict)
    told: dict[tuple[str, str], Origin] = field(default_factory=dict)
    drawn: dict[tuple[str, str], Origin] = field(default_factory=dict)
    broken: set[str] = field(default_factory=set)
    replaced: tuple[Replaced, ...] = ()

    def at(self, finding: type[F], item: str, *path: str | int, note: str = "") -> F:
        """Make a finding at an entry's structure."""
        return self._made(finding, self.origins.get(item), item, path, note)

    def at_text(self, finding: type[F], item: str, language: str, *path: str | int, note: str = "") -> F:
        """Make a finding at an entry's words in one language."""
        return self._made(finding, self.told.get((item, language)), item, path, note)

    def knows(self, item: str, known: Mapping[str, object]) -> bool:
        """Say whether an id is in ``known``, or was there and could not be read."""
        return item in known or item in self.broken

    def placed(self, finding: F) -> F:
        """Give a finding that names an item in its key the place of that item; another one comes back as it is."""
        item, *path = finding.key.split() or [""]
        origin = self.origins.get(item)
        if origin is None or finding.file:
            return finding
        return replace(finding, file=origin.file.name, line=origin.line(*path))

    def about(self, item: str, findings: Iterable[Finding]) -> list[Finding]:
        """Return those findings that are about an item: in its folder, or on it or a part of it by its key."""
        origin = self.origins.get(item)
        folder = origin.file.name.rpartition("/")[0] if origin else ""
        part = item.rpartition("/")[2]
        below = ("",) if origin and not origin.path else (f"questions.{part}.", f"lessons.{part}.")
        return [
            finding
            for finding in findings
            if finding.key.split(" ")[0] == item
            or (folder and finding.file.startswith(f"{folder}/") and finding.key.startswith(below))
        ]

    @staticmethod
    def _made(finding: type[F], origin: Origin | None, item: str, path: Path_, note: str) -> F:
        key = " ".join(part for part in (item, ".".join(map(str, path))) if part)
        if origin is None:
            return finding(key=key, note=note)
        return finding(file=origin.file.name, line=origin.line(*path), key=key, note=note)
