"""Options that several commands share, as small decorators."""

import os
import re
import sys
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any, BinaryIO, TypeVar

import click

from trainer.clock import Clock
from trainer.errors import UsageError
from trainer.settings import Settings, read_settings
from trainer.wording import say

if TYPE_CHECKING:
    from trainer.bank import Bank
    from trainer.records import Record

Command = TypeVar("Command", bound=Callable[..., Any])


def data_option(command: Command) -> Command:
    """Add ``--data DIR``."""
    return click.option("--data", metavar="DIR", help="Folder of the record; else the setting TRAINER_DATA.")(command)


def json_option(command: Command) -> Command:
    """Add ``--json`` as ``as_json``."""
    return click.option("--json", "as_json", is_flag=True, help="Print JSON.")(command)


def day_option(*names: str, text: str) -> Callable[[Command], Command]:
    """Return a decorator that adds an option for a day, written 2026-03-09."""

    def dress(command: Command) -> Command:
        add: Callable[[Command], Command] = click.option(*names, metavar="DATE", callback=_day, help=text)
        return add(command)

    return dress


def language_option(command: Command) -> Command:
    """Add ``--language CODE``."""
    text = "Language of what people read in it, such as es."
    return click.option("--language", metavar="CODE", default="en", show_default=True, callback=_language, help=text)(
        command
    )


def paper_option(command: Command) -> Command:
    """Add ``--paper SIZE``."""
    sizes = click.Choice(["a4", "letter"])
    return click.option("--paper", type=sizes, default="a4", show_default=True, help="Size of a PDF's sheets.")(command)


def settings_for(data: str | None) -> Settings:
    """Read the settings, with the data folder that the command was given."""
    return read_settings(os.environ, data=data)


def open_existing(settings: Settings) -> "Record":
    """Open the record of the settings; :class:`~trainer.errors.Missing` when there is none."""
    from trainer.records import open_record  # noqa: PLC0415  (heavy, and not needed for --help)

    return open_record(settings, Clock(), create=False)


def open_content(settings: Settings) -> "Bank":
    """Open the content bank of the settings."""
    from trainer.bank import open_bank  # noqa: PLC0415  (heavy, and not needed for --help)

    return open_bank(settings.content_folder, settings.extra_folder)


def write_pieces(pieces: Any, output: str | None) -> None:
    """Write pieces of bytes to a file, or to the standard output; the file appears only when it is whole."""
    if output is None:
        stream: BinaryIO = sys.stdout.buffer
        stream.writelines(pieces)
        return
    path = Path(output)
    draft = path.with_name(path.name + ".part")
    try:
        with draft.open("wb") as file:
            for piece in pieces:
                file.write(piece)
        draft.replace(path)
    except OSError as error:
        draft.unlink(missing_ok=True)
        raise UsageError(
            say("{path} cannot be written: {reason}.", path=output, reason=error.strerror or "")
        ) from error


def _language(_context: click.Context, _parameter: click.Parameter, value: str) -> str:
    from trainer.web.language import offered  # noqa: PLC0415  (heavy, and not needed for --help)

    known = offered()
    if value not in known:
        raise UsageError(say("There is no language {code}; there are {codes}.", code=value, codes=", ".join(known)))
    return value


def _day(_context: click.Context, parameter: click.Parameter, value: str | None) -> date | None:
    if value is None:
        return None
    name = parameter.opts[0]
    if not re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", value):
        raise UsageError(say("{name}: write a day as 2026-03-09, not {value!r}.", name=name, value=value))
    try:
        return date.fromisoformat(value)
    except ValueError as error:
        raise UsageError(say("{name}: there is no day {value}.", name=name, value=value)) from error
