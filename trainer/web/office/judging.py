"""Who judged, and by what right: the evaluators, and one evaluator with each sign-off."""

from collections.abc import Iterator
from datetime import date

from flask import Response, render_template, request

from trainer.errors import Missing, UsageError
from trainer.exports.csvfile import csv_pieces
from trainer.exports.judges import signed_table
from trainer.records import Reading, people
from trainer.records.judges import Judge, judges
from trainer.web.access import OFFICER, doors
from trainer.web.days import read_last_day
from trainer.web.office.files import handed
from trainer.web.office.judgepages import judge_page, judges_page
from trainer.web.office.views import bp
from trainer.web.rooms import rooms
from trainer.web.roster import known
from trainer.wording import say


@bp.get("/judges")
@doors.needs(OFFICER)
def judged() -> str | tuple[str, int]:
    """Show every evaluator with the rights they had, and how much they signed."""
    with rooms().record.reading() as reading:
        try:
            on, refusal = read_last_day(request.args.get("day", ""), today=reading.today()), None
        except UsageError as error:
            on, refusal = reading.today(), error.sentence
        found = judges(reading, on)
        everybody = {one.key: one for one in people.all_people(reading)}
    page = judges_page(found, everybody, on=on, refusal=refusal)
    return render_template("office/judges.html", page=page), 422 if refusal else 200


@bp.get("/judges/<key>")
@doors.needs(OFFICER)
def judge(key: str) -> str:
    """Show one evaluator with every sign-off."""
    with rooms().record.reading() as reading:
        on = read_last_day(request.args.get("day", ""), today=reading.today())
        found = _one(reading, key, on)
        named = known(reading, [one.entry for one in found.signed])
        named |= {row.key: row for by in found.rights if (row := people.get(reading, by.by)) is not None}
        person = people.must(reading, key)
    page = judge_page(found, person, named, on=on, wanted=request.args.get("page", "1"))
    return render_template("office/judge.html", page=page)


@bp.get("/judges.csv")
@doors.needs(OFFICER)
def judged_csv() -> Response:
    """Hand over every sign-off with the right that it rests on."""
    record = rooms().record
    with record.reading() as reading:
        on = read_last_day(request.args.get("day", ""), today=reading.today())

    def pieces() -> Iterator[bytes]:
        with record.reading() as reading:
            everybody = {one.key: one for one in people.all_people(reading)}
            yield from csv_pieces(signed_table(judges(reading, on), everybody, on=on))

    return handed(pieces(), f"judged-{on}.csv")


def _one(reading: Reading, key: str, on: date) -> Judge:
    found = next((one for one in judges(reading, on) if one.person == key), None)
    if found is None:
        raise Missing(say("This person never had a right to judge and signed nothing."))
    return found
