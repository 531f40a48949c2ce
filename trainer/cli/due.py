"""``trainer due``: who is due for what."""

import json
from datetime import date
from typing import TYPE_CHECKING, Any

import click

from trainer.cli import _pauses, _remind
from trainer.cli.options import (
    data_option,
    day_option,
    json_option,
    language_option,
    open_content,
    open_existing,
    settings_for,
    write_pieces,
)
from trainer.clock import Clock

if TYPE_CHECKING:
    from trainer.cli._due import AskedFor
    from trainer.records.dues import DueRow
    from trainer.records.people import PersonRow


@click.group(invoke_without_command=True)
@data_option
@day_option("--on", text="As of this day; today unless given.")
@click.option(
    "--days", default=90, show_default=True, type=click.IntRange(0, 3660), help="How many days to look ahead."
)
@click.option("--person", metavar="NUMBER", help="Only the person who has this number.")
@click.option("--crew", help="Only this crew.")
@click.option("--shift", help="Only this shift.")
@click.option("--machine", metavar="ID", help="Only what is needed for this machine.")
@click.option("--format", "form", type=click.Choice(["text", "csv", "xlsx", "json", "ics"]), default="text")
@click.option("--output", "-o", metavar="FILE", help="Write here; else to the standard output.")
@language_option
@json_option
def command(
    data: str | None,
    on: date | None,
    days: int,
    form: str,
    output: str | None,
    language: str,
    *,
    as_json: bool,
    **only: str | None,
) -> None:
    """Print what is overdue, falls due, or is assigned and not yet passed; or write it as a file.

    ics is a calendar as in RFC 5545, with one all-day event for each programme that a person has to take.

    \b
    Examples:
      trainer due --data instance --on 2026-03-09 --days 30 --json
      trainer due --data instance --crew B --format ics -o crew-b.ics

    \b
    Exit codes: 0 printed, 1 refused, 2 wrong usage.
    """  # noqa: D301 - the mark is click's, and not to be raw
    if click.get_current_context().invoked_subcommand is not None:
        return
    from trainer.cli._due import asked_for, due_pieces  # noqa: PLC0415  (heavy, and not needed for --help)

    settings = settings_for(data)
    bank, record = open_content(settings), open_existing(settings)
    try:
        with record.reading() as reading:
            asked = asked_for(reading, bank, on or Clock().today(settings.zone), days, only)
            if form != "text":
                pieces, tally = due_pieces(reading, settings, asked, form, language)
                write_pieces(pieces, output)
                click.echo(f"{tally.rows} lines. Check code {tally.code}", err=True)
                return
    finally:
        record.close()
    _print(asked, as_json=as_json)


for _each in (*_remind.COMMANDS, _pauses.pauses):
    command.add_command(_each)


def _print(asked: "AskedFor", *, as_json: bool) -> None:
    if as_json:
        rows = [_data(row, asked.people[row.person]) for row in asked.rows]
        click.echo(json.dumps(rows, ensure_ascii=False, indent=2))
        return
    for row in asked.rows:
        click.echo(_line(row, asked.people[row.person]))
    click.echo(f"{len(asked.rows)} on {asked.on.isoformat()}, looking {asked.days} days ahead.")


def _line(row: "DueRow", person: "PersonRow") -> str:
    machines = ", ".join(row.machines) or "-"
    who = f"{person.number} {person.name}"
    return (
        f"{row.due_on.isoformat()}  {row.state:8}  {who:32}  {row.programme}  {machines}  {row.reason} (L-{row.entry})"
    )


def _data(row: "DueRow", person: "PersonRow") -> dict[str, Any]:
    return {
        "number": person.number,
        "name": person.name,
        "shift": person.shift,
        "programme": row.programme,
        "machines": list(row.machines),
        "due_on": row.due_on.isoformat(),
        "state": row.state,
        "reason": str(row.reason),
        "entry": f"L-{row.entry}",
    }
