"""The office's papers as PDF: one person's file, certificates, cards, the list at a machine; in the reader's language."""

from datetime import date

from flask import Response, request, url_for

from trainer.errors import Missing
from trainer.exports.about import About, Tally
from trainer.exports.explain import explained
from trainer.exports.files import TYPES, Form
from trainer.exports.pdf.card import cards_pdf
from trainer.exports.pdf.certificate import certificate_pdf
from trainer.exports.pdf.explainpdf import Explaining, explain_pdf
from trainer.exports.pdf.held import Wanted, held
from trainer.exports.pdf.listed import listed
from trainer.exports.pdf.machinelist import list_pdf
from trainer.exports.pdf.paper import SIZES
from trainer.exports.pdf.personfile import person_pdf
from trainer.exports.pdf.proven import Proof, proofs
from trainer.records import Reading, people
from trainer.web.access import OFFICER, doors
from trainer.web.days import read_last_day
from trainer.web.language import voice
from trainer.web.office.files import handed
from trainer.web.office.views import bp
from trainer.web.rooms import rooms
from trainer.wording import say


@bp.get("/people/<key>/file.pdf")
@doors.needs(OFFICER)
def print_person(key: str) -> Response:
    """Hand over one person's file up to a day."""
    opened = rooms()
    with opened.record.reading() as reading:
        day = read_last_day(request.args.get("day", ""), today=reading.today())
        found = held(reading, opened.bank, Wanted(person=key, until=day))
        tally = Tally({"person": found.person.number, "up to": day.isoformat()})
        data = person_pdf(found, opened.bank, _about(reading), tally, voice(), size=_size())
    return _pdf(data, f"person-{found.person.number}-{day}.pdf")


@bp.get("/people/<key>/explain.pdf")
@doors.needs(OFFICER)
def print_explain(key: str) -> Response:
    """Hand over the page with what somebody should be able to explain."""
    with rooms().record.reading() as reading:
        day = read_last_day(request.args.get("day", ""), today=reading.today())
        told = Explaining(person=people.must(reading, key), on=day, found=explained(reading, key, voice(), on=day))
        data = explain_pdf(told, _about(reading), voice(), size=_paper())
    return _pdf(data, f"explain-{told.person.number}-{day}.pdf")


@bp.get("/people/<key>/certificate.pdf")
@doors.needs(OFFICER)
def print_certificate(key: str) -> Response:
    """Hand over a certificate of somebody who is authorised today."""
    with rooms().record.reading() as reading:
        proof = _proof(reading, key)
        data = certificate_pdf(proof, rooms().bank, _about(reading), voice(), size=_size(), home=_home())
    return _pdf(data, f"certificate-{proof.person.number}-{proof.standing.machine}.pdf")


@bp.get("/people/<key>/card.pdf")
@doors.needs(OFFICER)
def print_card(key: str) -> Response:
    """Hand over a pocket card of somebody who is authorised today."""
    with rooms().record.reading() as reading:
        proof = _proof(reading, key)
        data = cards_pdf([proof], _about(reading), voice(), home=_home())
    return _pdf(data, f"card-{proof.person.number}-{proof.standing.machine}.pdf")


@bp.get("/cards.pdf")
@doors.needs(OFFICER)
def print_cards() -> Response:
    """Hand over sheets with a card for everybody who is authorised at a machine today."""
    machine = _asked("machine")
    with rooms().record.reading() as reading:
        found = proofs(reading, rooms().bank, machine=machine)
        data = cards_pdf(found, _about(reading), voice(), paper=_paper(), home=_home())
    return _pdf(data, f"cards-{machine}.pdf")


@bp.get("/authorised.pdf")
@doors.needs(OFFICER)
def print_list() -> Response:
    """Hand over the list of a machine: today's to post, or that of another day."""
    opened = rooms()
    with opened.record.reading() as reading:
        today = reading.today()
        on, known = (read_last_day(request.args.get(name, ""), today=today) for name in ("day", "known"))
        found = listed(reading, opened.bank, machine=_asked("machine"), on=on, known_on=_earlier(known, today))
        data = list_pdf(found, _about(reading), voice(), size=_size(), home=_home())
    return _pdf(data, f"list-{found.machine.id}-{found.on}.pdf")


def _earlier(known: date, today: date) -> date | None:
    """Return None for what is known today: nothing has to be left out."""
    return None if known == today else known


def _proof(reading: Reading, key: str) -> Proof:
    found = proofs(reading, rooms().bank, person=key, machine=_asked("machine"), role=_asked("role"))
    if len(found) != 1:
        raise Missing(say("Name a machine and a role."))
    return found[0]


def _asked(name: str) -> str:
    value = request.args.get(name, "")[:80]
    if not value:
        raise Missing(say("Name a machine and a role."))
    return value


def _paper() -> str:
    return "letter" if request.args.get("paper") == "letter" else "a4"


def _size() -> tuple[float, float]:
    return SIZES[_paper()]


def _home() -> str:
    """Return the address of the site's program: as it is set, else the one at which the reader found it."""
    return rooms().settings.address or url_for("verify.ask", _external=True).removesuffix("/verify/").removesuffix(
        "/verify"
    )


def _about(reading: Reading) -> About:
    settings = rooms().settings
    return About(
        what=say("Who may do what"),
        site=settings.site,
        zone=settings.zone,
        made_at=reading.now(),
        edition=rooms().bank.edition,
    )


def _pdf(data: bytes, name: str) -> Response:
    return handed(iter([data]), name, TYPES[Form.PDF])
