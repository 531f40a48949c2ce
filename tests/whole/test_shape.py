"""The tree keeps its shape: eight names at the top, short modules, short functions, nothing that does not belong."""

import ast
import re
import statistics
import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
TOP = {"README.md", "DEVELOPERS.md", "LICENSE", "pyproject.toml", "trainer", "content", "seed_scenarios", "tests"}
MODULES = sorted(path for path in (ROOT / "trainer").rglob("*.py") if "versions" not in path.parts)
LONGEST_MODULE, LONGEST_FUNCTION, MEDIAN_FUNCTION = 400, 40, 12


def tracked() -> list[str]:
    listed = subprocess.run(["git", "ls-files"], cwd=ROOT, capture_output=True, text=True, check=False)
    if listed.returncode:
        pytest.skip("not a git checkout")
    return listed.stdout.splitlines()


def functions(path: Path) -> list[tuple[str, int]]:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    kinds = (ast.FunctionDef, ast.AsyncFunctionDef)
    return [(node.name, node.end_lineno - node.lineno + 1) for node in ast.walk(tree) if isinstance(node, kinds)]


def test_the_top_level_has_its_eight_names():
    top = {name.split("/")[0] for name in tracked()}

    assert {name for name in top if not name.startswith(".")} == TOP


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(ROOT)))
def test_a_module_has_one_subject_and_says_which(path):
    text = path.read_text(encoding="utf-8")

    assert len(text.splitlines()) <= LONGEST_MODULE
    assert ast.get_docstring(ast.parse(text)), "a module opens by saying what it is for"
    assert [entry for entry in functions(path) if entry[1] > LONGEST_FUNCTION] == []


def test_functions_are_short():
    lengths = [length for path in MODULES for _name, length in functions(path)]

    assert statistics.median(lengths) < MEDIAN_FUNCTION


def test_the_project_speaks_of_itself_alone():
    words = re.compile(
        r"webina[r]|transcrip[t]\b|seed documen[t]|/wor[k]/|/tm[p]/contract|issue #\d|this sessio[n]\b", re.IGNORECASE
    )
    text_files = [
        n for n in tracked() if n.endswith((".py", ".md", ".yaml", ".toml", ".html", ".css", ".js", ".po", ".sh"))
    ]

    found = [
        (name, match[0])
        for name in text_files
        if (ROOT / name).is_file()
        for match in words.finditer((ROOT / name).read_text(encoding="utf-8"))
    ]

    assert found == []


def test_the_revisions_of_the_record_form_one_line():
    found = sorted((ROOT / "trainer/records/migrations/versions").glob("[0-9]*.py"))
    texts = [path.read_text(encoding="utf-8") for path in found]
    own = [re.search(r'^revision = "(\d+)"', text, re.MULTILINE)[1] for text in texts]
    before = [re.search(r'^down_revision = (?:"(\d+)"|None)', text, re.MULTILINE)[1] for text in texts]
    assert own == [path.name.split("_")[0] for path in found]
    assert before == [None, *own[:-1]]
