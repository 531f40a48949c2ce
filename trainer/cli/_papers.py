"""``trainer records certificate``, ``card`` and ``list``: papers that say who may do what."""

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

import click

from trainer.cli.options import (
    data_option,
    day_option,
    language_option,
    open_content,
    open_existing,
    paper_option,
    settings_for,
    write_pieces,
)
from trainer.errors import UsageError
from trainer.settings import Settings
from trainer.wording import say

if TYPE_CHECKING:
    from trainer.bank import Bank
    from trainer.records import Reading
    from trainer.records.people import PersonRow

Find = Callable[["Reading", str], "PersonRow"]
OUT = click.option("--out", metavar="FILE", required=True, help="Write the PDF here.")
CARD_PAPER = click.option(
    "--paper",
    type=click.Choice(["card", "a4", "letter"]),
    default="card",
    show_default=True,
    help="card: two pages of a card's size for each; a4 or letter: sheets to print on both sides and cut.",
)


def papers(find: Find) -> list[click.Command]:
    """Return the commands; ``find`` finds a person by number."""
    return [_certificate(find), _card(find), _list()]


def _certificate(find: Find) -> click.Command:
    @click.command()
    @data_option
    @click.option("--person", metavar="NUMBER", required=True, help="The person who has, or had, this number.")
    @click.option("--machine", metavar="ID", required=True, help="At this machine.")
    @click.option("--role", metavar="ROLE", help="In this role; needed where there are several.")
    @OUT
    @language_option
    @paper_option
    def certificate(data: str | None, *, person: str, machine: str, role: str | None, out: str, **look: str) -> None:
        """Print a certificate of a passed and signed-off programme, for somebody who is authorised today.

        It says what it shows and what it does not show, until when it is valid, and a check code that anybody can look
        up at TRAINER_ADDRESS; without that setting it bears the code alone.

        \b
        Example:
          trainer records certificate --data instance --person 00241 --machine PB-1 --language es --out dana.pdf

        \b
        Exit codes: 0 made, 1 refused (not authorised, or the record was altered), 2 wrong usage.
        """  # noqa: D301 - the mark is click's, and not to be raw
        from trainer.exports.pdf.certificate import certificate_pdf  # noqa: PLC0415  (heavy, not needed for --help)
        from trainer.exports.pdf.paper import SIZES  # noqa: PLC0415
        from trainer.exports.pdf.proven import proofs  # noqa: PLC0415

        def make(reading: "Reading", bank: "Bank", settings: Settings) -> tuple[bytes, str]:
            found = proofs(reading, bank, person=find(reading, person).key, machine=machine, role=role)
            if len(found) != 1:
                roles = ", ".join(one.standing.role for one in found)
                raise UsageError(say("There are several roles: {roles}. Name one with --role.", roles=roles))
            about, voice = _look(reading, bank, settings, look["language"])
            size, home = SIZES[look["paper"]], settings.address
            return certificate_pdf(found[0], bank, about, voice, size=size, home=home), f"Check code {found[0].code}."

        _made(data, out, make)

    return certificate


def _card(find: Find) -> click.Command:
    @click.command()
    @data_option
    @click.option("--person", metavar="NUMBER", help="Of the person who has, or had, this number.")
    @click.option("--machine", metavar="ID", help="For this machine.")
    @click.option("--role", metavar="ROLE", help="In this role.")
    @OUT
    @language_option
    @CARD_PAPER
    def card(data: str | None, *, out: str, person: str | None, **look: Any) -> None:
        """Print pocket cards of 85.6 x 54 mm with two sides, for whoever is authorised today, alone or on sheets.

        \b
        Examples:
          trainer records card --data instance --person 00241 --out dana-cards.pdf
          trainer records card --data instance --machine PB-1 --paper a4 --out pb-1-cards.pdf

        \b
        Exit codes: 0 made, 1 refused (nobody authorised, or the record was altered), 2 wrong usage.
        """  # noqa: D301 - the mark is click's, and not to be raw
        from trainer.exports.pdf.card import cards_pdf  # noqa: PLC0415  (heavy, not needed for --help)
        from trainer.exports.pdf.proven import proofs  # noqa: PLC0415

        def make(reading: "Reading", bank: "Bank", settings: Settings) -> tuple[bytes, str]:
            key = None if person is None else find(reading, person).key
            found = proofs(reading, bank, person=key, machine=look["machine"], role=look["role"])
            about, voice = _look(reading, bank, settings, look["language"])
            made = cards_pdf(found, about, voice, paper=look["paper"], home=settings.address)
            return made, f"{len(found)} cards."

        _made(data, out, make)

    return card


def _list() -> click.Command:
    @click.command("list")
    @data_option
    @click.option("--machine", metavar="ID", required=True, help="Of this machine.")
    @day_option("--on", text="At the end of this day; today unless given.")
    @day_option("--known-on", text="Leave out what was recorded after this day.")
    @OUT
    @language_option
    @paper_option
    def list_(data: str | None, *, out: str, language: str, paper: str, **asked: Any) -> None:
        """Print the list to post at a machine: who may run it, set it, help, who may supervise, whose time ends soon.

        Only today's list is to be posted; one of another day, or as known on one, says that it is not.

        \b
        Examples:
          trainer records list --data instance --machine PB-1 --out pb-1.pdf
          trainer records list --data instance --machine PB-1 --on 2026-02-17 --known-on 2026-02-17 --out then.pdf

        \b
        Exit codes: 0 made, 1 refused (also where the record was altered), 2 wrong usage.
        """  # noqa: D301 - the mark is click's, and not to be raw
        from trainer.exports.pdf.listed import listed  # noqa: PLC0415  (heavy, not needed for --help)
        from trainer.exports.pdf.machinelist import list_pdf  # noqa: PLC0415
        from trainer.exports.pdf.paper import SIZES  # noqa: PLC0415

        def make(reading: "Reading", bank: "Bank", settings: Settings) -> tuple[bytes, str]:
            found = listed(reading, bank, **asked)
            about, voice = _look(reading, bank, settings, language)
            made = list_pdf(found, about, voice, size=SIZES[paper], home=settings.address)
            return made, f"{len(found.may)} authorised. Check code {found.code}."

        _made(data, out, make)

    return list_


def _look(reading: "Reading", bank: "Bank", settings: Settings, language: str) -> tuple[Any, Any]:
    from trainer.exports.about import About  # noqa: PLC0415  (heavy, and not needed for --help)
    from trainer.web.language import voice  # noqa: PLC0415

    about = About(
        what=say("Who may do what"),
        site=settings.site,
        zone=settings.zone,
        made_at=reading.now(),
        edition=bank.edition,
    )
    return about, voice(language)


def _made(data: str | None, out: str, make: Callable[["Reading", "Bank", Settings], tuple[bytes, str]]) -> None:
    settings = settings_for(data)
    bank = open_content(settings)
    record = open_existing(settings)
    try:
        with record.reading() as reading:
            made, told = make(reading, bank, settings)
            write_pieces([made], out)
    finally:
        record.close()
    if not settings.address:
        click.echo("TRAINER_ADDRESS is not set, so the paper bears no address to scan.", err=True)
    click.echo(f"{out}: {told}")
