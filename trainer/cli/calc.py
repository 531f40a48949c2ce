"""``trainer calc``: work a problem out and print the working."""

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


@click.command(context_settings={"ignore_unknown_options": True, "help_option_names": ["-h", "--help"]})
@click.argument("words", nargs=-1, metavar="PROBLEM [KEY=VALUE]...", type=click.UNPROCESSED)
@click.option("--list", "listed", is_flag=True, help="List the problems with their inputs; [such] may be left out.")
@click.option("--unit", metavar="mm|in", help="Unit of lengths in the result and the working; mm unless given.")
@click.option("--json", "as_json", is_flag=True, help="Print the result as JSON.")
def command(words: tuple[str, ...], unit: str | None, *, listed: bool, as_json: bool) -> None:
    """Work out PROBLEM from its inputs and print each step with its source.

    Values carry their unit: 190ms, 0.19s, 30mm, 8.5in. A count is a whole number. What is known from memory only is
    used, and said to be so, with unverified=yes.

    \b
    Examples:
      trainer calc --list
      trainer calc us-presence-sensing stopping-time=190ms
      trainer calc effective-object-sensitivity object-sensitivity=14mm beams-blanked=2 beam-pitch=10mm
      trainer calc longest-stopping-time distance=15in object-sensitivity=30mm device-response=20ms --json

    \b
    Exit codes: 0 worked out, 1 the rule gives no figure (the reason is printed), 2 wrong usage.
    """  # noqa: D301 - the mark is click's, and not to be raw
    if listed:
        _print_list(as_json=as_json)
        return
    name, texts = _split(words)
    _print_solution(name, texts, _unit(unit), as_json=as_json)


def _print_solution(name: str, texts: dict[str, str], unit: str | None, *, as_json: bool) -> None:
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


def _split(words: Iterable[str]) -> tuple[str, dict[str, str]]:
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


def _unit(text: str | None) -> str | None:
    if text is not None and text not in UNITS:
        raise UsageError(say("“{unit}” is not a unit here. Write --unit mm or --unit in.", unit=short(text)))
    return text


def _print_list(*, as_json: bool) -> None:
    if as_json:
        rows = [{"problem": p.name, "title": p.title, "inputs": [_key(f) for f in p.fields]} for p in PROBLEMS.values()]
        click.echo(json.dumps(rows, ensure_ascii=False, indent=2))
        return
    for asked in PROBLEMS.values():
        click.echo(f"{asked.name}\n    {asked.title}\n    {', '.join(_key(field) for field in asked.fields)}")


def _key(field: Field) -> str:
    text = f"{field.key}={'/'.join(field.choices)}" if field.choices else field.key
    return f"[{text}]" if field.optional else text
