"""``trainer select``: say which safeguards are valid for one job on one machine."""

import json
from collections.abc import Iterable

import click

from trainer.errors import UsageError
from trainer.wording import say


@click.command(context_settings={"ignore_unknown_options": True, "help_option_names": ["-h", "--help"]})
@click.argument("words", nargs=-1, metavar="[KEY=VALUE]...", type=click.UNPROCESSED)
@click.option("--rule-set", metavar="us|intl", help="United States or international rules; must be given.")
@click.option("--list", "listed", is_flag=True, help="List the facts with their values, and the safeguards.")
@click.option("--json", "as_json", is_flag=True, help="Print the result as JSON.")
def command(words: tuple[str, ...], rule_set: str | None, *, listed: bool, as_json: bool) -> None:
    """Say of every safeguard whether it is valid for the job that the facts describe, why, and under which conditions.

    A fact that is not given is unknown, and unknown is never taken as good. Lengths are numbers of millimetres.

    \b
    Examples:
      trainer select --list
      trainer select --rule-set us drive=hyd_down curtain_state=on curtain_at_mm=420 curtain_needs_mm=360
      trainer select --rule-set intl --json die_opening_mm=5 ends_closed=yes rear_closed=yes backstop=fixed

    \b
    Exit codes: 0 answered, also when nothing is valid ("best" is empty); 2 wrong usage.
    """  # noqa: D301 - the mark is click's, and not to be raw
    from trainer.safeguarding.selection import select  # noqa: PLC0415  (heavy, and not needed for --help)
    from trainer.safeguarding.selection.handout import as_data, as_text, facts_as_text  # noqa: PLC0415

    if listed:
        click.echo(facts_as_text(), nl=False)
        return
    if rule_set is None:
        raise UsageError(say("No rule set was named. Write --rule-set us or --rule-set intl."))
    selection = select(_facts(words), rule_set)
    if as_json:
        click.echo(json.dumps(as_data(selection), ensure_ascii=False, indent=2))
    else:
        click.echo(as_text(selection), nl=False)


def _facts(words: Iterable[str]) -> dict[str, str]:
    from trainer.safeguarding.inputs import short  # noqa: PLC0415  (heavy, and not needed for --help)

    facts: dict[str, str] = {}
    for word in words:
        key, sign, value = word.partition("=")
        if not sign or not key:
            raise UsageError(say("“{word}” is not a fact. Write KEY=VALUE, such as drive=servo.", word=short(word)))
        if key in facts:
            raise UsageError(say("{key} is given twice. Give it once.", key=short(key)))
        facts[key] = value
    return facts
