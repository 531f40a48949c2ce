"""Open a package that came from outside: its items, read within limits, and nothing ever written from it."""

import zlib
from collections.abc import Iterator
from pathlib import Path
from posixpath import normpath
from zipfile import BadZipFile, ZipFile

from trainer.errors import UsageError
from trainer.exports.qti.findings import UnreadableItem
from trainer.exports.qti.names import ITEM_TYPE, MANIFEST_FILE
from trainer.exports.qti.node import Node, Unreadable, parsed
from trainer.findings import Finding
from trainer.wording import say

LARGEST = 1_000_000  # bytes of one file, unpacked
MOST_ITEMS = 20_000


def items(path: Path, findings: list[Finding]) -> Iterator[tuple[str, Node]]:
    """Give each item of a package with the name of its file; what cannot be read goes to ``findings``.

    Raises :class:`UsageError` where the file is no package at all.
    """
    try:
        with ZipFile(path) as archive:
            manifest = _manifest(archive, path)
            for name in _listed(manifest, path, findings):
                found = _read(archive, name, findings)
                if found is not None:
                    yield name, found
    except OSError as error:
        raise UsageError(
            say("{file} cannot be read: {reason}.", file=path.name, reason=error.strerror or "it is no zip file")
        ) from error
    except BadZipFile as error:
        raise UsageError(say("{file} is no zip file.", file=path.name)) from error


def _manifest(archive: ZipFile, path: Path) -> Node:
    try:
        return parsed(_bytes(archive, MANIFEST_FILE))
    except KeyError as error:
        raise UsageError(
            say(
                "{file} is no content package: it has no {manifest} at its top.", file=path.name, manifest=MANIFEST_FILE
            )
        ) from error
    except Unreadable as error:
        raise UsageError(
            say(
                "The {manifest} of {file} cannot be read: {reason}.",
                manifest=MANIFEST_FILE,
                file=path.name,
                reason=str(error),
            )
        ) from error


def _listed(manifest: Node, path: Path, findings: list[Finding]) -> list[str]:
    """Return the files of the items that the manifest names."""
    listed = []
    for resource in manifest.all("resource"):
        kind = resource.get("type")
        if kind == ITEM_TYPE:
            listed.append(normpath(resource.get("href")))
        elif kind.startswith(("imsqti_item", "imsqti_test")):
            note = f"A resource of the type {kind[:60]} is not taken in; an item of QTI 3.0 is {ITEM_TYPE}."
            findings.append(
                UnreadableItem(file=MANIFEST_FILE, line=resource.line, key=resource.get("identifier"), note=note)
            )
    if len(listed) > MOST_ITEMS:
        raise UsageError(say("{file} holds more than {count} items.", file=path.name, count=MOST_ITEMS))
    return listed


def _read(archive: ZipFile, name: str, findings: list[Finding]) -> Node | None:
    try:
        return parsed(_bytes(archive, name))
    except KeyError:
        findings.append(UnreadableItem(file=name, note="The manifest names it, and it is not in the package."))
    except Unreadable as error:
        findings.append(UnreadableItem(file=name, line=error.line, note=f"{error}."))
    return None


def _bytes(archive: ZipFile, name: str) -> bytes:
    """Return a file's bytes; however small it is packed, no more than the limit is ever unpacked."""
    try:
        with archive.open(name) as stream:
            data = stream.read(LARGEST + 1)
    except (BadZipFile, zlib.error, EOFError, RuntimeError, NotImplementedError) as error:
        raise Unreadable("It is damaged, locked, or packed in a way that is not read") from error
    if len(data) > LARGEST:
        raise Unreadable(f"It is larger than {LARGEST // 1000} kB")
    return data
