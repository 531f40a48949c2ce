"""``trainer demo``: an invented plant with a year of history, to try everything on."""

import os
import shutil
from pathlib import Path

import click

from trainer.cli.options import data_option
from trainer.settings import Settings, read_settings, shipped

DEFAULT_FOLDER = "instance/demo"


@click.command()
@data_option
@click.option("--no-serve", is_flag=True, help="Only build the plant.")
@click.option("--fresh", is_flag=True, help="Build it anew, dropping what was there.")
@click.option(
    "--port", default=8765, show_default=True, help="Port to listen on; another one is taken if it is in use."
)
@click.option("--day", metavar="DATE", help="The day that counts as today while building (YYYY-MM-DD); default: today.")
def command(data: str | None, no_serve: bool, fresh: bool, port: int, day: str | None) -> None:
    """Build Ostrand Mill, an invented plant, and serve it. Nothing real is in it.

    \b
    Example:
      trainer demo
      trainer demo --no-serve --data plant --day 2026-03-09
    """  # noqa: D301 - the mark is click's, and not to be raw
    from trainer.cli._seeding.build import build, is_built  # noqa: PLC0415  (heavy; keeps --help quick)
    from trainer.cli._seeding.plant import read_plant  # noqa: PLC0415

    folder = Path(data or DEFAULT_FOLDER)
    plant = read_plant(shipped("seed_scenarios"))
    settings = read_settings(os.environ, data=str(folder), zone=plant.zone, site=plant.site)
    if fresh and is_built(folder):
        shutil.rmtree(folder)
    if not is_built(folder):
        build(plant, settings, day)
    else:
        click.echo(f"Using the plant that is in {folder}; --fresh builds it anew.")
    if not no_serve:
        _serve(settings, port)


def _serve(settings: Settings, port: int) -> None:
    from trainer.cli._seeding.build import doors  # noqa: PLC0415
    from trainer.cli._serving import free_port, serve  # noqa: PLC0415

    host = "127.0.0.1"
    port = free_port(host, port)
    serve(settings, host=host, port=port, threads=8, ready=lambda address: click.echo(doors(address)), demo=True)
