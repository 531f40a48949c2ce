"""``trainer paper``: look at a paper as a trainer would, with its key."""

import importlib
import json
import os
from collections.abc import Iterator, Mapping
from typing import Any

import click

from trainer.cli.options import data_option, open_content, open_existing, settings_for
from trainer.settings import read_settings


@click.group()
def command() -> None:
    """Look at the papers that a programme gives."""


@command.command()
@click.argument("programme")
@click.option("--seed", type=click.IntRange(min=0), default=1, show_default=True, help="Another seed, another paper.")
@click.option("--language", default="en", show_default=True, metavar="CODE", help="Language of the sheets.")
@click.option("--content", metavar="DIR", help="Folder of the content bank; else the setting, else the shipped one.")
@click.option("--json", "as_json", is_flag=True, help="Print the paper as it is stored, without its key.")
def show(programme: str, seed: int, language: str, content: str | None, *, as_json: bool) -> None:
    """Print the paper that a seed gives for PROGRAMME, each sheet with its key.

    \b
    Examples:
      trainer paper show press-brake-operator-induction --seed 5
      trainer paper show press-brake-helper-induction --language es

    \b
    Exit codes: 0 printed, 1 no such programme or a bank with errors, 2 wrong usage.
    """  # noqa: D301 - the mark is click's, and not to be raw
    bank = open_content(read_settings(os.environ, content=content))
    paper = importlib.import_module("trainer.assessment.paper").build_paper(bank, programme, seed)
    if as_json:
        click.echo(json.dumps(paper.as_data(), ensure_ascii=False, indent=2))
        return
    for line in _lines(bank, paper, language):
        click.echo(line)


@command.command()
@click.option(
    "--low", type=float, default=0.6, show_default=True, help="Right answers, as a share, of who must not pass."
)
@click.option("--high", type=float, default=0.85, show_default=True, help="Right answers, as a share, of who should.")
@click.option("--false-pass", type=float, default=0.05, show_default=True, help="Aim: who must not pass and passes.")
@click.option("--false-fail", type=float, default=0.05, show_default=True, help="Aim: who should pass and fails.")
@click.option("--most", type=click.IntRange(1, 200), default=30, show_default=True, help="Items asked at most.")
@click.option("--least", type=click.IntRange(1, 200), default=1, show_default=True, help="Items asked before a pass.")
@click.option("--json", "as_json", is_flag=True, help="Print JSON.")
def plan(*, as_json: bool, **given: Any) -> None:
    """Print the rule of a refresher that stops as soon as enough is known, with the error rates that it truly has.

    Wald's sequential test. The rates printed are worked out by following every way through the test; undecided at the
    end is not passed. Put everything critical among the first items, as many as --least.

    \b
    Examples:
      trainer paper plan
      trainer paper plan --low 0.7 --high 0.95 --false-pass 0.01 --least 12

    \b
    Exit codes: 0 printed, 1 refused, 2 wrong usage.
    """  # noqa: D301 - the mark is click's, and not to be raw
    from trainer.cli import _plan  # noqa: PLC0415  (not needed for --help)

    made = _plan.Plan(**given)
    if as_json:
        click.echo(json.dumps(_plan.as_data(made), indent=2))
        return
    for line in _plan.lines(made):
        click.echo(line)


@command.command()
@data_option
@click.argument("entry", type=click.IntRange(1, 2**31 - 1))
@click.option("--language", metavar="CODE", help="Language of the sheets; the one it was taken in unless given.")
def reprint(data: str | None, entry: int, language: str | None) -> None:
    """Print the paper of the sitting that ENTRY of the ledger records, as it was then, with its key and what was answered.

    \b
    Example:
      trainer paper reprint 512 --data instance

    \b
    Exit codes: 0 printed, 1 no such sitting, or its content was altered, 2 wrong usage.
    """  # noqa: D301 - the mark is click's, and not to be raw
    records = importlib.import_module("trainer.records")
    with open_existing(settings_for(data)).reading() as reading:
        sitting = records.sittings.of_entry(reading, entry)
        bank = records.editions.bank_of(reading, sitting.paper["fingerprint"])
    paper = importlib.import_module("trainer.assessment.paper").Paper.from_data(sitting.paper)
    answers = {number: row.answer for number, row in sitting.answers.items()}
    for line in _lines(bank, paper, language or sitting.language, answers):
        click.echo(line)


