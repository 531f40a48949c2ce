"""``trainer bank export-qti`` and ``import-qti``: questions in an open standard, out and back as drafts."""

import importlib.resources
import os
from pathlib import Path

import click

from trainer.cli._findings import print_findings
from trainer.cli.options import open_content, write_pieces
from trainer.settings import read_settings

PENS = "static/css/drawing.css"  # the pens of the drawings, kept with the screens


@click.command("export-qti")
@click.argument("file", metavar="FILE.zip", type=click.Path(dir_okay=False))
@click.option("--content", metavar="DIR", help="Folder of the content bank; else the setting, else the shipped one.")
def export_qti(file: str, content: str | None) -> None:
    """Write the bank's questions as an IMS QTI 3.0 content package, and list what it cannot hold and why.

    There is one item for each question and language, with its drawing, and for each drill whose sum the standard can
    say; those are checked in every draw, which takes some seconds. The same bank gives the same bytes.

    \b
    Example:
      trainer bank export-qti questions.zip

    \b
    Exit codes: 0 written, 1 the bank has errors, 2 wrong usage.
    """  # noqa: D301 - the mark is click's, and not to be raw
    from trainer.exports.qti.package import package  # noqa: PLC0415  (heavy, and not needed for --help)
    from trainer.web.language import voice  # noqa: PLC0415

    bank = open_content(read_settings(os.environ, content=content))
    pens = importlib.resources.files("trainer.web").joinpath(PENS).read_text(encoding="utf-8")
    made = package(bank, voices=voice, pens=pens)
    write_pieces([made.content], file)
    click.echo(f"{made.items} items in {file}.")
    if made.left:
        click.echo("Not in it:")
    for one in made.left:
        click.echo(f"    {one.what}: {one.why}")


@click.command("import-qti")
@click.argument("file", metavar="FILE.zip", type=click.Path(exists=True, dir_okay=False, path_type=Path))
@click.option("--to", "folder", metavar="FOLDER", required=True, help="Folder to write the drafts into, as scenarios/…")
@click.option("--dry-run", is_flag=True, help="Say what would come of it; write nothing.")
@click.pass_context
def import_qti(ctx: click.Context, file: Path, folder: str, *, dry_run: bool) -> None:
    """Take questions from an IMS QTI 3.0 content package, as drafts in the form of the bank's own files.

    Nothing is overwritten: where a scenario's folder is there already, nothing is written. What cannot be taken is
    listed with its file, line, reason and fix; the rest is drafted. “trainer bank check” then judges the drafts.

    \b
    Example:
      trainer bank import-qti questions.zip --to drafts

    \b
    Exit codes: 0 all was taken, 1 something could not be, 2 wrong usage or a folder that is there already.
    """  # noqa: D301 - the mark is click's, and not to be raw
    from trainer.bank.drafting import write_drafts  # noqa: PLC0415  (heavy, and not needed for --help)
    from trainer.exports.qti.intake import intake  # noqa: PLC0415

    found = intake(file)
    written = [] if dry_run else write_drafts(found.drafts, Path(folder))
    print_findings(found.report)
    scenarios = f"{len(found.drafts)} scenario{'' if len(found.drafts) == 1 else 's'}"
    click.echo(f"{found.questions} questions in {scenarios}{', nothing written' if dry_run else ''}.")
    for name in written:
        click.echo(f"    {Path(folder) / name}")
    ctx.exit(found.report.exit_code)
