"""What ``trainer records export`` and ``trainer due`` write: the question, put to the layers below."""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from datetime import date
from typing import Any

import click

from trainer.bank import Bank
from trainer.cli.options import open_content
from trainer.errors import UsageError
from trainer.exports.about import About, Tally, tallied
from trainer.exports.files import EXAMPLE, Form, ledger_file
from trainer.exports.pdf.held import Wanted, held
from trainer.exports.pdf.paper import SIZES
from trainer.exports.pdf.personfile import person_pdf
from trainer.exports.xapi import xapi_lines
from trainer.records import Reading, ledger
from trainer.records.history import history
from trainer.records.people import PersonRow
from trainer.settings import Settings
from trainer.web.language import voice
from trainer.wording import Sentence, say

FORMS = {"csv": Form.CSV, "xlsx": Form.XLSX, "json": Form.JSON, "ics": Form.CALENDAR}


def about(reading: Reading, settings: Settings, what: Sentence, asked: Mapping[str, Any], edition: int | None) -> About:
    """Return what a file says about itself; what was not asked for is left out."""
    told = {
        name: value.isoformat() if isinstance(value, date) else str(value) for name, value in asked.items() if value
    }
    return About(what=what, site=settings.site, zone=settings.zone, made_at=reading.now(), edition=edition, asked=told)


def base(settings: Settings) -> str:
    """Return the address of the site's program; where none is set, an example stands for it, and that is said."""
    if not settings.address:
        click.echo(f"TRAINER_ADDRESS is not set; {EXAMPLE} stands for it.", err=True)
    return settings.address or EXAMPLE


def ledger_pieces(
    reading: Reading, settings: Settings, form: str, language: str, asked: Mapping[str, Any]
) -> tuple[Iterator[bytes], Tally]:
    """Return entries of the ledger in a format, in pieces, and what counts them as they go by."""
    person: PersonRow | None = asked["person"]
    rows = history(
        reading,
        person=None if person is None else person.key,
        since=asked["since"],
        until=asked["until"],
        known_on=asked["known_on"],
    )
    named = {
        "person": person and person.number,
        "from": asked["since"],
        "up to": asked["until"],
        "known on": asked["known_on"],
    }
    told = about(reading, settings, say("Entries of the ledger"), named, None)
    tally = Tally(told.asked)
    if form == "pdf":
        return _person_file(reading, settings, told, tally, {**asked, "language": language}), tally
    if form == "xapi":
        bank: Bank = open_content(settings)
        found = (row.entry for row in tallied(rows, tally))
        pieces = xapi_lines(found, lambda key: list(ledger.entries(reading, person=key)), bank, base=base(settings))
        return pieces, tally
    return ledger_file(FORMS[form], rows, told, tally, voice(language)), tally


def _person_file(
    reading: Reading, settings: Settings, told: About, tally: Tally, asked: Mapping[str, Any]
) -> Iterator[bytes]:
    person: PersonRow | None = asked["person"]
    if person is None:
        raise UsageError("A PDF is about one person. Name the person with --person NUMBER.")
    bank: Bank = open_content(settings)
    wanted = Wanted(person=person.key, **{name: asked[name] for name in ("since", "until", "known_on")})
    told, speak = replace(told, edition=bank.edition), voice(asked["language"])
    return iter([person_pdf(held(reading, bank, wanted), bank, told, tally, speak, size=SIZES[asked["paper"]])])
