"""What exactly was asked and answered: one sitting's paper as it looked then, on the screen and as PDF."""

from dataclasses import dataclass

from flask import Response, render_template, url_for
from markupsafe import Markup

from trainer.exports.about import About
from trainer.exports.asked import Asked, AskedPaper, answered, asked_paper, beside, summary
from trainer.exports.files import TYPES, Form
from trainer.exports.pdf.askedpdf import Sat, asked_pdf
from trainer.records import Reading, people
from trainer.records.instants import read_instant
from trainer.web.access import OFFICER, doors
from trainer.web.language import voice
from trainer.web.office.files import handed
from trainer.web.office.frames import office_frame
from trainer.web.office.views import bp
from trainer.web.rooms import rooms
from trainer.web.roster import named
from trainer.web.sheet import Box, Frame, Named, moment
from trainer.web.words import _
from trainer.wording import Sentence, say


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetShown:
    """One sheet with its drawing ready for the page."""

    asked: Asked
    drawing: Markup
    version: Sentence
    beside: str
    answered: str


@dataclass(frozen=True, slots=True, kw_only=True)
class AskedPage:
    """One sitting's paper as it looked then."""

    frame: Frame
    number: int
    person: Named
    programme: str
    told: tuple[Sentence, ...]
    sheets: tuple[SheetShown, ...]
    kept: bool
    pdf: str


@bp.get("/entries/<int(max=2147483647):number>/paper")
@doors.needs(OFFICER)
def asked(number: int) -> str:
    """Show the paper of a sitting."""
    with rooms().record.reading() as reading:
        found = asked_paper(reading, number, voice())
        sat = _sat(reading, found)
    return render_template("office/asked.html", page=_page(found, sat))


@bp.get("/entries/<int(max=2147483647):number>/paper.pdf")
@doors.needs(OFFICER)
def print_asked(number: int) -> Response:
    """Hand over the paper of a sitting as PDF."""
    opened = rooms()
    with opened.record.reading() as reading:
        found = asked_paper(reading, number, voice())
        sat, made_at = _sat(reading, found), reading.now()
    settings = opened.settings
    about = About(what=say("The paper as it looked then"), site=settings.site, zone=settings.zone, made_at=made_at)
    data = asked_pdf(found, sat, opened.bank, about, voice())
    return handed(iter([data]), f"paper-L-{number}-{sat.person.number}.pdf", TYPES[Form.PDF])


def _sat(reading: Reading, found: AskedPaper) -> Sat:
    entry = found.entry
    person = people.must(reading, entry.person)
    return Sat(person=person, name=people.name_on(reading, entry.person, entry.happened_on) or person.name)


def _page(found: AskedPaper, sat: Sat) -> AskedPage:
    body = found.entry.body
    programme = (found.bank or rooms().bank).programmes.get(body["programme"])
    boxes = (
        Box(label=_("Edition then"), value=str(body["edition"])),
        Box(label=_("Seed"), value=str(body["seed"])),
        Box(label=_("Fingerprint"), value=body["fingerprint"][:16]),
        Box(label=_("Handed in"), value=moment(read_instant(body["ended_at"]))),
    )
    return AskedPage(
        frame=office_frame("office.about", found.entry.reference, *boxes),
        number=found.entry.number,
        person=Named(name=sat.name, number=sat.person.number, url=named(sat.person, "office.person").url),
        programme=programme.name.in_(voice().language) if programme else body["programme"],
        told=summary(found, voice()),
        sheets=tuple(map(_shown, found.sheets)),
        kept=found.bank is not None,
        pdf=url_for("office.print_asked", number=found.entry.number),
    )


def _shown(one: Asked) -> SheetShown:
    return SheetShown(
        asked=one,
        drawing=Markup(one.drawing),  # noqa: S704  (drawn by figures, which escapes every word)
        version=say("{item} version {version}", item=one.item, version=one.version),
        beside=beside(one, voice()),
        answered=answered(one, voice()),
    )
