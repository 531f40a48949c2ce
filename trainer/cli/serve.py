"""``trainer serve``: the three doors, for real use."""

import os

import click

from trainer.cli.options import data_option
from trainer.settings import read_settings


@click.command()
@data_option
@click.option("--host", default="127.0.0.1", show_default=True, help="Address to listen on; 0.0.0.0 for the network.")
@click.option("--port", default=8765, show_default=True, help="Port to listen on.")
@click.option("--threads", default=8, show_default=True, help="Requests that may be answered at the same time.")
def command(data: str | None, host: str, port: int, threads: int) -> None:
    """Serve kiosk, desk and office from the record in the data folder.

    \b
    Example:
      trainer serve --data /srv/trainer --host 0.0.0.0
    """  # noqa: D301 - the mark is click's, and not to be raw
    from trainer.cli._serving import serve  # noqa: PLC0415  (heavy; keeps --help quick)

    settings = read_settings(os.environ, data=data)
    serve(settings, host=host, port=port, threads=threads, ready=lambda address: click.echo(f"Serving at {address}"))
