"""``trainer records``: verify the record, export it, say where people stand."""

import json
from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from trainer.cli import _retention
from trainer.cli._papers import papers
from trainer.cli.options import (
    data_option,
    day_option,
    json_option,
    language_option,
    open_content,
    open_existing,
    paper_option,
    settings_for,
    write_pieces,
)
from trainer.errors import Missing, UsageError
from trainer.wording import say

if TYPE_CHECKING:
    from trainer.bank import Bank
    from trainer.records import Reading
    from trainer.records.people import PersonRow
    from trainer.records.standing import Standing


FORMATS = ("csv", "xlsx", "json", "xapi", "pdf")


@click.group()
def command() -> None:
    """Verify the record, export it, say where people stand."""


command.add_command(_retention.retention)


@command.command()
@data_option
@json_option
@click.pass_context
def verify(ctx: click.Context, data: str | None, *, as_json: bool) -> None:
    """Hash every entry again and compare every link, head and checkpoint; name each fault by its entry.

    \b
    Example:
      trainer records verify --data instance

    \b
    Exit codes: 0 as it was written, 1 faults found, 2 wrong usage.
    """  # noqa: D301 - the mark is click's, and not to be raw
    from trainer.records import ledger  # noqa: PLC0415  (heavy, and not needed for --help)

    record = open_existing(settings_for(data))
    try:
        with record.reading() as reading:
            report, size = ledger.verify(reading), ledger.size(reading)
    finally:
        record.close()
    if as_json:
        click.echo(json.dumps({"good": report.good, "entries": size, "findings": report.as_data()}, indent=2))
    else:
        for finding in report:
            click.echo(str(finding))
        click.echo(f"{size} entries read. {'All as written.' if report.good else f'{len(report.errors)} faults.'}")
    ctx.exit(report.exit_code)


@command.command()
@data_option
@click.option("--format", "form", type=click.Choice(FORMATS), default="csv", show_default=True)
@click.option("--person", metavar="NUMBER", help="Only the person who has, or had, this number.")
@day_option("--since", text="Only what happened on this day or later.")
@day_option("--until", text="Only what happened on this day or before.")
@day_option("--known-on", text="Only what was recorded by the end of this day.")
@click.option("--output", "--out", "-o", metavar="FILE", help="Write here; else to the standard output.")
@language_option
@paper_option
def export(data: str | None, *, form: str, output: str | None, language: str, paper: str, **asked: Any) -> None:
    """Export entries of the ledger, one a line, with the names that people had then.

    csv is for programs and safe in spreadsheets, xlsx for people, json exact to the last sign, xapi for a store of
    learning records, pdf one person's file to print, with their standing at the end of the last day. How many entries there were and the check code go to the standard error: whoever asks again for
    the same gets the same code, in every format, as long as nothing was changed.

    \b
    Examples:
      trainer records export --data instance -o records.csv
      trainer records export --data instance --person 00241 --since 2026-01-01 --format xlsx -o dana.xlsx
      trainer records export --data instance --person 00241 --format pdf --language es --out dana.pdf

    \b
    Exit codes: 0 exported, 1 refused, 2 wrong usage.
    """  # noqa: D301 - the mark is click's, and not to be raw
    from trainer.cli._exporting import ledger_pieces  # noqa: PLC0415  (heavy, and not needed for --help)

    settings = settings_for(data)
    record = open_existing(settings)
    try:
        with record.reading() as reading:
            number = asked.pop("person")
            asked["person"] = None if number is None else _by_number(reading, number)
            pieces, tally = ledger_pieces(reading, settings, form, language, {**asked, "paper": paper})
            write_pieces(pieces, output)
    finally:
        record.close()
    click.echo(f"{tally.rows} entries. Check code {tally.code}", err=True)


