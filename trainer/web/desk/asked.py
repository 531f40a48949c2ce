"""The desk's views of what came from the kiosk: the list, and one question to answer."""

from collections.abc import Iterable, Mapping

from flask import g, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from trainer.bank.model import Question
from trainer.errors import RecordError, UsageError
from trainer.records import Reading, asking, hazards, people
from trainer.records.people import PersonRow
from trainer.web.access import TRAINER, doors
from trainer.web.desk.blueprint import bp
from trainer.web.desk.reports import ReportsChoice, asked_page, reports_page
from trainer.web.language import current
from trainer.web.rooms import rooms
from trainer.web.sheet import chosen
from trainer.wording import Sentence


@bp.get("/reports")
@doors.needs(TRAINER)
def reports() -> str:
    """Show what was asked and reported at the kiosks."""
    with rooms().record.reading() as reading:
        questions, found = asking.questions(reading), hazards.reports(reading)
        named = _named(reading, (*(row.person for row in questions), *(row.person for row in found)))
        choice = ReportsChoice(**chosen(ReportsChoice, request.args))
        page = reports_page(questions, found, named, reading.now(), choice)
    return render_template("desk/reports.html", page=page)


@bp.get("/asked/<int(max=2147483647):number>")
@doors.needs(TRAINER)
def asked(number: int) -> str:
    """Show one question and what was answered."""
    return _sheet(number)


@bp.post("/asked/<int(max=2147483647):number>")
@doors.needs(TRAINER)
def answer_asked(number: int) -> Response | tuple[str, int]:
    """Answer a question; a refusal shows the sheet again with what was typed."""
    words = request.form.get("words", "")
    try:
        with rooms().record.writing() as writing:
            asking.answer(writing, number, by=g.person.key, words=words)
    except (UsageError, RecordError) as error:
        return _sheet(number, words, error.sentence), error.status
    return redirect(url_for("desk.asked", number=number), 303)


def _sheet(number: int, typed: str = "", refusal: Sentence | None = None) -> str:
    with rooms().record.reading() as reading:
        row = asking.get(reading, number)
        named = _named(reading, (row.person, row.to, *(one.by for one in row.answers)))
    page = asked_page(row, named, _about(row.about), typed=typed, refusal=refusal)
    return render_template("desk/asked.html", page=page)


def _named(reading: Reading, keys: Iterable[str | None]) -> Mapping[str, PersonRow]:
    return people.among(reading, (key for key in keys if key))


def _about(item: str) -> str:
    """Say what the sheet that was on the glass asks; empty for an item that the bank does not hold any more."""
    found = rooms().bank.questions.get(item)
    return found.asked.in_(current()) if isinstance(found, Question) else ""
