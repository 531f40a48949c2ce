"""Bags are accepted and refused as BagIt 1.0 says."""

import hashlib
import zipfile
from pathlib import Path

import pytest

from trainer.exports.pack.bagging import Bag
from trainer.exports.pack.verifier.bags import check_bag
from trainer.exports.pack.verifier.check import Check
from trainer.exports.pack.verifier.files import Files

# LibraryOfCongress/bagit-conformance-suite, version 1.0 (2018), CC0
SUITE = Path(__file__).parents[4] / "shared" / "vectors" / "bagit" / "v1.0"
REASONS = {
    "bagit-with-invalid-whitespace": "bagit.txt: does not hold the two lines that it must, letter for letter.",
    "notAllManifestsListAllFiles": "data/missingFromManifest.txt: is not in the list manifest-sha512.txt: "
    "it was put in, or its line was taken out.",
    "same-filename-listed-twice-with-different-hashes": "manifest-sha256.txt: lists data/README twice.",
    "same-filename-listed-twice-with-the-same-hash": "manifest-sha256.txt: lists data/README twice.",
}
DECLARED = b"BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n"


def faults(path: Path) -> list[str]:
    check = Check(Files(path))
    check_bag(check)
    return [f"{where}: {text}" for where, text in check.faults]


def published(kind: str) -> list[Path]:
    found = sorted((SUITE / kind).iterdir()) if SUITE.is_dir() else []
    if not found:
        pytest.skip(f"the published bags of BagIt 1.0 are not at {SUITE}")
    return found


def test_published_valid_bags_are_accepted():
    for path in published("valid"):
        assert faults(path) == [], path


def test_published_invalid_bags_are_refused_for_their_own_reason():
    assert [path.name for path in published("invalid")] == sorted(REASONS)
    for path in published("invalid"):
        assert REASONS[path.name] in faults(path), path


def sum_of(content: bytes, algorithm: str = "sha256") -> str:
    return hashlib.new(algorithm, content).hexdigest()


def bag(folder: Path, **changed: bytes | None) -> Path:
    """Write a small bag by hand, with some of its files changed; None leaves a file out."""
    files = {
        "bagit.txt": DECLARED,
        "data/a.txt": b"one\n",
        "data/deep/b.txt": b"two\n",
        "manifest-sha256.txt": f"{sum_of(b'one' + b'!'[:0] + bytes([10]))}  data/a.txt\n"
        f"{sum_of(b'two' + bytes([10]))} data/deep/b.txt\n".encode(),
        "bag-info.txt": b"Payload-Oxum: 8.2\n",
    }
    for name, content in (files | changed).items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        if content is not None:
            path.write_bytes(content)
    return folder


A, B = sum_of(b"one\n"), sum_of(b"two\n")
BOTH = f"{A}  data/a.txt\n{B}  data/deep/b.txt\n"


def test_a_bag_made_by_hand_is_accepted(tmp_path):
    assert faults(bag(tmp_path)) == []


@pytest.mark.parametrize(
    "changed",
    [
        # RFC 8493 (2018) section 2.1.3: checksums in either case, any blanks between, percent signs kept for CR and LF
        {
            "manifest-sha256.txt": BOTH.upper()
            .replace("DATA/A.TXT", "data/a.txt")
            .replace("DATA/DEEP/B.TXT", "data/deep/b.txt")
            .encode()
        },
        {"manifest-sha256.txt": f"{A} \t data/a.txt\r\n{B}\tdata/deep/b.txt".encode()},
        # section 2.3: lines end with LF, CR or both
        {"bagit.txt": DECLARED.replace(b"\n", b"\r\n")},
        {"bagit.txt": DECLARED.replace(b"\n", b"\r")},
        # section 2.2.2: bag-info.txt may be left out, and may say anything else
        {"bag-info.txt": None},
        {"bag-info.txt": b"Source-Organization: Ostrand Mill\n"},
        # section 2.2.4: other files beside the payload need not be listed
        {"notes/read.me": b"x"},
        # section 2.4: more lists, of older sums
        {
            "manifest-md5.txt": f"{sum_of(b'one' + bytes([10]), 'md5')} data/a.txt\n{sum_of(b'two' + bytes([10]), 'md5')} data/deep/b.txt\n".encode()
        },
    ],
)
def test_what_the_standard_allows_is_accepted(tmp_path, changed):
    assert faults(bag(tmp_path, **changed)) == []


