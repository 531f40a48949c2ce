"""``trainer bank``: look at the content bank."""

import importlib
import json
import os
from collections.abc import Callable, Iterable, Mapping
from pathlib import Path
from typing import Any

import click

from trainer.cli._authoring import new, preview, schema
from trainer.cli._findings import print_findings
from trainer.cli._qti import export_qti, import_qti
from trainer.findings import Finding, Report
from trainer.settings import read_settings


@click.group()
def command() -> None:
    """Look at the content bank: scenarios, questions, drills, programmes."""


for sub in (new, preview, schema, export_qti, import_qti):
    command.add_command(sub)


@command.command()
@click.option("--content", metavar="DIR", help="Folder of the content bank; else the setting, else the shipped one.")
@click.option("--extra", metavar="DIR", help="Folder of the site's own content; else the setting.")
@click.option("--json", "as_json", is_flag=True, help="Print findings and counts as JSON.")
@click.pass_context
def check(ctx: click.Context, content: str | None, extra: str | None, *, as_json: bool) -> None:
    """Check the bank: every finding with its file, line, key, reason and fix, what is replaced, what the bank holds.

    \b
    Example:
      trainer bank check --content content --extra our-content

    \b
    Exit codes: 0 no errors, 1 errors found, 2 wrong usage.
    """  # noqa: D301 - the mark is click's, and not to be raw
    folder, beside = _folders(content, extra)
    report, head, held = _checked(folder, beside)
    if as_json:
        places = {"folder": str(folder), "extra": str(beside or "")}
        data = {**places, **head, "good": report.good, "findings": report.as_data(), "counts": held}
        click.echo(json.dumps(data, ensure_ascii=False, indent=2))
    else:
        print_findings(report)
        _print_counts(head, held)
    ctx.exit(report.exit_code)


def _folders(content: str | None, extra: str | None) -> tuple[Path, Path | None]:
    settings = read_settings(os.environ, content=content, content_extra=extra)
    for folder in (settings.content_folder, settings.extra_folder):
        if folder is not None and not folder.is_dir():
            message = f"{folder} is not a folder. Name the folder that holds bank.yaml."
            raise click.UsageError(message)
    return settings.content_folder, settings.extra_folder


def _checked(folder: Path, extra: Path | None) -> tuple[Report, Mapping[str, Any], Mapping[str, Mapping[str, int]]]:
    bank = importlib.import_module("trainer.bank")
    counts = importlib.import_module("trainer.bank.counts")
    loaded = bank.load(folder, extra, check_drawing=_drawing_check())
    held = loaded.draft.bank
    replaced = [{"id": one.item, "file": one.file, "by": one.by} for one in loaded.draft.replaced]
    head = {
        "edition": held.edition,
        "own_edition": held.own_edition,
        "fingerprint": held.fingerprint,
        "replaced": replaced,
    }
    return Report([*loaded.report, *_drills_checked(loaded)]), head, counts.counts(held)


def _drills_checked(loaded: Any) -> list[Finding]:
    """Return what the drills find when they look at their whole range; one that has an error already is not asked."""
    look = importlib.import_module("trainer.assessment.selfcheck")
    wrong = {finding.key.split()[0] for finding in loaded.report.errors if finding.key}
    drills = {key: drill for key, drill in loaded.draft.bank.drills.items() if not wrong & {key, _base(drill)}}
    sound = loaded.draft.bank.model_copy(update={"drills": drills})
    return [loaded.draft.placed(finding) for finding in look.self_check(sound)]


def _base(drill: Any) -> str:
    """Return the drill that another one judges the numbers of, or nothing."""
    return getattr(getattr(drill, "base", None), "id", "")


def _drawing_check() -> Callable[[Mapping[str, Any]], Iterable[str]] | None:
    figures = importlib.import_module("trainer.figures")
    return getattr(figures, "scene_problems", None)


def _print_counts(head: Mapping[str, Any], held: Mapping[str, Mapping[str, int]]) -> None:
    for one in head["replaced"]:
        click.echo(f"Replaced: {one['id']}, {one['file']} by {one['by']}")
    own = f" with the site's own edition {head['own_edition']}" if head["own_edition"] else ""
    click.echo(f"Edition {head['edition']}{own}, fingerprint {head['fingerprint'][:12]}.")
    for title, numbers in held.items():
        click.echo(f"\nBy {title}:")
        for name, count in numbers.items():
            click.echo(f"    {count:5d}  {name}")
