"""The files of a pack, in a folder or still in a zip file; nothing is ever unpacked or written."""

import os
import zipfile
import zlib
from collections.abc import Iterator
from pathlib import Path
from typing import BinaryIO

LONGEST_LIST = 1 << 26  # octets of a file that is read whole
UNREADABLE = (OSError, EOFError, zipfile.BadZipFile, zlib.error, NotImplementedError, RuntimeError)


class Files:
    """The files of a folder or of a zip file, by their paths inside, with forward slashes."""

    def __init__(self, path: Path) -> None:
        self.folder = path
        self.archive = None if path.is_dir() else zipfile.ZipFile(path)
        self.odd: list[tuple[str, str]] = []
        found = list(self._walked() if self.archive is None else self._zipped())
        self.names = dict(found)
        self.odd += [(name, "stands twice in the zip file.") for name in self.names if _count(found, name) > 1]

    def open(self, name: str) -> BinaryIO:
        """Open a file for reading."""
        if name not in self.names:
            raise FileNotFoundError(name)
        place = self.names[name]
        return Path(place).open("rb") if self.archive is None else self.archive.open(place)  # type: ignore[return-value]

    def text(self, name: str) -> str:
        """Return a short file as text; ValueError where it is none or too long."""
        with self.open(name) as stream:
            held = stream.read(LONGEST_LIST + 1)
        if len(held) > LONGEST_LIST:
            raise ValueError("too long")
        return held.decode("utf-8")

    def size(self, name: str) -> int:
        """Return how many octets a file has."""
        place = self.names[name]
        return Path(place).stat().st_size if self.archive is None else self.archive.getinfo(place).file_size

    def has_folder(self, name: str) -> bool:
        """Say whether there is a folder of this name at the top."""
        inside = [] if self.archive is None else self.archive.namelist()
        return Path(self.folder, name).is_dir() or any(each.endswith(f"{name}/") for each in inside)

    def _walked(self) -> Iterator[tuple[str, str]]:
        for place, folders, files in os.walk(self.folder):
            for name in sorted(folders + files):
                path = Path(place, name)
                inside = path.relative_to(self.folder).as_posix()
                if path.is_symlink():
                    self.odd.append((inside, "is a link to somewhere else, not a file."))
                elif path.is_file():
                    yield inside, str(path)

    def _zipped(self) -> Iterator[tuple[str, str]]:
        names = [name for name in self.archive.namelist() if not name.endswith("/")] if self.archive else []
        tops = {name.split("/")[0] + "/" for name in names if name.count("/")}
        base = tops.pop() if len(tops) == 1 and all(name.count("/") for name in names) else ""
        yield from ((name.removeprefix(base), name) for name in names)


def _count(found: list[tuple[str, str]], name: str) -> int:
    return sum(each == name for each, _ in found)
