"""Writing a bag (BagIt 1.0, RFC 8493, 2018) straight into a zip file; nothing is held but checksums."""

import hashlib
import zipfile
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import BinaryIO

ALGORITHMS = ("sha256", "sha512")  # those that every tool must know (RFC 8493 section 2.4)
BEGINNING = (1980, 1, 1, 0, 0, 0)  # every file has this time, so that equal packs have equal octets
MODE = 0o100644 << 16
DECLARATION = b"BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n"
HELD_BACK = {"%": "%25", "\n": "%0A", "\r": "%0D"}


@dataclass(slots=True)
class Bag:
    """A bag that is being written into ``file``; ``folder`` is the one folder at the top of the zip file."""

    file: BinaryIO
    folder: str
    octets: int = 0
    payload: dict[str, dict[str, str]] = field(default_factory=dict)
    tags: dict[str, dict[str, str]] = field(default_factory=dict)
    _zip: zipfile.ZipFile = field(init=False)

    def __post_init__(self) -> None:
        self._zip = zipfile.ZipFile(self.file, "w", zipfile.ZIP_DEFLATED, compresslevel=6)

    def put(self, name: str, pieces: Iterable[bytes]) -> None:
        """Add a file of the payload; ``name`` begins with ``data/``."""
        octets, self.payload[name] = self._write(name, pieces)
        self.octets += octets

    def tag(self, name: str, content: bytes) -> None:
        """Add a file about the bag."""
        self.tags[name] = self._write(name, [content])[1]

    def close(self) -> None:
        """End the zip file, whole or not."""
        self._zip.close()

    def finish(self, info: Mapping[str, str]) -> str:
        """Write what is said about the bag and every list; return the SHA-256 of the list of the lists."""
        said = {**info, "Payload-Oxum": f"{self.octets}.{len(self.payload)}"}
        self.tag("bagit.txt", DECLARATION)
        self.tag("bag-info.txt", "".join(f"{label}: {_line(value)}\n" for label, value in said.items()).encode())
        for algorithm in ALGORITHMS:
            self.tag(f"manifest-{algorithm}.txt", _list(self.payload, algorithm))
        lists = {algorithm: _list(self.tags, algorithm) for algorithm in ALGORITHMS}
        for algorithm, content in lists.items():
            self._write(f"tagmanifest-{algorithm}.txt", [content])
        return hashlib.sha256(lists["sha256"]).hexdigest()

    def _write(self, name: str, pieces: Iterable[bytes]) -> tuple[int, dict[str, str]]:
        sums = {algorithm: hashlib.new(algorithm) for algorithm in ALGORITHMS}
        octets = 0
        about = zipfile.ZipInfo(f"{self.folder}/{name}", BEGINNING)
        about.compress_type, about.external_attr, about.create_system = zipfile.ZIP_DEFLATED, MODE, 3
        with self._zip.open(about, "w") as file:
            for piece in pieces:
                file.write(piece)
                octets += len(piece)
                for running in sums.values():
                    running.update(piece)
        return octets, {algorithm: running.hexdigest() for algorithm, running in sums.items()}


def _list(found: Mapping[str, Mapping[str, str]], algorithm: str) -> bytes:
    return "".join(f"{sums[algorithm]}  {_held(name)}\n" for name, sums in sorted(found.items())).encode()


def _held(name: str) -> str:
    return "".join(HELD_BACK.get(sign, sign) for sign in name)


def _line(value: str) -> str:
    return " ".join(value.split())
