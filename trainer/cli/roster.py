"""``trainer roster``: people as a file, in and out."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

import click

from trainer.cli.options import data_option, json_option, open_existing, settings_for, write_pieces
from trainer.clock import Clock
from trainer.errors import Missing, UsageError
from trainer.wording import say

if TYPE_CHECKING:
    from trainer.records import Reading
    from trainer.records.roster import Plan

Command = TypeVar("Command", bound=Callable[..., Any])
ENDINGS = ("csv", "xlsx")


def answer_options(command: Command) -> Command:
    """Add ``--answer`` and ``--column``, both of which may be given again."""
    answer = "Answer to a question that the check asks, such as encoding=cp1252; may be given again."
    column = "Which column a field is, such as number='Clock no.'; may be given again."
    dressed: Command = click.option("--answer", "answers", metavar="ID=CHOICE", multiple=True, help=answer)(
        click.option("--column", "columns", metavar="FIELD=HEAD", multiple=True, help=column)(command)
    )
    return dressed


@click.group()
def command() -> None:
    """Compare a roster with the record, take it, and write it out."""


@command.command()
@data_option
@click.argument("file", type=click.Path(exists=True, dir_okay=False))
@answer_options
@json_option
def check(data: str | None, file: str, answers: tuple[str, ...], columns: tuple[str, ...], *, as_json: bool) -> None:
    """Show what importing FILE would do, row by row; change nothing.

    FILE is a spreadsheet (.xlsx) or a text table with comma, semicolon or tab. What it leaves open is asked, with the
    answer to give for each reading.

    \b
    Examples:
      trainer roster check people.csv --data instance
      trainer roster check people.csv --data instance --answer days:started=day-first --json

    \b
    Exit codes: 0 it can be taken, 1 something stands against it, 2 wrong usage.
    """  # noqa: D301 - the mark is click's, and not to be raw
    from trainer.cli._roster import as_data, lines, read_answers  # noqa: PLC0415  (heavy, and not needed for --help)
    from trainer.records import roster  # noqa: PLC0415

    record = open_existing(settings_for(data))
    given = read_answers(answers, columns)
    with record.reading() as reading:
        plan = roster.check(reading, Path(file).read_bytes(), file=Path(file).name, answers=given)
    record.close()
    if as_json:
        click.echo(json.dumps(as_data(plan), ensure_ascii=False, indent=2))
    else:
        click.echo("\n".join(lines(plan)))
    click.get_current_context().exit(plan.report.exit_code)


@command.command("import")
@data_option
@click.argument("file", type=click.Path(exists=True, dir_okay=False))
@answer_options
@click.option("--by", metavar="NUMBER", help="Who answers for it; needed where somebody leaves or is back.")
@click.option("--yes", is_flag=True, help="Take it without asking once more.")
def import_(
    data: str | None, file: str, answers: tuple[str, ...], columns: tuple[str, ...], by: str | None, *, yes: bool
) -> None:
    """Show what FILE comes to and, on a yes, take all of it or nothing. The record is made when there is none yet.

    The same file a second time changes nothing.

    \b
    Examples:
      trainer roster import people.csv --data instance --by 00112
      trainer roster import people.xlsx --data instance --by 00112 --answer absent=2026-03-06 --yes

    \b
    Exit codes: 0 taken, or nothing to do, 1 something stands against it, 2 wrong usage.
    """  # noqa: D301 - the mark is click's, and not to be raw
    from trainer.cli._roster import lines, read_answers  # noqa: PLC0415  (heavy, and not needed for --help)
    from trainer.records import open_record, roster  # noqa: PLC0415

    given = read_answers(answers, columns)
    content = Path(file).read_bytes()
    record = open_record(settings_for(data), Clock())
    try:
        with record.reading() as reading:
            author = _author(reading, by)
            plan = roster.check(reading, content, file=Path(file).name, answers=given)
        click.echo("\n".join(lines(plan)))
        if not _go_on(plan, yes=yes):
            return
        with record.writing() as writing:
            done = roster.take(writing, content, by=author, file=Path(file).name, answers=given, code=plan.code)
    finally:
        record.close()
    click.echo(f"Taken: {len(done.acts)} people added or changed.")


@command.command()
@data_option
@click.argument("file", type=click.Path(dir_okay=False))
def export(data: str | None, file: str) -> None:
    """Write who is here to FILE, as its ending says: .csv or .xlsx.

    Importing that file changes nothing.

    \b
    Example:
      trainer roster export people.xlsx --data instance
    """  # noqa: D301 - the mark is click's, and not to be raw
    from trainer.cli._exporting import FORMS, about  # noqa: PLC0415  (heavy, and not needed for --help)
    from trainer.exports.about import Tally  # noqa: PLC0415
    from trainer.exports.files import table_file  # noqa: PLC0415
    from trainer.exports.roster import roster_table  # noqa: PLC0415
    from trainer.records import people  # noqa: PLC0415

    form = Path(file).suffix.lstrip(".").lower()
    if form not in ENDINGS:
        raise UsageError(say("{file}: the ending says the form, .csv or .xlsx.", file=file))
    settings = settings_for(data)
    record = open_existing(settings)
    with record.reading() as reading:
        told = about(reading, settings, say("People on the roster"), {"on": reading.today()}, None)
        tally = Tally(told.asked)
        write_pieces(table_file(FORMS[form], roster_table(people.everybody(reading)), told, tally), file)
    record.close()
    click.echo(f"{tally.rows} people. Check code {tally.code}", err=True)


def _author(reading: "Reading", number: str | None) -> str | None:
    from trainer.records import people  # noqa: PLC0415  (heavy, and not needed for --help)

    if number is None:
        return None
    found = next((row for row in people.everybody(reading) if row.number == number), None)
    if found is None:
        raise Missing(say("There is nobody with the number {number}.", number=number))
    return found.key


def _go_on(plan: "Plan", *, yes: bool) -> bool:
    """Say whether to take a plan; ends with 1 when something stands against it, or the person says no."""
    if not plan.ready:
        click.get_current_context().exit(1)
    if not plan.acts:
        click.echo("Nothing changes.")
        return False
    if not yes and not click.confirm(f"Add or change {len(plan.acts)} people?"):
        click.echo("Nothing was taken.")
        click.get_current_context().exit(1)
    return True
