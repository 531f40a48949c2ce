"""``trainer due remind`` and ``trainer due print``: telling people what is due, by mail or on paper."""

from datetime import date
from typing import TYPE_CHECKING

import click

from trainer.cli.options import (
    data_option,
    day_option,
    language_option,
    open_content,
    open_existing,
    settings_for,
    write_pieces,
)
from trainer.clock import Clock
from trainer.errors import UsageError

if TYPE_CHECKING:
    from trainer.cli._reminding import Round


@click.command()
@data_option
@click.option("--dry-run", is_flag=True, help="Only say who would be told of what; nothing is sent or stored.")
@click.option("--unsure-again", is_flag=True, help="Send again what may not have arrived; somebody may get it twice.")
@click.pass_context
def remind(ctx: click.Context, data: str | None, *, dry_run: bool, unsure_again: bool) -> None:
    """Send one letter to each person, and to each trainer, about what falls due in 30, 14 or 7 days or is over.

    Each thing and step is told once, whoever runs this how often; run it every hour or so. What the mail server
    refuses is tried again by a later run, five minutes later at the earliest. Needs TRAINER_SMTP_URL and
    TRAINER_MAIL_FROM. Whoever has no address is told at the kiosk and by the printed list.

    \b
    Examples:
      trainer due remind --data instance --dry-run
      trainer due remind --data instance

    \b
    Exit codes: 0 told, or nothing to tell; 1 something was not sent, or may not have arrived; 2 wrong usage.
    """  # noqa: D301 - the mark is click's, and not to be raw
    from trainer.cli._reminding import dry, send  # noqa: PLC0415  (heavy, and not needed for --help)

    settings = settings_for(data)
    if not dry_run and (settings.smtp_url is None or not settings.mail_from):
        raise UsageError("Set TRAINER_SMTP_URL and TRAINER_MAIL_FROM, or use --dry-run.")
    bank, record = open_content(settings), open_existing(settings)
    try:
        if dry_run:
            for line in dry(record, bank):
                click.echo(line)
            return
        done = send(record, bank, settings, unsure_again=unsure_again)
    finally:
        record.close()
    _tell(done)
    ctx.exit(1 if done.failed or done.unsure else 0)


def _tell(done: "Round") -> None:
    for number in done.sent:
        click.echo(f"sent: {number}")
    for number, reason in done.failed:
        click.echo(f"not sent: {number}. {reason}", err=True)
    if done.unsure:
        told = "may not have arrived and are not sent again by themselves; see --unsure-again"
        click.echo(f"{done.unsure} reminders {told}.", err=True)
    click.echo(f"{len(done.sent)} letters sent, {len(done.failed)} failed.")


@click.command("print")
@data_option
@day_option("--on", text="As of this day; today unless given.")
@click.option(
    "--days", default=30, show_default=True, type=click.IntRange(0, 3660), help="How many days to look ahead."
)
@click.option("--shift", help="Only this shift.")
@click.option("--out", metavar="FILE", help="Write here; else to the standard output.")
@language_option
def print_lists(
    data: str | None, on: date | None, days: int, shift: str | None, out: str | None, language: str
) -> None:
    """Print a list for each shift, a page each, for the notice board: who has to take what, by when.

    \b
    Example:
      trainer due print --data instance --shift Early --language es --out early.txt
    """  # noqa: D301 - the mark is click's, and not to be raw
    from trainer.cli._reminding import lists  # noqa: PLC0415  (heavy, and not needed for --help)

    settings = settings_for(data)
    bank, record = open_content(settings), open_existing(settings)
    try:
        day = on or Clock().today(settings.zone)
        pages = lists(record, bank, settings, on=day, days=days, shift=shift, language=language)
    finally:
        record.close()
    write_pieces(["\f".join(pages).encode()], out)


COMMANDS = (remind, print_lists)