def test_names_with_line_breaks_and_percent_signs_come_back(tmp_path):
    # RFC 8493 section 2.1.3: LF, CR and % in names are percent-encoded
    listed = f"{A}  data/100%25%0Aa.txt\n".encode()
    path = bag(tmp_path, **{"manifest-sha256.txt": listed, "data/a.txt": None, "data/deep/b.txt": None})
    (path / "data" / "100%\na.txt").write_bytes(b"one\n")
    (path / "bag-info.txt").write_bytes(b"Payload-Oxum: 4.1\n")

    assert faults(path) == []


@pytest.mark.parametrize(
    ("changed", "reason"),
    [
        # RFC 8493 (2018) section 2.1.1
        ({"bagit.txt": None}, "bagit.txt: is missing."),
        ({"bagit.txt": b"\xef\xbb\xbf" + DECLARED}, "bagit.txt: does not hold the two lines"),
        ({"bagit.txt": DECLARED + b"More: 1\n"}, "bagit.txt: does not hold the two lines"),
        ({"bagit.txt": DECLARED.replace(b"1.0", b"0.97")}, "bagit.txt: is of BagIt 0.97 in UTF-8"),
        ({"bagit.txt": DECLARED.replace(b"UTF-8", b"UTF-16")}, "bagit.txt: is of BagIt 1.0 in UTF-16"),
        ({"bagit.txt": b"\xff\xfe"}, "bagit.txt: was changed: it does not hold what it should."),
        # section 2.1.3
        ({"manifest-sha256.txt": None}, "manifest-sha512.txt: is missing: a bag has at least one list"),
        ({"manifest-sha256.txt": f"{A}  data/a.txt\n".encode()}, "data/deep/b.txt: is not in the list manifest-sha256.txt"),
        ({"manifest-sha256.txt": f"{BOTH}{A}  data/c.txt\n".encode()}, "data/c.txt: is missing."),
        ({"manifest-sha256.txt": f"{BOTH}{A}  bagit.txt\n".encode()}, "line 3: names bagit.txt, which does not lie in data."),
        ({"manifest-sha256.txt": f"{BOTH}nonsense\n".encode()}, "line 3: was changed: it is not a checksum and a file."),
        ({"manifest-sha256.txt": BOTH.replace(A, B).encode()}, "data/a.txt: was changed"),
        ({"manifest-crc32.txt": b"00000000  data/a.txt\n"}, "manifest-crc32.txt: uses a checksum"),
        ({"data/a.txt": b"One\n"}, "data/a.txt: was changed: it is not the file that was packed."),
        ({"data/a.txt": None}, "data/a.txt: is missing."),
        ({"data/extra.txt": b""}, "data/extra.txt: is not in the list manifest-sha256.txt"),
        # section 2.2.1
        ({"tagmanifest-sha256.txt": f"{sum_of(DECLARED)}  bagit.txt\n".encode()}, "tagmanifest-sha256.txt: does not list manifest-sha256.txt"),
        ({"tagmanifest-sha256.txt": f"{A}  data/a.txt\n".encode()}, "names data/a.txt, which belongs in another list."),
        ({"tagmanifest-sha256.txt": f"{A}  tagmanifest-md5.txt\n".encode()}, "names tagmanifest-md5.txt, which no list may name."),
        ({"tagmanifest-sha256.txt": f"{A}  bagit.txt\n".encode()}, "bagit.txt: was changed"),
        # section 2.2.2
        ({"bag-info.txt": b"Payload-Oxum: 9.2\n"}, "bag-info.txt: speaks of another payload: there are 8 octets in 2 files."),
        ({"bag-info.txt": b"Payload-Oxum: 8.2\nPayload-Oxum: 8.2\n"}, "bag-info.txt: speaks of another payload"),
        # section 5.1: paths that lead elsewhere
        ({"manifest-sha256.txt": f"{BOTH}{A}  /etc/passwd\n".encode()}, "names /etc/passwd, which leads out of the bag."),
        ({"manifest-sha256.txt": f"{BOTH}{A}  data/../../x\n".encode()}, "which leads out of the bag."),
        ({"manifest-sha256.txt": f"{BOTH}{A}  data/..\\..\\x\n".encode()}, "which leads out of the bag."),
        ({"manifest-sha256.txt": f"{BOTH}{A}  ~root/x\n".encode()}, "names ~root/x, which leads out of the bag."),
        ({"manifest-sha256.txt": f"{BOTH}{A}  C:\\x\n".encode()}, "which leads out of the bag."),
    ],
)  # fmt: skip
def test_what_the_standard_forbids_is_refused_with_the_reason(tmp_path, changed, reason):
    assert any(reason in fault for fault in faults(bag(tmp_path, **changed))), faults(tmp_path)


