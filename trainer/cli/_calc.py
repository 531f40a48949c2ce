"""What ``trainer calc`` prints: the list of problems, or one worked solution. Read only when it is asked for."""

import json
from collections.abc import Iterable

import click

from trainer.errors import Missing, UsageError
from trainer.safeguarding import show
from trainer.safeguarding.inputs import Field, short
from trainer.safeguarding.problem import Problem
from trainer.safeguarding.problems import PROBLEMS, problem
from trainer.wording import say

UNITS = ("mm", "in")


def print_solution(name: str, texts: dict[str, str], unit: str | None, *, as_json: bool) -> None:
    """Print a worked solution; exit 1 where the rule gives no figure."""
    asked = _known(name)
    worked = asked.solve(asked.read(texts))
    if as_json:
        click.echo(json.dumps(show.as_data(worked, unit), ensure_ascii=False, indent=2))
    else:
        click.echo(show.as_text(worked, unit), nl=False)
    if worked.refusal is not None:
        raise SystemExit(1)


def _known(name: str) -> Problem:
    try:
        return problem(name)
    except Missing as error:  # a wrong word on the command line is wrong usage
        raise UsageError(error.sentence) from error


def split(words: Iterable[str]) -> tuple[str, dict[str, str]]:
    """Part the words of a command into the problem and its inputs; UsageError says what would be right."""
    name, *pairs = list(words) or [""]
    if not name or "=" in name:
        raise UsageError(say("No problem was named. Write one after calc; “trainer calc --list” shows them."))
    texts: dict[str, str] = {}
    for pair in pairs:
        key, sign, value = pair.partition("=")
        if not sign or not key:
            raise UsageError(
                say("“{pair}” is not an input. Write KEY=VALUE, such as stopping-time=190ms.", pair=short(pair))
            )
        if key in texts:
            raise UsageError(say("{key} is given twice. Give it once.", key=short(key)))
        texts[key] = value
    return name, texts


def unit_of(text: str | None) -> str | None:
    """Check the unit that was asked for."""
    if text is not None and text not in UNITS:
        raise UsageError(say("“{unit}” is not a unit here. Write --unit mm or --unit in.", unit=short(text)))
    return text


def print_list(*, as_json: bool) -> None:
    """Print every problem with its inputs."""
    if as_json:
        rows = [{"problem": p.name, "title": p.title, "inputs": [_key(f) for f in p.fields]} for p in PROBLEMS.values()]
        click.echo(json.dumps(rows, ensure_ascii=False, indent=2))
        return
    for asked in PROBLEMS.values():
        click.echo(f"{asked.name}\n    {asked.title}\n    {', '.join(_key(field) for field in asked.fields)}")


def _key(field: Field) -> str:
    text = f"{field.key}={'/'.join(field.choices)}" if field.choices else field.key
    return f"[{text}]" if field.optional else text
