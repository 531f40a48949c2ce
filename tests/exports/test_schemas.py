"""The schemas take every shipped content file, and refuse what the reader of the bank refuses."""

import json
import shutil
from functools import cache
from pathlib import Path, PurePosixPath

import pytest
import yaml
from jsonschema import Draft202012Validator

from trainer.bank import load
from trainer.exports.schemas import bundle, content_kinds, schema_files
from trainer.settings import shipped

CONTENT = shipped("content")
SMALL = Path(__file__).parents[1] / "bank" / "small"
KINDS = Path(__file__).parents[1] / "bank" / "kinds"


class Loader(yaml.CSafeLoader):
    """Reads a day such as 2026-03-02 as text, as YAML 1.2 does."""


Loader.yaml_implicit_resolvers = {
    first: [(tag, pattern) for tag, pattern in known if not tag.endswith("timestamp")]
    for first, known in yaml.CSafeLoader.yaml_implicit_resolvers.items()
}


kinds = cache(content_kinds)


def kind_of(name: str) -> str:
    found = {kind for kind, one in kinds().items() for pattern in one.files if PurePosixPath(name).match(pattern)}
    assert len(found) == 1, (name, found)
    return found.pop()


@cache
def validator(kind: str) -> Draft202012Validator:
    schema = kinds()[kind].schema
    Draft202012Validator.check_schema(schema)
    return Draft202012Validator(schema)


def wrong(name: str, data: object) -> list[str]:
    return [f"{error.json_path}: {error.message}" for error in validator(kind_of(name)).iter_errors(data)]


def files(folder: Path) -> list[str]:
    return sorted(path.relative_to(folder).as_posix() for path in folder.rglob("*.yaml"))


def read(folder: Path, name: str):
    return yaml.load((folder / name).read_text(encoding="utf-8"), Loader)


@pytest.mark.parametrize("folder", [CONTENT, SMALL, KINDS], ids=["shipped", "small", "kinds"])
def test_every_file_of_a_bank_fits_its_schema(folder: Path):
    names = files(folder)

    assert len(names) > 3
    assert {name: found for name in names if (found := wrong(name, read(folder, name)))} == {}


def test_every_kind_is_met_in_the_shipped_bank():
    assert {kind_of(name) for name in files(CONTENT)} == set(kinds()) - {"own-bank"}


BAD = [  # a file, what to change in it, and how
    ("bank.yaml", ("edition",), 0),
    ("bank.yaml", ("languages",), []),
    ("bank.yaml", ("colour",), "red"),
    ("sources.yaml", ("rule", "read"), "glanced-at"),
    ("sources.yaml", ("rule", "key"), "rule"),
    ("sources.yaml", ("rule", "document"), None),
    ("competencies.yaml", ("gaps", "level"), 1.5),
    ("competencies.yaml", ("gaps", "id"), "gaps"),
    ("competencies.yaml", ("gaps", "roles"), ["boss"]),
    ("competencies.yaml", ("gaps", "name"), "Gaps"),
    ("misconceptions.yaml", ("far-enough", "competency"), "not an id"),
    ("programmes.yaml", ("gaps-induction", "interval"), "yearly"),
    ("programmes.yaml", ("gaps-induction", "interval"), 12),
    ("programmes.yaml", ("gaps-induction", "warn_days"), 400),
    ("checklists.yaml", ("gaps-practical", "steps", 0, "title"), "Looks"),
    ("reading/en.yaml", ("measure",), "gut-feeling"),
    ("text/en.yaml", ("misconceptions", "far-enough", "tel"), "No."),
    ("words/en.yaml", ("ram",), ["ram"]),
    ("scenarios/open-gap/scenario.yaml", ("slug",), "open-gap"),
    ("scenarios/open-gap/scenario.yaml", ("theme",), "weather"),
    ("scenarios/open-gap/scenario.yaml", ("title",), "A gap"),
    ("scenarios/open-gap/scenario.yaml", ("questions", 0, "version"), "two"),
    ("scenarios/open-gap/scenario.yaml", ("questions", 0, "kind"), "riddle"),
    ("scenarios/open-gap/scenario.yaml", ("questions", 0, "options", 0, "misconceptoin"), "x"),
    ("scenarios/open-gap/scenario.yaml", ("questions", 0, "why"), "Because."),
    ("scenarios/open-gap/scenario.yaml", ("questions", 0, "sources"), None),
    ("scenarios/open-gap/en.yaml", ("lessons", "l1", "heading"), ["The gap"]),
    ("scenarios/open-gap/en.yaml", ("title",), "gap " * 600),
    ("scenarios/open-gap/en.yaml", ("title",), ""),
    ("scenarios/open-gap/en.yaml", ("questions", "q1", "why"), None),
    ("drills/distance/drill.yaml", ("inputs", "stopping-time", "stop"), "10 ms"),
    ("drills/distance/drill.yaml", ("inputs", "stopping-time"), {"one_of": []}),
    ("drills/distance/drill.yaml", ("drawings",), {}),
    ("drills/choice/drill.yaml", ("rule_set",), "mars"),
    ("drills/choice/drill.yaml", ("settings", 0, "told"), "Nothing."),
    ("drills/choice/en.yaml", ("settings", "nothing-fitted"), 3),
]


def changed(data, path, value):
    inner = data
    for key in path[:-1]:
        inner = inner[key]
    if value is None:
        del inner[path[-1]]
    else:
        inner[path[-1]] = value
    return data


@pytest.mark.parametrize(("name", "path", "value"), BAD, ids=lambda part: str(part)[:40])
def test_what_the_bank_refuses_the_schema_refuses(tmp_path: Path, name: str, path: tuple, value: object):
    folder = Path(shutil.copytree(SMALL, tmp_path / "content"))
    data = changed(read(folder, name), path, value)
    (folder / name).write_text(yaml.safe_dump(data, allow_unicode=True))

    refused = wrong(name, data)

    assert refused
    if path[-1] not in {"id", "nothing-fitted"}:  # there the reader is milder: a second id, a bare number as text
        assert not load(folder).report.good


@pytest.mark.parametrize(
    ("path", "value"),
    [
        (("parts", 0, "part"), "trampoline"),
        (("parts", 0, "mood"), 1),
        (("view",), "back"),
        (("place", "scale"), None),
        (("labels", 0, "word"), None),
        (("sound",), "loud"),
    ],
)
def test_a_drawing_that_cannot_be_drawn_is_refused(path: tuple, value: object):
    data = read(SMALL, "scenarios/open-gap/drawings.yaml")

    assert wrong("scenarios/open-gap/drawings.yaml", changed(data, ("gap", *path), value))


def test_every_schema_is_a_file_and_in_the_bundle():
    held = json.loads(bundle())

    assert {name.removesuffix(".schema.json") for name in schema_files()} == set(held["schemas"])
    assert held["files"]["scenarios/*/scenario.yaml"] == "scenario"
    assert all(schema["$schema"].endswith("2020-12/schema") for schema in held["schemas"].values())
    assert len({schema["$id"] for schema in held["schemas"].values()}) == len(held["schemas"])


@pytest.mark.parametrize(
    ("head", "good"),
    [
        ({"edition": 1}, True),
        ({"edition": 2, "languages": ["fr"], "replaces": ["PB-S15", "words/ram"]}, True),
        ({"replaces": ["PB-S15"]}, False),
        ({"edition": 1, "replaces": "PB-S15"}, False),
        ({"edition": 1, "adds": []}, False),
    ],
)
def test_the_head_of_a_site_s_own_content_has_a_schema_too(head: dict, good: bool):
    assert validator("own-bank").is_valid(head) is good
