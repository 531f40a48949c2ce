"""Reading one file: bad content is a finding with its line, never an exception."""

from pathlib import Path

import pytest

from trainer.bank.yamlfile import LIMIT, read_file
from trainer.findings import Finding


def read(folder: Path, data: bytes | str, **options: bool):
    (folder / "file.yaml").write_bytes(data.encode() if isinstance(data, str) else data)
    findings: list[Finding] = []
    return read_file(folder, "file.yaml", findings, **options), findings


def test_every_scalar_stays_text(tmp_path: Path):
    file, findings = read(tmp_path, "a: no\nb: 12:30\nc: 007\nd: 2024-02-29\ne: 1e3\nf: ~\n")

    assert file.data == {"a": "no", "b": "12:30", "c": "007", "d": "2024-02-29", "e": "1e3", "f": "~"}
    assert findings == []


def test_drawings_have_numbers_and_truth_values(tmp_path: Path):
    file, _ = read(tmp_path, "a: 3050\nb: -2.5\nc: true\nd: '7'\ne: .nan\nf: 99999999999\n", numbers=True)

    assert file.data == {"a": 3050, "b": -2.5, "c": True, "d": "7", "e": ".nan", "f": "99999999999"}


def test_an_entry_knows_its_line_and_a_missing_one_that_of_its_parent(tmp_path: Path):
    file, _ = read(tmp_path, "# head\ntop:\n  - id: x\n    word: y\n")

    assert file.line("top", 0, "word") == 4
    assert file.line("top", 0, "missing", "deeper") == 3
    assert file.line("elsewhere") == 2


def test_a_byte_order_mark_is_no_matter(tmp_path: Path):
    file, findings = read(tmp_path, b"\xef\xbb\xbfa: b\n")

    assert (file.data, findings) == ({"a": "b"}, [])


@pytest.mark.parametrize(
    ("data", "line"),
    [
        ("a: Jos\xe9\n".encode("cp1252"), 1),
        ("one: 1\ntwo: \xe9\n".encode("latin-1"), 2),
        ("a: b\n".encode("utf-16"), 1),
        (b"a: b\nc: \x00\n", 0),
        (b"a: b\n\tc: d\n", 2),
        (b"a: [1, 2\n", 2),
        (b"a: 'never ends\n", 2),
        (b"", 0),
        (b"# only a remark\n", 0),
        (b"---\na: b\n---\nc: d\n", 3),
        (b"a: !!python/object/apply:os.system [ls]\n", None),
        (b"[" * 5000, None),
        (b"- " * 5000, None),
        (b"a: &x [1]\nb: *x\n", 1),
        (b"? [a, b]\n: c\n", 1),
        (b"a: " + b"x" * LIMIT, 0),
    ],
)
def test_a_file_that_cannot_be_read_is_one_finding(tmp_path: Path, data: bytes, line: int | None):
    _, findings = read(tmp_path, data)

    if b"python/object" in data:
        assert findings == []  # a tag is not obeyed; what stands there is only data
        return
    assert [finding.code for finding in findings] == ["unreadable-file"]
    assert line is None or findings[0].line == line


def test_a_missing_file_is_a_finding(tmp_path: Path):
    findings: list[Finding] = []

    file = read_file(tmp_path, "nothing.yaml", findings)

    assert not file.there
    assert [finding.code for finding in findings] == ["missing-file"]


def test_a_folder_in_place_of_a_file_is_a_finding(tmp_path: Path):
    (tmp_path / "file.yaml").mkdir()
    findings: list[Finding] = []

    read_file(tmp_path, "file.yaml", findings)

    assert [finding.code for finding in findings] == ["unreadable-file"]


def test_a_doubled_key_is_found_at_its_second_place_and_the_first_is_kept(tmp_path: Path):
    file, findings = read(tmp_path, "a:\n  b: 1\n  b: 2\n")

    assert file.data == {"a": {"b": "1"}}
    assert [(finding.code, finding.line, finding.key) for finding in findings] == [("duplicate-key", 3, "a.b")]
