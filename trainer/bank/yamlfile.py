"""Read one YAML file into plain data that remembers its lines.

Every scalar stays text, so that ``no`` is a language and ``12:30`` is no number; the models decide what a text has
to be. Nothing here raises on bad content: it becomes a finding and what could be read is kept.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import yaml

from trainer.bank.findings import DuplicateKey, MissingFile, UnreadableFile
from trainer.findings import Finding

LIMIT = 1_000_000  # bytes
DEPTH = 24  # levels of nesting; the bank's own files use seven
LOADER: Any = getattr(yaml, "CBaseLoader", yaml.BaseLoader)

Path_ = tuple[str | int, ...]


@dataclass(frozen=True, slots=True)
class File:
    """One file: its name relative to the bank's folder, its data, and the line of each entry."""

    name: str
    data: Any = None
    lines: dict[Path_, int] = field(default_factory=dict)

    @property
    def there(self) -> bool:
        """Say whether something was read."""
        return self.data is not None

    def line(self, *path: str | int) -> int:
        """Return the line of an entry, or of the nearest one above it that exists."""
        while path and path not in self.lines:
            path = path[:-1]
        return self.lines.get(path, 1)

    def get(self, *path: str | int) -> Any:
        """Return the data at a path, or None."""
        found = self.data
        for part in path:
            if isinstance(found, dict):
                found = found.get(part)
            elif isinstance(found, list) and isinstance(part, int) and part < len(found):
                found = found[part]
            else:
                return None
        return found


def read_file(folder: Path, name: str, findings: list[Finding], *, numbers: bool = False) -> File:
    """Read ``folder/name``; what is wrong with it goes to ``findings`` and the file comes back empty.

    With ``numbers``, as drawings want it, a plain ``1250`` is a number and a plain ``true`` is a truth value.
    """
    text = _text(folder / name, name, findings)
    if text is None:
        return File(name)
    try:
        node = yaml.compose(text, Loader=LOADER)
        return _file(name, node, _Notes(name, findings, numbers))
    except yaml.MarkedYAMLError as error:
        line = error.problem_mark.line + 1 if error.problem_mark else 0
        note = f"It is no YAML here: {error.problem}."
        findings.append(UnreadableFile(file=name, line=line, note=note))
    except (yaml.YAMLError, RecursionError, ValueError) as error:
        findings.append(UnreadableFile(file=name, note=f"It is no YAML that can be read: {_short(error)}."))
    return File(name)


def _text(path: Path, name: str, findings: list[Finding]) -> str | None:
    try:
        with path.open("rb") as stream:
            data = stream.read(LIMIT + 1)
    except FileNotFoundError:
        findings.append(MissingFile(file=name))
        return None
    except OSError as error:
        findings.append(UnreadableFile(file=name, note=f"It cannot be opened: {error.strerror}."))
        return None
    if len(data) > LIMIT:
        findings.append(UnreadableFile(file=name, note=f"It is larger than {LIMIT // 1000} kB."))
        return None
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data[: error.start].count(b"\n") + 1
        findings.append(UnreadableFile(file=name, line=line, note="It is not UTF-8 here."))
        return None


def _file(name: str, node: Any, notes: "_Notes") -> File:
    if node is None:
        notes.findings.append(UnreadableFile(file=name, note="It is empty."))
        return File(name)
    lines: dict[Path_, int] = {}
    data = _data(node, (), lines, notes)
    return File(name, data, lines)


@dataclass(slots=True)
class _Notes:
    name: str
    findings: list[Finding]
    numbers: bool
    seen: set[int] = field(default_factory=set)


def _data(node: Any, path: Path_, lines: dict[Path_, int], notes: _Notes) -> Any:
    lines.setdefault(path, node.start_mark.line + 1)
    if isinstance(node, yaml.ScalarNode):
        return _plain(node) if notes.numbers and not node.style else node.value
    if len(path) > DEPTH or id(node) in notes.seen:
        where = node.start_mark.line + 1
        note = "An entry is nested too deep or used twice through an alias."
        notes.findings.append(UnreadableFile(file=notes.name, line=where, note=note))
        return ""
    notes.seen.add(id(node))
    if isinstance(node, yaml.SequenceNode):
        return [_data(child, (*path, i), lines, notes) for i, child in enumerate(node.value)]
    return dict(_pairs(node, path, lines, notes))


def _plain(node: Any) -> str | int | float | bool:
    text: str = node.value
    if text in {"true", "false"}:
        return text == "true"
    if re.fullmatch(r"[-+]?\d{1,9}", text):
        return int(text)
    return float(text) if re.fullmatch(r"[-+]?\d{1,9}\.\d{1,9}", text) else text


def _pairs(node: Any, path: Path_, lines: dict[Path_, int], notes: _Notes) -> Iterator[tuple[str, Any]]:
    known: set[str] = set()
    for key_node, value_node in node.value:
        line = key_node.start_mark.line + 1
        if not isinstance(key_node, yaml.ScalarNode):
            notes.findings.append(UnreadableFile(file=notes.name, line=line, note="A key has to be plain text."))
            continue
        key = key_node.value
        if key in known:
            notes.findings.append(DuplicateKey(file=notes.name, line=line, key=".".join(map(str, (*path, key)))))
            continue
        known.add(key)
        lines[(*path, key)] = line
        yield key, _data(value_node, (*path, key), lines, notes)


def _short(error: Exception) -> str:
    return " ".join(str(error).split())[:120]
