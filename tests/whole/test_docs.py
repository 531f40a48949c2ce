"""The documents name what there is, and nothing that is gone."""

import re
from pathlib import Path

import pytest
from click.testing import CliRunner

from trainer.cli import main
from trainer.settings import SETTINGS

ROOT = Path(__file__).parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")


def commands(command=main, path=()):
    names = command.list_commands(None) if hasattr(command, "list_commands") else []
    for name in names:
        child = command.get_command(None, name)
        yield (*path, name), child
        yield from commands(child, (*path, name))


def test_the_readme_lists_every_setting_with_its_default():
    for setting in SETTINGS:
        row = re.search(rf"^\| `{setting.variable}` \| (.+?) \| (.+?) \|$", README, re.MULTILINE)
        assert row, setting.variable
        assert row[1] == (f"`{setting.default}`" if setting.default else "empty")
    assert set(re.findall(r"TRAINER_[A-Z_]+", README)) == {setting.variable for setting in SETTINGS}


@pytest.mark.parametrize("path", [" ".join(path) for path, _ in commands()])
def test_every_command_is_in_the_readme_and_its_help_shows_an_example(path):
    assert f"trainer {path}" in README
    result = CliRunner().invoke(main, [*path.split(), "--help"])

    assert result.exit_code == 0
    if "Commands:" not in result.output:
        assert f"trainer {path}" in result.output.split("Usage:")[1].split("\n", 1)[1], "the help shows no example"
    assert "\\b" not in result.output, "the mark that keeps an example in lines is shown"


def test_the_readme_names_no_command_that_is_gone():
    known = {path for path, _ in commands()}
    for named in re.findall(r"`trainer ([a-z-]+(?: [a-z-]+)?)", README):
        words = tuple(named.split())
        assert words in known or words[:1] in known, named


def test_developers_md_names_every_layer_and_top_level_path():
    for name in (
        "units",
        "safeguarding",
        "bank",
        "assessment",
        "records",
        "figures",
        "exports",
        "web",
        "cli",
        "content",
        "seed_scenarios",
    ):
        assert f"`{name}" in DEVELOPERS or f"`trainer/{name}" in DEVELOPERS, name


def test_developers_md_names_every_finding_code():
    import trainer.bank
    import trainer.records  # noqa: F401
    from trainer.findings import Finding

    def family(kind):
        return [kind, *(leaf for child in kind.__subclasses__() for leaf in family(child))]

    codes = {
        kind.code for kind in family(Finding)[1:] if hasattr(kind, "code") and kind.__module__.startswith("trainer.")
    }
    assert {code for code in codes if f"`{code}`" not in DEVELOPERS} == set()
