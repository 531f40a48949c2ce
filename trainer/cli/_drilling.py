"""``trainer db backup`` and ``trainer db drill``: a copy of the record, and the proof that it restores."""

import tempfile
from pathlib import Path
from typing import TYPE_CHECKING

import click

from trainer.cli.options import data_option, open_existing, settings_for
from trainer.clock import Clock

if TYPE_CHECKING:
    from trainer.records.drilling import Drilled


@click.command()
@data_option
@click.option("--out", metavar="DIR", required=True, help="Folder for the backup; empty, or not there yet.")
def backup(data: str | None, out: str) -> None:
    """Copy the record, as it is at one moment, and its keys into a folder. It may be in use meanwhile.

    Only for a SQLite file; a PostgreSQL server has its own tools. The folder holds what opens PINs and passwords: keep it
    as safe as the record itself.

    \b
    Example:
      trainer db backup --data instance --out /mnt/safe/2026-03-09

    \b
    Exit codes: 0 made, 1 refused, 2 wrong usage.
    """  # noqa: D301 - the mark is click's, and not to be raw
    from trainer.records import drilling  # noqa: PLC0415  (heavy, and not needed for --help)

    settings = settings_for(data)
    record = open_existing(settings)
    try:
        found = drilling.back_up(record, settings, Path(out))
    finally:
        record.close()
    click.echo(f"{out}: {found.newest} entries, {sum(found.counts.values())} rows. Try it: trainer db drill {out}")


@click.command()
@data_option
@click.argument("backup_folder", metavar="[BACKUP]", required=False)
@click.option("--into", metavar="DIR", help="Restore into this empty folder and leave it there; else a passing one.")
@click.option(
    "--restored", metavar="ADDRESS", help="A database that a server's own tools restored, in place of BACKUP."
)
@click.pass_context
def drill(
    ctx: click.Context, data: str | None, backup_folder: str | None, into: str | None, restored: str | None
) -> None:
    """Show that a backup restores: into an empty folder, every entry read again, every table counted.

    What was restored is compared with what the backup said it held and with the record in use, which is not touched. Do it
    once a month.

    \b
    Examples:
      trainer db drill /mnt/safe/2026-03-09 --data instance
      trainer db drill --restored postgresql://trainer@spare/restored

    \b
    Exit codes: 0 it restores, 1 it does not, 2 wrong usage.
    """  # noqa: D301 - the mark is click's, and not to be raw
    from trainer.records import drilling  # noqa: PLC0415  (heavy, and not needed for --help)

    if (backup_folder is None) == (restored is None):
        raise click.UsageError("Name the folder of a backup, or with --restored a database; one of the two.")
    settings = settings_for(data)
    live = open_existing(settings)
    try:
        if restored is not None:
            done = drilling.drill_restored(settings, Clock(), restored, live=live)
        elif into is not None:
            done = drilling.drill(settings, Clock(), Path(str(backup_folder)), Path(into), live=live)
        else:
            with tempfile.TemporaryDirectory() as folder:
                target = Path(folder) / "restored"
                done = drilling.drill(settings, Clock(), Path(str(backup_folder)), target, live=live)
    finally:
        live.close()
    _tell(done)
    ctx.exit(0 if done.good else 1)


def _tell(done: "Drilled") -> None:
    for finding in done.report:
        click.echo(str(finding))
    for name, (then, now) in done.unlike.items():
        click.echo(f"{name}: {then} rows when it was made, {now} restored.")
    if done.same is False:
        click.echo(
            "Its newest entry is not the one that the record in use, or the backup's own list, has under that number."
        )
    if done.good:
        rows = sum(done.held.counts.values())
        click.echo(
            f"It restores: {done.held.newest} entries, each as written, {rows} rows in {len(done.held.counts)} tables."
        )
        click.echo(f"The record in use has {done.since} entries since.")


COMMANDS = (backup, drill)