@command.command("audit-pack")
@data_option
@click.option("--people", metavar="NUMBERS", help="The people who have, or had, these numbers, with commas between.")
@click.option("--machine", metavar="ID", help="Whoever has to do with this machine on the day.")
@day_option("--on", text="Where they stand at the end of this day; today unless given.")
@day_option("--known-on", text="Tell also how that was known at the end of this day.")
@click.option("--out", metavar="FILE", required=True, help="Write the pack here, such as pack.zip.")
def audit_pack(data: str | None, *, out: str, **asked: Any) -> None:
    """Make a pack that an inspector can check without this program: a zip file with a cover page and verify.py.

    It holds every entry about the people, where they stand and why, the content that was used, and the proofs that
    nothing was altered. Tell whoever gets it the pack code and the checkpoint by another way than the pack.

    \b
    Examples:
      trainer records audit-pack --data instance --people 00241,00307 --on 2026-03-09 --out pack.zip
      trainer records audit-pack --data instance --machine PB-1 --on 2026-03-09 --known-on 2026-03-01 --out pack.zip

    \b
    Exit codes: 0 made, 1 refused (also where the record was altered), 2 wrong usage.
    """  # noqa: D301 - the mark is click's, and not to be raw
    from trainer.cli._packing import pack  # noqa: PLC0415  (heavy, and not needed for --help)

    settings = settings_for(data)
    bank = open_content(settings)
    record = open_existing(settings)
    try:
        made = pack(record, bank, settings, out, lambda reading, number: _by_number(reading, number).key, **asked)
    finally:
        record.close()
    click.echo(f"{out}: {made.people} people, {made.entries} entries, {made.standings} standings.")
    click.echo(f"Pack code {made.code}, checkpoint {made.checkpoint} {made.checkpoint_digest[:16]}.")


@command.command("verify-pack")
@click.argument("file", metavar="FILE")
@click.pass_context
def verify_pack(ctx: click.Context, file: str) -> None:
    """Check an audit pack, zip file or folder, with the program's own check; name what was changed.

    \b
    Example:
      trainer records verify-pack pack.zip

    \b
    Exit codes: 0 as it was made, 1 faults found, 2 no pack.
    """  # noqa: D301 - the mark is click's, and not to be raw
    from trainer.exports.pack.verifier.main import check_pack, told  # noqa: PLC0415  (heavy, not needed for --help)

    try:
        check, pack = check_pack(Path(file))
    except ValueError as error:
        raise UsageError(say("{reason}.", reason=str(error))) from error
    click.echo(told(check, pack))
    ctx.exit(1 if check.faults else 0)


@command.command()
@data_option
@click.option("--machine", metavar="ID", help="Only this machine.")
@click.option("--person", metavar="NUMBER", help="Only the person who has, or had, this number.")
@day_option("--on", text="At the end of this day; today unless given.")
@day_option("--known-on", text="Leave out what was recorded after this day.")
@click.option("--role", metavar="ROLE", help="Only this role, such as operator.")
@click.option("--may-run", is_flag=True, help="Only those who may run the machine.")
@click.option("--all", "everything", is_flag=True, help="Every pair, also those that do not concern each other.")
@json_option
def standing(data: str | None, *, as_json: bool, **asked: Any) -> None:
    """Say where people stand: who may run which machine on a day, why, and what the others lack.

    \b
    Examples:
      trainer records standing --data instance --machine PB-1 --on 2026-03-09
      trainer records standing --data instance --person 00241 --json

    \b
    Exit codes: 0 printed, 1 refused, 2 wrong usage.
    """  # noqa: D301 - the mark is click's, and not to be raw
    settings = settings_for(data)
    bank = open_content(settings)
    record = open_existing(settings)
    try:
        with record.reading() as reading:
            rows = list(_standings(reading, bank, **asked))
    finally:
        record.close()
    if as_json:
        click.echo(json.dumps([_data(person, each) for person, each in rows], ensure_ascii=False, indent=2))
        return
    for person, each in rows:
        _print(person, each)
    click.echo(f"{sum(each.may_run for _, each in rows)} of {len(rows)} may run the machine.")


