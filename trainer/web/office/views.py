"""The office's views: read the blanks, ask a service, show the answer or hand over its file."""

from dataclasses import replace
from datetime import date

from flask import Blueprint, Response, g, redirect, render_template, request, url_for
from werkzeug.wrappers import Response as AnyResponse

from trainer.errors import RecordError, UsageError
from trainer.records import ledger, people, roster
from trainer.records.checkpoints import newest
from trainer.records.privacy.requests import listed
from trainer.records.roster.imports import imports
from trainer.web.access import OFFICER, doors
from trainer.web.days import read_last_day
from trainer.web.entries import entry_page
from trainer.web.office import files, services
from trainer.web.office.about import about_page, corrections, search_page
from trainer.web.office.asof import Asked, asof_page
from trainer.web.office.changed import changed_page
from trainer.web.office.frames import office_frame
from trainer.web.office.overdue import OverdueChoice, overdue_page
from trainer.web.office.questions import questions_page
from trainer.web.office.rosterfile import roster_page, taken_rows
from trainer.web.office.uploads import Upload, read_upload, with_days
from trainer.web.rooms import rooms
from trainer.web.roster import gather, known
from trainer.web.sheet import chosen
from trainer.wording import Sentence

MOST_IMPORTS = 50  # rosters on the sheet, newest first
bp = Blueprint("office", __name__, url_prefix="/office")


@bp.get("/")
@doors.needs(OFFICER)
def questions() -> str:
    """Show the questions."""
    return _questions(None)


@bp.get("/authorised")
@doors.needs(OFFICER)
def asof() -> str | tuple[str, int]:
    """Answer who was authorised on a machine on a day, as known on another."""
    opened = rooms()
    try:
        with opened.record.reading() as reading:
            answer = services.read_answer(reading, opened.bank, _asked(reading.today()))
    except UsageError as error:
        return _questions(error.sentence), 422
    return render_template("office/asof.html", page=asof_page(answer))


@bp.get("/authorised.csv")
@doors.needs(OFFICER)
def asof_csv() -> Response:
    """Hand over the list of a day as a file."""
    opened = rooms()
    with opened.record.reading() as reading:
        answer = services.read_answer(reading, opened.bank, _asked(reading.today()))
    return files.asof_file(answer)


@bp.get("/person")
@doors.needs(OFFICER)
def about() -> str | AnyResponse | tuple[str, int]:
    """Find a person; one who alone fits is shown at once."""
    who = request.args.get("who", "").strip()[:100]
    with rooms().record.reading() as reading:
        found = people.find(reading, who) if who else []
        today = reading.today()
    try:
        on = read_last_day(request.args.get("day", ""), today=today)
    except UsageError as error:
        page = search_page(found, who=who, on=today, refusal=error.sentence)
        return render_template("office/about.html", page=page), 422
    if len(found) == 1:
        return redirect(url_for("office.person", key=found[0].key, day=on.isoformat()), 303)
    return render_template("office/about.html", page=search_page(found, who=who, on=on))


@bp.get("/people/<key>")
@doors.needs(OFFICER)
def person(key: str) -> str:
    """Show everything that is held about a person."""
    opened = rooms()
    with opened.record.reading() as reading:
        on = read_last_day(request.args.get("day", ""), today=reading.today())
        held = services.read_held(reading, opened.bank, key, on)
    page = about_page(held, request.args.get("page", "1"), done=request.args.get("signed", 0, type=int))
    return render_template("office/about.html", page=page)


@bp.get("/people/<key>/entries.csv")
@doors.needs(OFFICER)
def person_csv(key: str) -> Response:
    """Hand over every entry of a person as a file."""
    opened = rooms()
    with opened.record.reading() as reading:
        on = read_last_day(request.args.get("day", ""), today=reading.today())
        held = services.read_held(reading, opened.bank, key, on)
    return files.person_file(held)


@bp.get("/entries/<int(max=2147483647):number>")
@doors.needs(OFFICER)
def entry(number: int) -> str:
    """Show one entry as it was written."""
    with rooms().record.reading() as reading:
        found = ledger.entry(reading, number)
        named = known(reading, [found])
    frame, paper = office_frame("office.changed", found.reference), url_for("office.asked", number=number)
    page = entry_page(found, frame, named, paper=paper)
    return render_template("entry.html", page=replace(page, ways=corrections(found, named)))


