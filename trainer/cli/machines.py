"""``trainer machines``: the machines of the site and what is on file about each."""

import click

from trainer.cli.options import data_option, open_existing, settings_for
from trainer.clock import Clock
from trainer.errors import UsageError
from trainer.wording import say


@click.group()
def command() -> None:
    """Add machines, and list them."""


@command.command()
@data_option
@click.argument("machine")
@click.option("--kind", required=True, help="Kind of machine, as programmes name it, such as press-brake-hydraulic.")
@click.option("--name", required=True, help="What people call it.")
@click.argument("facts", nargs=-1, metavar="[FACT=VALUE]...")
def add(data: str | None, machine: str, kind: str, name: str, facts: tuple[str, ...]) -> None:
    r"""Add a machine, with what has been measured on it. What nobody measured is left out, not guessed.

    \b
    Example:
      trainer machines add PB-1 --data instance --kind press-brake-hydraulic --name "Brake 110 t" stopping-time="128 ms"
    """
    from trainer.records import machines, open_record  # noqa: PLC0415  (heavy, and not needed for --help)

    record = open_record(settings_for(data), Clock())
    with record.writing() as writing:
        row = machines.add(writing, id=machine, kind=kind, name=name, facts=dict(_fact(text) for text in facts))
    click.echo(f"Added {row.id}, {row.kind}, with {len(row.facts)} facts.")


@command.command("list")
@data_option
def list_machines(data: str | None) -> None:
    r"""List the machines.

    \b
    Example:
      trainer machines list --data instance
    """
    from trainer.records import machines  # noqa: PLC0415  (heavy, and not needed for --help)

    with open_existing(settings_for(data)).reading() as reading:
        for row in machines.all_machines(reading):
            click.echo(f"{row.id:8} {row.kind:24} {row.name}")


def _fact(text: str) -> tuple[str, str]:
    key, equals, value = text.partition("=")
    if not equals or not key.strip() or not value.strip():
        raise UsageError(say("{text} is not a fact. Write it as stopping-time=128ms.", text=repr(text)))
    return key.strip(), value.strip()