@command.command()
@data_option
@day_option("--since", text="Only papers of this day or later.")
@day_option("--until", text="Only papers of this day or before.")
@day_option("--known-on", text="Leave out what was recorded after this day.")
@json_option
def items(data: str | None, *, since: date | None, until: date | None, known_on: date | None, as_json: bool) -> None:
    """Say what the answers on record show about items and papers: which are in doubt, and how steady a pass mark is.

    Each person counts once for each version of an item, with the first answer. What rests on too few answers says so
    and is not judged.

    \b
    Examples:
      trainer records items --data instance
      trainer records items --data instance --since 2026-01-01 --json

    \b
    Exit codes: 0 printed, 1 refused, 2 wrong usage.
    """  # noqa: D301 - the mark is click's, and not to be raw
    from trainer.cli._items import as_data, lines  # noqa: PLC0415  (heavy, and not needed for --help)
    from trainer.records.items import findings  # noqa: PLC0415

    settings = settings_for(data)
    bank = open_content(settings)
    record = open_existing(settings)
    try:
        with record.reading() as reading:
            found = findings(reading, bank, since=since or date.min, until=until or date.max, known_on=known_on)
    finally:
        record.close()
    if as_json:
        click.echo(json.dumps(as_data(found), ensure_ascii=False, indent=2))
        return
    for line in lines(found):
        click.echo(line)


def _standings(
    reading: "Reading",
    bank: "Bank",
    *,
    machine: str | None,
    person: str | None,
    on: date | None,
    known_on: date | None,
    role: str | None,
    may_run: bool,
    everything: bool,
) -> Iterator[tuple["PersonRow", "Standing"]]:
    from trainer.records import people  # noqa: PLC0415  (heavy, and not needed for --help)
    from trainer.records.standing import standings  # noqa: PLC0415

    found = standings(
        reading,
        bank,
        on=on or reading.today(),
        known_on=known_on,
        person=None if person is None else _by_number(reading, person).key,
        machine=machine,
        everything=everything,
    )
    for each in found:
        if role in {None, each.role} and (each.may_run or not may_run):
            yield people.must(reading, each.person), each


def _by_number(reading: "Reading", number: str) -> "PersonRow":
    from trainer.records import people  # noqa: PLC0415  (heavy, and not needed for --help)

    found = people.with_number(reading, number)
    if not found:
        raise Missing(say("Nobody has, or had, the number {number}.", number=number))
    if len(found) > 1:
        names = ", ".join(person.name for person in found)
        raise UsageError(say("The number {number} was used by several people: {names}.", number=number, names=names))
    return found[0]


def _print(person: "PersonRow", standing: "Standing") -> None:
    until = f" until {standing.holds_until.isoformat()}" if standing.holds_until else ""
    who = f"{person.number} {person.name}"
    click.echo(f"{standing.machine:8} {standing.role:10} {who:32} {standing.word.value}{until}")
    for reason in standing.reasons:
        numbers = ", ".join(f"L-{number}" for number in reason.entries)
        click.echo(f"    {reason.sentence} ({numbers})" if numbers else f"    {reason.sentence}")
    for sentence in standing.lacks:
        click.echo(f"    Lacks: {sentence}")


def _data(person: "PersonRow", standing: "Standing") -> dict[str, Any]:
    return {
        "number": person.number,
        "name": person.name,
        "machine": standing.machine,
        "role": standing.role,
        "standing": standing.word.value,
        "may_run": standing.may_run,
        "holds_until": standing.holds_until.isoformat() if standing.holds_until else None,
        "due_on": standing.due_on.isoformat() if standing.due_on else None,
        "reasons": [
            {"text": str(reason.sentence), "entries": [f"L-{number}" for number in reason.entries]}
            for reason in standing.reasons
        ],
        "lacks": [str(sentence) for sentence in standing.lacks],
    }


for paper in papers(_by_number):
    command.add_command(paper)