def _lines(bank: Any, paper: Any, language: str, answers: Mapping[int, Any] | None = None) -> Iterator[str]:
    needed = importlib.import_module("trainer.assessment.result").result(bank, paper, ()).needed
    yield f"{paper.programme}, edition {paper.edition}, seed {paper.seed}"
    yield f"{len(paper.sheets)} sheets, {len(paper.marked)} marked, {needed} must be right, and each critical one"
    for sheet in paper.sheets:
        critical = ", critical" if sheet.critical else ""
        yield ""
        yield f"{sheet.number}. {sheet.item} version {sheet.version}, {sheet.kind}, {sheet.competency}{critical}"
        yield from (f"    {line}" for line in _sheet(bank, sheet, language))
        if answers is not None and sheet in paper.marked:
            given = answers.get(sheet.number, {})
            pressed = [given.get("chosen") or given.get("value"), *given.get("given", ())]
            yield f"    answered: {' '.join(filter(None, pressed)) or 'nothing'}"


def _sheet(bank: Any, sheet: Any, language: str) -> Iterator[str]:
    item = bank.item(sheet.item)
    if sheet.kind == "lesson":
        yield item.heading.in_(language)
        return
    yield item.told.in_(language)
    yield item.asked.in_(language)
    if item.kind == "number":
        yield from _number(item.drill, sheet)
    elif sheet.kind == "question":
        yield from _question(item, sheet, language)
    elif item.kind == "select":
        yield from _safeguards(item, sheet, language)
    else:
        yield from _number(item, sheet)


def _question(question: Any, sheet: Any, language: str) -> Iterator[str]:
    """Give what can be pressed, as it is shown, with what is right."""
    lists = importlib.import_module("trainer.assessment.lists")
    pressing = importlib.import_module("trainer.assessment.pressing")
    for part in lists.parts(question, sheet, pressing.Pressed()):
        listed = question.reasons if part.ident.startswith("second:") else question.options
        option = next(option for option in listed if option.id == part.ident.removeprefix("second:"))
        key = {"x": "*", "": " "}.get(part.needed, part.needed)
        partner = f" = {option.partner.in_(language)}" if option.partner else ""
        yield f"{key} {option.id}) {option.text.in_(language)}{partner}"


def _safeguards(drill: Any, sheet: Any, language: str) -> Iterator[str]:
    setting = sheet.drawn["setting"]
    key = importlib.import_module("trainer.assessment.selecting").key_of(drill, setting)
    known = importlib.import_module("trainer.safeguarding.selection").SAFEGUARDS
    yield drill.setting(setting).told.in_(language)
    for code in sheet.order:
        name = known[code].name if code in known else "None of these: do not run this job here"
        yield f"{'*' if code in key.right else ' '} {name} ({key.worth[code]})"


def _number(drill: Any, sheet: Any) -> Iterator[str]:
    drills = importlib.import_module("trainer.assessment.drills")
    written = importlib.import_module("trainer.safeguarding.show").amount
    sum_ = importlib.import_module("trainer.safeguarding.problems").problem(drill.problem)
    accepted = drills.band_of(drill, sheet.drawn)
    yield ", ".join(f"{field.key} = {sheet.drawn[field.key]}" for field in sum_.fields if field.key in sheet.drawn)
    yield f"* {written(accepted.needed, drill.unit, 2)}, exactly {written(accepted.exact, drill.unit, 3)}"
    numbers = drills.given(drill, sheet.drawn).numbers
    for code in drill.slips:
        figure = sum_.figure(numbers, (code,), unit=drill.unit)
        if figure is not None:
            yield f"  {written(figure.value, drill.unit, 1)}: {sum_.slip(code).title} ({code})"
