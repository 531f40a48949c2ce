"""``trainer bank new``, ``preview`` and ``schema``: what an author of content works with."""

import importlib.resources
import os
from pathlib import Path
from typing import TYPE_CHECKING

import click

from trainer.cli.options import write_pieces
from trainer.settings import read_settings

PENS = "static/css/drawing.css"  # the pens of the drawings, kept with the screens

WHOLE = ("bank.yaml", "sources.yaml", "competencies.yaml", "misconceptions.yaml", "programmes.yaml", "checklists.yaml")

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

    bank, place = _bank_for(Path(folder), content)
    made = skeleton(bank, kind, slug, ident or slug)
    _refuse_taken(place / made.kind / made.slug)  # a site's own folders have names of their own
    for name in write_folders({made.slug: made.files}, Path(folder), made.kind):
        click.echo(Path(folder) / name)
    click.echo("Now write what is marked TODO, then run “trainer bank check”.")


@click.command()
@click.argument("item", metavar="ID")
@click.option("--out", metavar="FILE.html", type=click.Path(dir_okay=False), help="File to write; else ID.html.")
@click.option("--content", metavar="DIR", help="Folder of the content bank; else the setting, else the shipped one.")
@click.option("--extra", metavar="DIR", help="Folder of the site's own content; else the setting.")
def preview(item: str, out: str | None, content: str | None, extra: str | None) -> None:
    """Write one page about a scenario, question, lesson or drill: every language, drawing, key, sources, draws.

    It is made of a bank with errors as well, and says what is found wrong with the item. It needs nothing but itself.

    \b
    Examples:
      trainer bank preview PB-S15
      trainer bank preview PB-D01 --out distance.html

    \b
    Exit codes: 0 written, 1 there is no such item, 2 wrong usage.
    """  # noqa: D301 - the mark is click's, and not to be raw
    from trainer.bank import load  # noqa: PLC0415  (heavy, and not needed for --help)
    from trainer.exports import preview as pages  # noqa: PLC0415
    from trainer.figures import scene_problems  # noqa: PLC0415

    settings = read_settings(os.environ, content=content, content_extra=extra)
    loaded = load(settings.content_folder, settings.extra_folder, check_drawing=scene_problems)
    pens = importlib.resources.files("trainer.web").joinpath(PENS).read_text(encoding="utf-8")
    page = pages.preview(loaded.draft.bank, item, pens=pens, findings=loaded.draft.about(item, loaded.report))
    target = out or f"{item.replace('/', '-')}.html"
    write_pieces([page], target)
    click.echo(target)


@click.command()
@click.option("--out", "folder", metavar="DIR", type=click.Path(file_okay=False, path_type=Path), help="Write files.")
def schema(folder: Path | None) -> None:
    """Print JSON Schemas (2020-12) of all content files, for editors; or write each to a file of its own.

    What is printed is one document: which schema belongs to which files, then the schemas. They tell keys and values
    apart while you write; “trainer bank check” still has the last word.

    \b
    Example:
      trainer bank schema --out schemas

    \b
    Exit codes: 0 good, 2 wrong usage.
    """  # noqa: D301 - the mark is click's, and not to be raw
    from trainer.exports.schemas import bundle, content_kinds, schema_files  # noqa: PLC0415  (heavy)

    if folder is None:
        click.echo(bundle().decode("utf-8"), nl=False)
        return
    _make_folder(folder)
    for name, content in schema_files().items():
        write_pieces([content], str(folder / name))
        patterns = content_kinds()[name.removesuffix(".schema.json")].files
        click.echo(f"{folder / name}: {', '.join(patterns)}")


def _make_folder(folder: Path) -> None:
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        message = f"{folder} cannot be made: {error.strerror}."
        raise click.UsageError(message) from error


def _bank_for(folder: Path, content: str | None) -> "tuple[Bank, Path]":
    """Return the bank that a new item belongs to, and its folder; a beginning needs no bank without errors.

    FOLDER may be a whole bank, or a site's own content beside one.
    """
    from trainer.bank import load  # noqa: PLC0415  (heavy, and not needed for --help)

    held = [name for name in WHOLE if (folder / name).is_file()]
    if content is None and len(held) == len(WHOLE):
        return load(folder).draft.bank, folder
    settings = read_settings(os.environ, content=content)
    beside = folder if "bank.yaml" in held and folder.resolve() != settings.content_folder.resolve() else None
    return load(settings.content_folder, beside or settings.extra_folder).draft.bank, settings.content_folder


def _refuse_taken(place: Path) -> None:
    if place.exists():
        message = f"{place} is there already. Name another folder."
        raise click.UsageError(message)
