from collections.abc import Iterator, Mapping
from functools import cache
from pathlib import Path
from typing import Any

import pytest
import yaml

ROOT = Path(__file__).resolve().parents[2]
CONTENT = ROOT / "content"


def shipped() -> Iterator[tuple[str, Mapping[str, Any]]]:
    for file in sorted(CONTENT.glob("*/*/drawings.yaml")):
        for name, spec in yaml.safe_load(file.read_text(encoding="utf-8")).items():
            yield f"{file.parent.name}/{name}", spec


def languages() -> list[str]:
    return sorted(path.stem for path in (CONTENT / "words").glob("*.yaml"))


def pytest_generate_tests(metafunc: pytest.Metafunc) -> None:
    if "drawing" in metafunc.fixturenames:
        found = list(shipped())
        metafunc.parametrize("drawing", [spec for _name, spec in found], ids=[name for name, _spec in found])
    if "language" in metafunc.fixturenames:
        metafunc.parametrize("language", languages())


@cache
def words_of(language: str) -> Mapping[str, str]:
    return yaml.safe_load((CONTENT / "words" / f"{language}.yaml").read_text(encoding="utf-8"))


@pytest.fixture
def words(language: str) -> Mapping[str, str]:
    return words_of(language)


@pytest.fixture(scope="session")
def stylesheet() -> str:
    return (ROOT / "trainer" / "web" / "static" / "css" / "drawing.css").read_text(encoding="utf-8")
