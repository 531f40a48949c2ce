"""The words of the bank: one file per folder and language, joined to the structure by key."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field

from trainer.bank.findings import BadValue, MissingFile, MissingText, OrphanText
from trainer.bank.model import Text
from trainer.bank.yamlfile import File, Path_
from trainer.findings import Finding

LONGEST = 2_000  # characters of one text; a sheet holds far less


@dataclass(slots=True)
class Texts:
    """The texts of one folder, in each language. What is asked for is noted, so that the rest can be told.

    ``wanting`` holds the languages whose file is not there and only has to be where a text is asked for.
    """

    files: Mapping[str, File]
    findings: list[Finding]
    used: set[Path_] = field(default_factory=set)
    wanting: set[str] = field(default_factory=set)

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
            elif language in self.wanting:
                self.wanting.discard(language)
                self.findings.append(MissingFile(file=file.name))
        return Text(words=words)

    def orphans(
        self, elsewhere: Mapping[str, set[Path_]] | None = None, *, without: Collection[str] = frozenset()
    ) -> None:
        """Report every text that nothing asked for.

        ``elsewhere`` is what others asked of the same files, by language; languages ``without`` are not looked at.
        """
        for language, file in self.files.items():
            used = self.used | (elsewhere or {}).get(language, set())
            for path, found in leaves(file.data) if language not in without else ():
                if not _asked(path, used):
                    key = ".".join(path)
                    self.findings.append(OrphanText(file=file.name, line=file.line(*path), key=key, note=_first(found)))


def _asked(path: Path_, used: set[Path_]) -> bool:
    """Say whether a text was asked for, there or above it: a mapping in its place is reported already, as a bad value."""
    return any(path[:length] in used for length in range(1, len(path) + 1))


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
