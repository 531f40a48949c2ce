"""The words of the bank: one file per folder and language, joined to the structure by key."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from trainer.bank.findings import BadValue, MissingText, OrphanText
from trainer.bank.model import Text
from trainer.bank.yamlfile import File, Path_
from trainer.findings import Finding

LONGEST = 2_000  # characters of one text; a sheet holds far less


@dataclass(slots=True)
class Texts:
    """The texts of one folder, in each language. What is asked for is noted, so that the rest can be told."""

    files: Mapping[str, File]
    findings: list[Finding]
    used: set[Path_] = field(default_factory=set)

    def text(self, *path: str) -> Text:
        """Return the text at a path in every language; where one is wanting, that is a finding."""
        self.used.add(path)
        words = {}
        for language, file in self.files.items():
            found = file.get(*path)
            if isinstance(found, str) and found.strip() and len(found) <= LONGEST:
                words[language] = found.strip()
            elif file.there:
                self.findings.append(_wanting(file, path, found))
        return Text(words=words)

    def orphans(self) -> None:
        """Report every text that nothing asked for."""
        for file in self.files.values():
            for path, found in leaves(file.data):
                if path not in self.used and not self._above(path):
                    key = ".".join(path)
                    self.findings.append(OrphanText(file=file.name, line=file.line(*path), key=key, note=_first(found)))

    def _above(self, path: Path_) -> bool:
        """Say whether a text was asked for where a mapping stands: reported once already, as a bad value."""
        return any(path[:length] in self.used for length in range(1, len(path)))


def _wanting(file: File, path: Path_, found: object) -> Finding:
    kind: type[Finding] = BadValue
    note = "Write one text here, not a list or a mapping."
    if found is None or found == "":
        kind, note = MissingText, ""
    elif isinstance(found, str):
        note = f"The text is longer than {LONGEST} characters."
    return kind(file=file.name, line=file.line(*path), key=".".join(map(str, path)), note=note)


def leaves(data: object, path: tuple[str, ...] = ()) -> list[tuple[tuple[str, ...], object]]:
    """Return everything of a file of words that is no mapping, with the keys that lead to it."""
    if isinstance(data, dict):
        return [leaf for key, value in data.items() for leaf in leaves(value, (*path, key))]
    return [] if data is None else [(path, data)]


def _first(found: object) -> str:
    return f"Nothing uses “{' '.join(str(found).split())[:40]}”."
