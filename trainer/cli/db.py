"""``trainer db``: the tables of the record, its backups, and the drill that shows that one restores."""

import click

from trainer.cli import _drilling
from trainer.cli.options import data_option, settings_for


@click.group()
def command() -> None:
    """Bring the record's tables up to date, or tell whether they are; back it up, and show that a backup restores."""


for _each in _drilling.COMMANDS:
    command.add_command(_each)


@command.command()
@data_option
def upgrade(data: str | None) -> None:
    """Make the tables, or bring them to what this program needs. Nothing that is on record is lost.

    \b
    Example:
      trainer db upgrade --data instance

    \b
    Exit codes: 0 done or nothing to do, 1 refused, 2 wrong usage.
    """  # noqa: D301 - the mark is click's, and not to be raw
    from trainer.records import database, migrating  # noqa: PLC0415  (heavy, and not needed for --help)

    engine = database.engine_of(settings_for(data))
    try:
        done = database.upgrade(engine)
        click.echo(f"{'Brought to' if done else 'Is at'} revision {migrating.head()}.")
    finally:
        engine.dispose()


@command.command()
@data_option
@click.pass_context
def check(ctx: click.Context, data: str | None) -> None:
    """Tell whether the tables, triggers included, are what this program needs. Changes nothing.

    \b
    Example:
      trainer db check --data instance

    \b
    Exit codes: 0 as needed, 1 different, 2 wrong usage.
    """  # noqa: D301 - the mark is click's, and not to be raw
    from trainer.records import database  # noqa: PLC0415  (heavy, and not needed for --help)

    engine = database.engine_of(settings_for(data), create=False)
    try:
        found = database.differences(engine)
    finally:
        engine.dispose()
    for line in found:
        click.echo(line)
    click.echo("The tables are as needed." if not found else "Run: trainer db upgrade")
    ctx.exit(1 if found else 0)
