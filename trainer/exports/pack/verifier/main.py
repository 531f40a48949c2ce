"""Checking a pack from beginning to end, and telling what was found."""

import hashlib
import sys
import zipfile
from pathlib import Path
from typing import Any

from trainer.exports.pack.verifier.bags import Listed, check_bag
from trainer.exports.pack.verifier.check import Check
from trainer.exports.pack.verifier.contents import Contents
from trainer.exports.pack.verifier.files import Files
from trainer.exports.pack.verifier.shape import PACK

SEAL = "tagmanifest-sha256.txt"  # the list of the lists: its digest stands for the whole pack
LISTS = ("manifest-sha256.txt", "manifest-sha512.txt", SEAL, "tagmanifest-sha512.txt")
SIGNS = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"  # base 32 without I, L, O and U, which are misread


def check_pack(path: Path) -> tuple[Check, dict[str, Any]]:
    """Check a pack in a folder or a zip file; ValueError where there is none."""
    try:
        files = Files(path)
    except (OSError, zipfile.BadZipFile) as error:
        raise ValueError(f"{path} is neither a folder nor a zip file: {error}") from error
    if "bagit.txt" not in files.names and PACK not in files.names:
        raise ValueError(f"{path} holds no pack: there is no bagit.txt and no {PACK}")
    check = Check(files)
    _strict(check, check_bag(check))
    pack: dict[str, Any] = {}

    def inside() -> None:
        contents = Contents(check)
        pack.update(contents.pack)
        contents.all()

    check.try_(PACK, inside)
    return check, pack


def _strict(check: Check, listed: Listed) -> None:
    """Check what a pack keeps to beyond what BagIt asks: every file in two lists, the lists to the last sign."""
    for name in sorted(check.files.names):
        if name not in listed and not name.startswith("tagmanifest-"):
            check.fault(name, "was put in: it is in no list.")
    tags = sorted(name for name in listed if not name.startswith("data/"))
    for name in LISTS:
        if name not in check.files.names:
            check.fault(name, "is missing.")
        elif name.startswith("tag"):
            wanted = "".join(f"{listed[each].get(name, '')}  {each}\n" for each in tags)
            check.try_(name, lambda name=name, wanted=wanted: _written(check, name, wanted))  # type: ignore[misc]


def _written(check: Check, name: str, wanted: str) -> None:
    if check.files.text(name) != wanted:
        check.fault(name, "was changed: it is not written as the program writes it.")


def pack_code(check: Check) -> str:
    """Return the code that stands for every octet of a pack: 60 bits of a SHA-256, as people read it out."""
    number = int(hashlib.sha256(check.files.text(SEAL).encode()).hexdigest()[:15], 16)
    signs = "".join(SIGNS[(number >> 5 * place) & 31] for place in reversed(range(12)))
    return "-".join(signs[start : start + 4] for start in (0, 4, 8))


def told(check: Check, pack: dict[str, Any]) -> str:
    """Return what was found, in plain words."""
    counts = check.counts
    rows = [f"{where}: {text}" for where, text in check.faults]
    checked = f"{counts['files']} files, {counts['entries']} entries and {counts['checkpoints']} checkpoints read."
    if rows:
        return "\n".join([*rows, f"{checked} {len(rows)} faults: this is not the pack as it was made."])
    about = f"{pack['site']}: {len(pack['people'])} people as of {pack['on']}."
    code = f"Pack code {pack_code(check)}, checkpoint C-{pack['checkpoint']} {pack['checkpoint_digest'][:16]}."
    ask = "Compare both with what the site told you by another way; whoever makes a pack anew changes them."
    return "\n".join([about, f"{checked} All as written.", code, ask])


def main(words: list[str]) -> int:
    """Check the pack that is named, or the one in which this file lies; return 0, 1 or 2."""
    if len(words) > 1 or any(word.startswith("-") for word in words):
        sys.stderr.write("python -I -S verify.py [FOLDER or ZIP]\n")
        return 2
    try:
        check, pack = check_pack(Path(words[0]) if words else Path(__file__).resolve().parent)
    except ValueError as error:
        sys.stderr.write(f"{error}.\n")
        return 2
    sys.stdout.reconfigure(encoding="utf-8", errors="replace")  # type: ignore[union-attr]
    sys.stdout.write(told(check, pack) + "\n")
    return 1 if check.faults else 0
