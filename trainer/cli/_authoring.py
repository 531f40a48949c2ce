"""``trainer bank new``: what an author of content begins with."""

import os
from pathlib import Path
from typing import TYPE_CHECKING

import click

from trainer.settings import read_settings

if TYPE_CHECKING:
    from trainer.bank import Bank


@click.command()
@click.argument("kind", type=click.Choice(["scenario", "drill"]))
@click.argument("slug")
@click.option("--to", "folder", metavar="FOLDER", required=True, help="Folder of content to write into.")
@click.option("--id", "ident", metavar="ID", help="Id of the new item; else its slug.")
@click.option(
    "--content", metavar="DIR", help="Bank that it is for; else FOLDER where that is one, else the setting's."
)
def new(kind: str, slug: str, folder: str, ident: str | None, content: str | None) -> None:
    """Write the files of a new scenario or drill, in every language of the bank, with TODO where you have to write.

    Nothing is overwritten. “trainer bank check” finds each TODO until it is written.

    \b
    Example:
      trainer bank new scenario reach-over-the-top --to our-content

    \b
    Exit codes: 0 written, 2 wrong usage or a name that is taken.
    """  # noqa: D301 - the mark is click's, and not to be raw
    from trainer.bank.drafting import write_folders  # noqa: PLC0415  (heavy, and not needed for --help)
    from trainer.bank.skeletons import skeleton  # noqa: PLC0415

    made = skeleton(_bank_for(Path(folder), content), kind, slug, ident or slug)
    for name in write_folders({made.slug: made.files}, Path(folder), made.kind):
        click.echo(Path(folder) / name)
    click.echo("Now write what is marked TODO, then run “trainer bank check”.")


def _bank_for(folder: Path, content: str | None) -> "Bank":
    """Return the bank that a new item belongs to, as far as it can be read: a beginning needs no bank without errors."""
    from trainer.bank import load  # noqa: PLC0415  (heavy, and not needed for --help)

    if content is None and (folder / "bank.yaml").is_file() and (folder / "competencies.yaml").is_file():
        content = str(folder)
    return load(read_settings(os.environ, content=content).content_folder).draft.bank
