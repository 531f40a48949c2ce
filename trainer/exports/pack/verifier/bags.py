"""Bags as in BagIt 1.0, RFC 8493 (2018): complete, valid, and nothing that leads out of them."""

import hashlib
import re
import unicodedata
from collections.abc import Mapping

from trainer.exports.pack.verifier.check import Check
from trainer.exports.pack.verifier.files import UNREADABLE

DECLARED = re.compile(r"BagIt-Version: (\d+\.\d+)\nTag-File-Character-Encoding: (\S+)\n?")
ENTRY = re.compile(r"([0-9A-Fa-f]+)[ \t]+(\S.*)")
ALGORITHMS = ("md5", "sha1", "sha256", "sha512")  # RFC 8493 section 2.4
KEPT = {"%0a": "\n", "%0d": "\r", "%25": "%"}
PIECE = 1 << 16  # octets read at a time

Listed = dict[str, dict[str, str]]  # by file, by the manifest that lists it: the checksum


def check_bag(check: Check) -> Listed:
    """Check that a folder or zip file is a valid bag; return what its manifests list, by file."""
    check.try_("bagit.txt", lambda: _declaration(check))
    names = check.files.names
    payload = {name for name in names if name.startswith("data/")}
    if not payload and not check.files.has_folder("data"):
        check.fault("data", "is missing: a bag has a folder of this name.")
    found: Listed = {}
    lists = [name for name in sorted(names) if re.fullmatch(r"(tag)?manifest-[a-z0-9]+\.txt", name)]
    for name in lists:
        check.try_(name, lambda name=name: _manifest(check, name, found))  # type: ignore[misc]
    _same_form(check, found)
    own = [name for name in lists if not name.startswith("tag")]
    if not own:
        check.fault("manifest-sha512.txt", "is missing: a bag has at least one list of its files.")
    for name in own:
        for missed in sorted(payload - {each for each, sums in found.items() if name in sums}):
            check.fault(missed, f"is not in the list {name}: it was put in, or its line was taken out.")
    for name, sums in sorted(found.items()):
        _compare(check, name, sums)
    check.try_("bag-info.txt", lambda: _size(check, payload))
    return found


def lines_of(text: str) -> list[str]:
    """Return the lines of a tag file; they end with LF, CR or both (RFC 8493 section 2.3)."""
    return re.split(r"\r\n|\r|\n", text)


def _declaration(check: Check) -> None:
    text = check.files.text("bagit.txt")
    found = DECLARED.fullmatch(text.replace("\r\n", "\n").replace("\r", "\n"))
    if found is None:
        check.fault("bagit.txt", "does not hold the two lines that it must, letter for letter.")
    elif found[1] != "1.0" or found[2].upper() != "UTF-8":
        check.fault("bagit.txt", f"is of BagIt {found[1]} in {found[2]}; this checks BagIt 1.0 in UTF-8.")


def _manifest(check: Check, name: str, found: Listed) -> None:
    tags = name.startswith("tag")
    if _algorithm(name) not in ALGORITHMS:
        check.fault(name, "uses a checksum that this cannot work out.")
        return
    for number, line in enumerate(lines_of(check.files.text(name)), 1):
        entry = ENTRY.fullmatch(line)
        if entry is None:
            if line:
                check.fault(f"{name}, line {number}", "was changed: it is not a checksum and a file.")
            continue
        path = re.sub(r"%(?:0[aAdD]|25)", lambda hit: KEPT[hit[0].lower()], entry[2])
        trouble = _trouble(path, tags=tags)
        if trouble:
            check.fault(f"{name}, line {number}", trouble)
        elif name in found.setdefault(path, {}):
            check.fault(name, f"lists {path} twice.")
        else:
            found[path][name] = entry[1].lower()
    if tags:
        _lists_manifests(check, name, found)


def _trouble(path: str, *, tags: bool) -> str:
    """Return what is wrong with a path in a list; an empty text when nothing is."""
    parts = path.replace("\\", "/").split("/")
    if path.startswith(("/", "~", "\\")) or ".." in parts or re.match(r"[A-Za-z]:", path):
        return f"names {path}, which leads out of the bag."
    if tags and path.startswith("data/"):
        return f"names {path}, which belongs in another list."
    if tags and path.startswith("tagmanifest-"):
        return f"names {path}, which no list may name."
    if not tags and not path.startswith("data/"):
        return f"names {path}, which does not lie in data."
    return ""


def _lists_manifests(check: Check, name: str, found: Listed) -> None:
    for other in sorted(check.files.names):
        if other.startswith("manifest-") and name not in found.get(other, {}):
            check.fault(name, f"does not list {other}, as it must.")


def _compare(check: Check, name: str, sums: Mapping[str, str]) -> None:
    """Work out a file's checksums and compare them with every list that names it."""
    if name not in check.files.names:
        check.fault(name, "is missing.")
        return
    try:
        worked_out = _checksums(check, name, {_algorithm(each) for each in sums})
    except UNREADABLE as error:
        check.fault(name, f"cannot be read: {error}.")
        return
    wrong = [each for each, given in sums.items() if worked_out[_algorithm(each)] != given]
    if wrong and len(wrong) == len(sums):
        check.fault(name, "was changed: it is not the file that was packed.")
    for each in wrong if len(wrong) < len(sums) else ():
        check.fault(each, f"was changed: its checksum of {name} is not right.")


def _same_form(check: Check, found: Listed) -> None:
    """Put the name that a file has in place of the same name in another form of Unicode; some systems change it."""
    actual = {unicodedata.normalize("NFC", name): name for name in check.files.names}
    for name in [each for each in found if each not in check.files.names]:
        other = actual.get(unicodedata.normalize("NFC", name))
        if other and other not in found:
            found[other] = found.pop(name)


def _checksums(check: Check, name: str, algorithms: set[str]) -> dict[str, str]:
    running = {each: hashlib.new(each) for each in algorithms}
    with check.files.open(name) as stream:
        while piece := stream.read(PIECE):
            for each in running.values():
                each.update(piece)
    return {name: each.hexdigest() for name, each in running.items()}


def _size(check: Check, payload: set[str]) -> None:
    """Compare the size of the payload with what bag-info.txt says of it, where it says so."""
    if "bag-info.txt" not in check.files.names:
        return
    said = [line for line in lines_of(check.files.text("bag-info.txt")) if line.lower().startswith("payload-oxum:")]
    octets = sum(check.files.size(name) for name in payload)
    if said and [line.partition(":")[2].strip() for line in said] != [f"{octets}.{len(payload)}"]:
        check.fault("bag-info.txt", f"speaks of another payload: there are {octets} octets in {len(payload)} files.")


def _algorithm(name: str) -> str:
    return name.removesuffix(".txt").rpartition("-")[2]
