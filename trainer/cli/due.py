"""``trainer due``: who is due for what."""

import json
from datetime import date
from typing import TYPE_CHECKING, Any

import click

from trainer.cli.options import data_option, day_option, json_option, open_content, open_existing, settings_for
from trainer.clock import Clock

if TYPE_CHECKING:
    from trainer.records.dues import DueRow
    from trainer.records.people import PersonRow


@click.command()
@data_option
@day_option("--on", text="As of this day; today unless given.")
@click.option(
    "--days", default=90, show_default=True, type=click.IntRange(0, 3660), help="How many days to look ahead."
)
@json_option
def command(data: str | None, on: date | None, days: int, *, as_json: bool) -> None:
    """Print what is overdue, falls due, or is assigned and not yet passed.

    \b
    Examples:
      trainer due --data instance
      trainer due --data instance --on 2026-03-09 --days 30 --json

    \b
    Exit codes: 0 printed, 1 refused, 2 wrong usage.
    """  # noqa: D301 - the mark is click's, and not to be raw
    from trainer.records import dues, people  # noqa: PLC0415  (heavy, and not needed for --help)

    settings = settings_for(data)
    bank = open_content(settings)
    record = open_existing(settings)
    try:
        with record.reading() as reading:
            day = on or Clock().today(settings.zone)
            rows = dues.due_list(reading, bank, on=day, days=days)
            known = {person.key: person for person in people.everybody(reading, on=day)}
    finally:
        record.close()
    if as_json:
        click.echo(json.dumps([_data(row, known[row.person]) for row in rows], ensure_ascii=False, indent=2))
        return
    for row in rows:
        click.echo(_line(row, known[row.person]))
    click.echo(f"{len(rows)} on {day.isoformat()}, looking {days} days ahead.")


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
