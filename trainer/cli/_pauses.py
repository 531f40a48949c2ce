"""``trainer due pauses``: who is paused because a machine was not used for too long; each is given the way back."""

import click

from trainer.cli.options import data_option, open_content, open_existing, settings_for


@click.command()
@data_option
@click.option("--preview", is_flag=True, help="Only say who is paused; nothing is assigned.")
def pauses(data: str | None, *, preview: bool) -> None:
    """Assign the way back to whoever is paused, as a machine was not used for too long. Once for each pause.

    Run it each day, beside the reminders. It acts only where a programme has pause_after among its due rules.

    \b
    Example:
      trainer due pauses --data instance
    """  # noqa: D301 - the mark is click's, and not to be raw
    from trainer.records import pausing, people  # noqa: PLC0415  (heavy, and not needed for --help)

    settings = settings_for(data)
    bank, record = open_content(settings), open_existing(settings)
    try:
        with record.reading() as reading:
            found = pausing.paused(reading, bank, reading.today())
            told = [(people.must(reading, one.person), one) for one in found]
        for person, one in told:
            click.echo(f"{person.number} {person.name}: {one.machine}, {one.role}. {one.lacks[0]}")
        made = []
        if not preview:
            with record.writing() as writing:
                made = pausing.assign_ways_back(writing, bank)
    finally:
        record.close()
    click.echo(f"{len(told)} paused, {len(made)} assigned now.")
