"""The office's views of requests: enter one, hand over a copy, answer in words, take an identity out."""

from flask import Response, g, redirect, render_template, request, url_for
from werkzeug.wrappers import Response as AnyResponse

from trainer.errors import Missing, RecordError, UsageError
from trainer.exports.personfile import Copy, person_zip
from trainer.records import Reading, ledger, people
from trainer.records.privacy import erasing, held, officers, requests, rules
from trainer.web.access import OFFICER, doors
from trainer.web.days import read_last_day
from trainer.web.language import voice
from trainer.web.office.files import handed
from trainer.web.office.privacypages import erase_page, requests_page
from trainer.web.office.views import bp
from trainer.web.rooms import rooms
from trainer.wording import Sentence, say

Shown = str | AnyResponse | tuple[str, int]
COPIED = "A copy was made."  # stands on record as the answer; English, as everything that is written there


@bp.get("/requests", endpoint="requests")
@doors.needs(OFFICER)
def requests_sheet() -> str:
    """Show what people asked about their own data."""
    return _sheet({"number": request.args.get("number", "")[:40]}, None)


@bp.post("/requests")
@doors.needs(OFFICER)
def take_request() -> Shown:
    """Keep a request; a refusal keeps what was typed."""
    form = request.form
    fields = {name: form.get(name, "")[:500] for name in ("number", "wish", "received", "note")}
    try:
        with rooms().record.writing() as writing:
            requests.receive(
                writing,
                person=_person(writing, fields["number"]).key,
                kind=fields["wish"],
                received_on=read_last_day(fields["received"], today=writing.today()),
                by=g.person.key,
                note=fields["note"],
            )
    except (UsageError, RecordError, Missing) as error:
        return _sheet(fields, error.sentence), error.status
    return redirect(url_for("office.requests"), 303)


@bp.post("/requests/<int(max=2147483647):number>")
@doors.needs(OFFICER)
def answer_request(number: int) -> Shown:
    """Note how a request was answered."""
    try:
        with rooms().record.writing() as writing:
            requests.answer(writing, number, by=g.person.key, words=request.form.get("words", ""))
    except (UsageError, RecordError) as error:
        return _sheet({f"words-{number}": request.form.get("words", "")[:500]}, error.sentence), error.status
    return redirect(url_for("office.requests"), 303)


@bp.post("/people/<key>/copy.zip")
@doors.needs(OFFICER)
def own_copy(key: str) -> Response:
    """Hand over everything that is held on a person; open requests for a copy count as answered."""
    opened = rooms()
    with opened.record.writing() as writing:
        officer = officers.must_be_officer(writing, g.person.key).key
        person = people.must(writing, key)
        made = person_zip(_copy(writing, key), voice())
        requests.answer_open(writing, person=key, kind=requests.Wish.COPY, by=officer, words=COPIED)
    return handed(iter([made]), f"own-data-{person.number}-{writing.today()}.zip", "application/zip")


def _copy(reading: Reading, key: str) -> Copy:
    opened = rooms()
    return Copy(
        held=held.held(reading, key),
        entries=list(ledger.entries(reading, person=key)),
        rules=rules.rules(reading),
        bank=opened.bank,
        site=opened.settings.site,
        made_at=reading.now(),
        zone=opened.settings.zone,
    )


@bp.get("/people/<key>/erase")
@doors.needs(OFFICER)
def erase(key: str) -> str:
    """Show what taking an identity out would do."""
    return _erase_sheet(key, None)


@bp.post("/people/<key>/erase")
@doors.needs(OFFICER)
def take_out(key: str) -> Shown:
    """Take an identity out, once its number was written as a sign that this person is meant."""
    form = request.form
    try:
        with rooms().record.writing() as writing:
            person = people.must(writing, key)
            _must_be_meant(person.number, form.get("number", ""))
            forced = form.get("force") == "yes"
            made = erasing.erase(writing, key, by=g.person.key, reason=form.get("reason", ""), force=forced)
    except (UsageError, RecordError) as error:
        return _erase_sheet(key, error.sentence), error.status
    return redirect(url_for("office.person", key=key, signed=made.number), 303)


def _must_be_meant(number: str, typed: str) -> None:
    if typed.strip() != number:
        raise UsageError(
            say("Write the number of the person whose name and number go, to show that this one is meant.")
        )


def _person(reading: Reading, number: str) -> people.PersonRow:
    found = people.with_number(reading, number.strip())
    if len(found) != 1:
        raise UsageError(say("{count} people have the number {number}.", count=len(found), number=number[:40]))
    return found[0]


def _sheet(fields: dict[str, str], refusal: Sentence | None) -> str:
    with rooms().record.reading() as reading:
        rows, today = requests.listed(reading), reading.today()
        named = {key: people.must(reading, key) for key in {row.person for row in rows}}
    page = requests_page(rows, named, today, fields=fields, refusal=refusal)
    return render_template("office/requests.html", page=page)


def _erase_sheet(key: str, refusal: Sentence | None) -> str:
    form = request.form
    with rooms().record.reading() as reading:
        plan = erasing.plan(reading, key)
    page = erase_page(plan, reason=form.get("reason", "")[:500], forced=form.get("force") == "yes", refusal=refusal)
    return render_template("office/erase.html", page=page)
