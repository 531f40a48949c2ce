"""``trainer people``: who is at the site, and who may judge practice."""

from datetime import date

import click

from trainer.cli import _privacy
from trainer.cli.options import data_option, day_option, open_existing, settings_for
from trainer.clock import Clock
from trainer.errors import Missing
from trainer.wording import say

ROLES = ("learner", "trainer", "officer")


@click.group()
def command() -> None:
    """Add people, give the right to judge practice, do what people may ask about their own data."""


for _each in _privacy.COMMANDS:
    command.add_command(_each)


@command.command()
@data_option
@click.option("--number", required=True, help="The person's number, zeros and all.")
@click.option("--name", required=True, help="The name, as the person writes it.")
@click.option("--shift", default="", help="The shift, such as Early.")
@click.option("--language", default="en", show_default=True, help="Code of the language the person reads.")
@click.option("--badge", help="What the badge reader types.")
@click.option(
    "--role", "roles", multiple=True, type=click.Choice(ROLES), help="Opens desk (trainer) or office (officer)."
)
@click.option("--login", help="Login for desk and office; the password is asked for.")
@click.option("--pin", "with_pin", is_flag=True, help="Ask for a PIN for the kiosk.")
def add(
    data: str | None,
    number: str,
    name: str,
    shift: str,
    language: str,
    badge: str | None,
    roles: tuple[str, ...],
    login: str | None,
    with_pin: bool,
) -> None:
    """Add a person. The record is made when there is none yet.

    \b
    Example:
      trainer people add --data instance --number 00101 --name "Ada Quill" --role trainer --login ada --pin
    """  # noqa: D301 - the mark is click's, and not to be raw
    from trainer.records import open_record, people  # noqa: PLC0415  (heavy, and not needed for --help)

    pin = click.prompt("PIN", hide_input=True, confirmation_prompt=True) if with_pin else None
    password = click.prompt("Password", hide_input=True, confirmation_prompt=True) if login else None
    record = open_record(settings_for(data), Clock())
    with record.writing() as writing:
        row = people.add(
            writing,
            number=number,
            name=name,
            shift=shift,
            language=language,
            badge=badge,
            roles=("learner", *roles),
            login=login,
            pin=pin,
            password=password,
        )
    click.echo(f"Added {row.number} {row.name}.")


@command.command("list")
@data_option
def list_people(data: str | None) -> None:
    """List who is at the site now.

    \b
    Example:
      trainer people list --data instance
    """  # noqa: D301 - the mark is click's, and not to be raw
    from trainer.records import people  # noqa: PLC0415  (heavy, and not needed for --help)

    with open_existing(settings_for(data)).reading() as reading:
        for row in people.everybody(reading):
            click.echo(f"{row.number:8} {row.shift:8} {','.join(sorted(row.roles)):18} {row.name}")


@command.command()
@data_option
@click.argument("number")
@click.option("--machine-kind", "kinds", multiple=True, required=True, help="Kind of machine; may be given again.")
@click.option("--for-role", "roles", multiple=True, required=True, help="operator, helper, setter; may be given again.")
@click.option("--basis", required=True, help="What the right rests on, such as a course and an appointment.")
@click.option("--by", required=True, help="Number of the person who gives it; never the same person.")
@click.option(
    "--right",
    type=click.Choice(("judge", "supervise")),
    default="judge",
    show_default=True,
    help="supervise: only to stand by for whoever works supervised.",
)
@day_option("--until", text="Last day of the right.")
def entitle(data: str | None, number: str, by: str, until: date | None, **terms: object) -> None:
    """Give a person the right to judge practice, or only to stand by, on kinds of machine.

    \b
    Example:
      trainer people entitle 00101 --machine-kind press-brake-hydraulic --for-role operator \
        --basis "Evaluator course of two days" --by 00112 --until 2027-03-31
    """  # noqa: D301 - the mark is click's, and not to be raw
    from trainer.records import acts, people  # noqa: PLC0415  (heavy, and not needed for --help)

    if until is None:
        raise click.UsageError("Give --until, the last day of the right.")

    def key(reading: object, wanted: str) -> str:
        found = next((row for row in people.everybody(reading) if row.number == wanted), None)  # type: ignore[arg-type]
        if found is None:
            raise Missing(say("There is nobody with the number {number}.", number=wanted))
        return found.key

    with open_existing(settings_for(data)).writing() as writing:
        entry = acts.entitle(
            writing,
            person=key(writing, number),
            machine_kinds=terms["kinds"],  # type: ignore[arg-type]
            roles=terms["roles"],  # type: ignore[arg-type]
            basis=str(terms["basis"]),
            valid_to=until,
            by=key(writing, by),
            happened_on=writing.today(),
            right=str(terms["right"]),
        )
    click.echo(f"{entry.reference}: {number} may {terms['right']} until {until}.")