def test_a_bag_without_a_payload_folder_is_refused(tmp_path):
    # RFC 8493 section 2.1.2
    (tmp_path / "bagit.txt").write_bytes(DECLARED)
    (tmp_path / "manifest-sha256.txt").write_bytes(b"")
    assert "data: is missing: a bag has a folder of this name." in faults(tmp_path)

    (tmp_path / "data").mkdir()
    assert faults(tmp_path) == []


def test_a_link_in_a_bag_is_not_followed(tmp_path):
    (tmp_path / "secret").write_bytes(b"one\n")
    path = bag(tmp_path / "bag", **{"data/a.txt": None})
    (path / "data" / "a.txt").symlink_to(tmp_path / "secret")

    assert "data/a.txt: is a link to somewhere else, not a file." in faults(path)
    assert "data/a.txt: is missing." in faults(path)


def test_a_name_in_another_form_of_unicode_is_the_same_name(tmp_path):
    # RFC 8493 section 6.1.1.3: compare names in one form of normalization
    listed = f"{A}  data/e\u0301.txt\n".encode()
    path = bag(tmp_path, **{"manifest-sha256.txt": listed, "data/a.txt": None, "data/deep/b.txt": None})
    (path / "data" / "\u00e9.txt").write_bytes(b"one\n")
    (path / "bag-info.txt").write_bytes(b"Payload-Oxum: 4.1\n")

    assert faults(path) == []


def test_a_bag_that_is_written_streaming_is_valid_in_the_zip_file_and_out_of_it(tmp_path):
    with (tmp_path / "made.zip").open("wb") as file:
        made = Bag(file, "some-bag")
        made.put("data/a%\n.txt", (piece for piece in (b"on", b"e\n")))
        made.put("data/empty", [])
        made.tag("README.txt", b"read me\n")
        made.finish({"Source-Organization": "Ostrand\nMill"})
        made.close()
    with zipfile.ZipFile(tmp_path / "made.zip") as archive:
        archive.extractall(tmp_path / "out")
        info = archive.read("some-bag/bag-info.txt")

    assert faults(tmp_path / "made.zip") == []
    assert faults(tmp_path / "out" / "some-bag") == []
    assert info == b"Source-Organization: Ostrand Mill\nPayload-Oxum: 4.2\n"


def test_a_file_that_stands_twice_in_a_zip_file_is_named(tmp_path):
    with zipfile.ZipFile(tmp_path / "twice.zip", "w") as archive:
        for path in sorted(bag(tmp_path / "bag").rglob("*.txt")):
            archive.write(path, "bag/" + path.relative_to(tmp_path / "bag").as_posix())
        with pytest.warns(UserWarning, match="Duplicate name"):
            archive.writestr("bag/data/a.txt", b"another\n")

    assert "data/a.txt: stands twice in the zip file." in faults(tmp_path / "twice.zip")
