"""``trainer machines``: the machines of the site and what is on file about each."""

from datetime import date

import click

from trainer.cli.options import data_option, day_option, open_existing, settings_for
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
    """Add a machine, with what has been measured on it. What nobody measured is left out, not guessed.

    \b
    Example:
      trainer machines add PB-1 --data instance --kind press-brake-hydraulic --name "Brake 110 t" stopping-time="128 ms"
    """  # noqa: D301 - the mark is click's, and not to be raw
    from trainer.records import machines, open_record  # noqa: PLC0415  (heavy, and not needed for --help)

    record = open_record(settings_for(data), Clock())
    with record.writing() as writing:
        row = machines.add(writing, id=machine, kind=kind, name=name, facts=dict(_fact(text) for text in facts))
    click.echo(f"Added {row.id}, {row.kind}, with {len(row.facts)} facts.")


@command.command()
@data_option
@click.argument("machine")
@click.argument("facts", nargs=-1, required=True, metavar="FACT=VALUE...")
@day_option("--on", text="The day on which it was found out; today unless given.")
def note(data: str | None, machine: str, facts: tuple[str, ...], on: date | None) -> None:
    """Put facts about a machine on file; the newest counts, the older ones stay. FACT= says that it is not known any more.

    \b
    Example:
      trainer machines note PB-1 --data instance mounted-distance="420 mm" rule=ansi-presence-sensing
    """  # noqa: D301 - the mark is click's, and not to be raw
    from trainer.records import machines  # noqa: PLC0415  (heavy, and not needed for --help)

    pairs = [_fact(text, empty=True) for text in facts]
    with open_existing(settings_for(data)).writing() as writing:
        for key, value in pairs:
            row = machines.note_fact(writing, machine, key, value, on=on, by=None)
    click.echo(f"{row.id} has {len(row.facts)} facts.")


@command.command()
@data_option
@click.argument("machine")
@click.argument("times", nargs=-1, required=True, metavar="TIME...")
@day_option("--on", text="The day on which it was measured; today unless given.")
@click.option("--note", default="", help="How it was measured.")
def reading(data: str | None, machine: str, times: tuple[str, ...], on: date | None, note: str) -> None:
    """Put stopping times on file that were measured on one day.

    \b
    Example:
      trainer machines reading PB-1 186ms 189ms 184ms --on 2026-03-02 --data instance
    """  # noqa: D301 - the mark is click's, and not to be raw
    from trainer.records import machines  # noqa: PLC0415  (heavy, and not needed for --help)

    with open_existing(settings_for(data)).writing() as writing:
        day = on or writing.today()
        for time in times:
            row = machines.note_reading(writing, machine, time, on=day, by=None, note=note)
    click.echo(f"{row.id} has {len(row.readings)} readings; the time on file is {row.facts[machines.STOPPING_TIME]}.")


@command.command("list")
@data_option
def list_machines(data: str | None) -> None:
    """List the machines.

    \b
    Example:
      trainer machines list --data instance
    """  # noqa: D301 - the mark is click's, and not to be raw
    from trainer.records import machines  # noqa: PLC0415  (heavy, and not needed for --help)

    with open_existing(settings_for(data)).reading() as reading:
        for row in machines.all_machines(reading):
            click.echo(f"{row.id:8} {row.kind:24} {row.name}")


def _fact(text: str, *, empty: bool = False) -> tuple[str, str]:
    key, equals, value = text.partition("=")
    if not equals or not key.strip() or not (empty or value.strip()):
        raise UsageError(say("{text} is not a fact. Write it as stopping-time=128ms.", text=repr(text)))
    return key.strip(), value.strip()