@bp.get("/changed")
@doors.needs(OFFICER)
def changed() -> str:
    """Read the whole ledger again and say what does not fit, came late or was corrected."""
    with rooms().record.reading() as reading:
        read = services.reread(reading)
    return render_template("office/changed.html", page=changed_page(read))


@bp.get("/overdue")
@doors.needs(OFFICER)
def overdue() -> str | tuple[str, int]:
    """Answer what is overdue on a day."""
    opened = rooms()
    choice = OverdueChoice(**chosen(OverdueChoice, request.args))
    try:
        with opened.record.reading() as reading:
            on = read_last_day(choice.day, today=reading.today())
            roster = gather(reading, opened.bank, on=on)
    except UsageError as error:
        return _questions(error.sentence), 422
    return render_template("office/overdue.html", page=overdue_page(roster, choice))


@bp.get("/records.csv")
@doors.needs(OFFICER)
def records_csv() -> Response | tuple[str, int]:
    """Hand over the entries of a span of days, in the order in which they were written."""
    with rooms().record.reading() as reading:
        today = reading.today()
    try:
        first, last = (read_last_day(request.args.get(name, ""), today=today) for name in ("first", "last"))
    except UsageError as error:
        return _questions(error.sentence), 422
    return files.records_file(first, last)


@bp.post("/pack")
@doors.needs(OFFICER)
def pack() -> Response | tuple[str, int]:
    """Make the audit pack of people or of a machine's people, and hand it over."""
    opened, form = rooms(), request.form
    try:
        with opened.record.reading() as reading:
            today = reading.today()
        on, known_on = (read_last_day(form.get(name, ""), today=today) for name in ("day", "known"))
        return files.pack_file(
            lambda reading: services.asked_for_pack(
                reading, form.get("who", ""), form.get("machine", ""), on=on, known_on=known_on
            ),
            on,
        )
    except (UsageError, RecordError) as error:
        return _questions(error.sentence), 422


@bp.get("/roster", endpoint="roster")
@doors.needs(OFFICER)
def roster_sheet() -> str:
    """Show where a roster is chosen; after one was taken, what that came to."""
    with rooms().record.reading() as reading:
        rows = imports(reading)[:MOST_IMPORTS]
        named = {row.by: people.must(reading, row.by) for row in rows if row.by}
    page = roster_page(Upload(), None, taken=request.args.get("taken", type=int))
    page = replace(page, log=taken_rows(rows, named))
    return render_template("office/roster.html", page=page)


@bp.post("/roster")
@doors.needs(OFFICER)
def roster_file() -> str | AnyResponse | tuple[str, int]:
    """Show what a roster comes to, or take it as it was shown."""
    record = rooms().record
    upload, refusal = Upload(), None
    try:
        with record.reading() as reading:
            upload = read_upload(request.form, request.files)
            upload = with_days(upload, request.form, today=reading.today())
        if request.form.get("take"):
            with record.writing() as writing:
                done = roster.take(
                    writing, upload.data, by=g.person.key, file=upload.file, answers=upload.answers, code=upload.code
                )
            return redirect(url_for("office.roster", taken=len(done.acts)), 303)
    except (UsageError, RecordError) as error:
        refusal = error
    with record.reading() as reading:
        plan = services.read_plan(reading, upload)
    page = roster_page(upload, plan, refusal=refusal.sentence if refusal else None)
    return render_template("office/roster.html", page=page), refusal.status if refusal else 200


@bp.get("/roster.xlsx")
@doors.needs(OFFICER)
def roster_out() -> Response:
    """Hand over who is here as a spreadsheet that comes back without a change."""
    with rooms().record.reading() as reading:
        return files.roster_file(people.everybody(reading), reading.now(), reading.today())


def _asked(today: date) -> Asked:
    on, known_on = (read_last_day(request.args.get(name, ""), today=today) for name in ("day", "known"))
    return Asked(machine=request.args.get("machine", "")[:40], on=on, known_on=known_on)


def _questions(refusal: Sentence | None) -> str:
    with rooms().record.reading() as reading:
        roster = services.bare_roster(reading)
        waiting = listed(reading, only_open=True)
        last_roster = next(iter(imports(reading)), None)
        page = questions_page(
            rooms().bank,
            roster,
            newest(reading),
            today=reading.today(),
            waiting=waiting,
            last_roster=last_roster,
            refusal=refusal,
        )
    return render_template("office/questions.html", page=page)
