"""``trainer kiosk``: the devices on which a badge and a PIN open sheets."""

import click

from trainer.cli.options import data_option, open_existing, settings_for

by_option = click.option("--by", required=True, help="Number of the records officer who answers for it.")


@click.group()
def command() -> None:
    """Enrol the devices that are kiosks, list them, withdraw them. A PIN works on no other device."""


@command.command()
@data_option
@click.argument("name")
@by_option
def enrol(data: str | None, name: str, by: str) -> None:
    """Print a code that makes one device the kiosk NAME. It works once, for 30 minutes: open the kiosk there and type it.

    \b
    Example:
      trainer kiosk enrol "Hall 2, north door" --by 00112 --data instance
    """  # noqa: D301 - the mark is click's, and not to be raw
    from trainer.records import kiosks  # noqa: PLC0415  (heavy, and not needed for --help)

    with open_existing(settings_for(data)).writing() as w:
        code = kiosks.invite(w, name, by=_key(w, by))
    click.echo(f"{code[:5]} {code[5:]}")
    click.echo(f"Open the first sheet on the device and type this code. It becomes the kiosk {name}.", err=True)


@command.command("list")
@data_option
def list_kiosks(data: str | None) -> None:
    """List the kiosks, withdrawn ones too.

    \b
    Example:
      trainer kiosk list --data instance
    """  # noqa: D301 - the mark is click's, and not to be raw
    from trainer.records import kiosks  # noqa: PLC0415  (heavy, and not needed for --help)

    with open_existing(settings_for(data)).reading() as r:
        for row in kiosks.all_of(r):
            since = row.withdrawn_at or row.enrolled_at or row.invited_at
            click.echo(f"{row.state:10} {r.day_of(since)}  {row.name}")


@command.command()
@data_option
@click.argument("name")
@by_option
@click.option("--reason", required=True, help="Why; it stays on the record.")
def withdraw(data: str | None, name: str, by: str, reason: str) -> None:
    """Let the kiosk NAME be one no more, at once.

    \b
    Example:
      trainer kiosk withdraw "Hall 2, north door" --by 00112 --reason "Glass broken" --data instance
    """  # noqa: D301 - the mark is click's, and not to be raw
    from trainer.records import kiosks  # noqa: PLC0415  (heavy, and not needed for --help)

    with open_existing(settings_for(data)).writing() as w:
        entry = kiosks.withdraw(w, kiosks.with_name(w, name).id, by=_key(w, by), reason=reason)
    click.echo(f"{entry.reference}: {name} is no kiosk any more.")


def _key(r: object, number: str) -> str:
    from trainer.errors import Missing  # noqa: PLC0415
    from trainer.records import people  # noqa: PLC0415
    from trainer.wording import say  # noqa: PLC0415

    found = next((row for row in people.everybody(r) if row.number == number), None)  # type: ignore[arg-type]
    if found is None:
        raise Missing(say("There is nobody with the number {number}.", number=number))
    return found.key
