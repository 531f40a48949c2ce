"""The ``trainer`` command: one module per noun, found by name, each with a ``command``.

Exit codes: 0 good, 1 findings or a refusal, 2 wrong usage. A traceback is never part of an answer.
"""

import importlib
import pkgutil
import sys
from typing import Any

import click

from trainer import __version__
from trainer.errors import TrainerError

HELPERS = frozenset({"options"})


class Nouns(click.Group):
    """Finds its commands in this package and loads one only when it is called."""

    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002  (click asks this way)
        """Return the nouns, sorted."""
        found = (module.name for module in pkgutil.iter_modules(__path__) if not module.name.startswith("_"))
        return sorted(name.replace("_", "-") for name in found if name not in HELPERS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Return the noun's command, or None so that click says which exist."""
        if cmd_name not in self.list_commands(ctx):
            return None
        command: click.Command = importlib.import_module(f"{__name__}.{cmd_name.replace('-', '_')}").command
        return command

    def invoke(self, ctx: click.Context) -> Any:
        """Run a command; an error of the family becomes one sentence and its exit code."""
        try:
            return super().invoke(ctx)
        except TrainerError as error:
            click.echo(str(error), err=True)
            sys.exit(error.exit_code)


@click.command(cls=Nouns, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="trainer")
def main() -> None:
    """Machine-guarding training and competency.

    \b
    Exit codes: 0 good, 1 findings or a refusal, 2 wrong usage.
    """  # noqa: D301 - the mark is click's, and not to be raw
