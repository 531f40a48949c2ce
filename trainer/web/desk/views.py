"""The desk's views: read the form, ask a service, redirect or show a sheet."""

from collections.abc import Callable
from dataclasses import replace

from flask import g, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from trainer.errors import RecordError, UsageError
from trainer.records import dues as due_records
from trainer.records import hazards, ledger
from trainer.records import items as item_records
from trainer.web.access import TRAINER, doors
from trainer.web.desk import services, signing
from trainer.web.desk.assigning import AssignChoice, assign, assign_page, assigned_page, settle
from trainer.web.desk.blueprint import bp
from trainer.web.desk.dues import DAYS, DueChoice, dues_page
from trainer.web.desk.frames import desk_frame
from trainer.web.desk.happened import happened_at
from trainer.web.desk.hazards import hazard_page
from trainer.web.desk.items import item_page, items_page
from trainer.web.desk.machine import Typed, machine_page
from trainer.web.desk.machines import machines_page
from trainer.web.desk.people import Choice, people_page
from trainer.web.desk.person import history_page, person_page
from trainer.web.desk.practicals import PracticalChoice, practicals_page
from trainer.web.desk.weekpage import week_page
from trainer.web.entries import entry_page
from trainer.web.filters import day
from trainer.web.listing import Wish
from trainer.web.rooms import rooms
from trainer.web.roster import gather, known
from trainer.web.sheet import chosen, place
from trainer.wording import Sentence

MOST_NUMBER = 2**31 - 1  # of an entry or report in an address


@bp.app_template_global()
def site() -> str:
    """Name the plant; the sign-in sheet has no page of its own to say it."""
    return rooms().settings.site


@bp.get("/")
@doors.needs(TRAINER)
def week() -> str:
    """Show who needs the trainer this week."""
    opened = rooms()
    with opened.record.reading() as reading:
        facts = services.week_facts(reading, opened.bank, me=g.person.key)
        everything = bool(request.args.get("all"))
    return render_template("desk/week.html", page=week_page(facts, everything=everything))


@bp.get("/people")
@doors.needs(TRAINER)
def people() -> str:
    """Show everybody, searched and sorted."""
    opened = rooms()
    with opened.record.reading() as reading:
        roster = gather(reading, opened.bank, on=reading.today())
    return render_template("desk/people.html", page=people_page(roster, Choice(**chosen(Choice, request.args))))


@bp.get("/people/<key>")
@doors.needs(TRAINER)
def person(key: str) -> str:
    """Show where one person stands, and why."""
    opened = rooms()
    with opened.record.reading() as reading:
        read = services.read_person(reading, opened.bank, key)
    signed = services.signed_words(read.entries, request.args.get("signed", 0, type=int))
    return render_template("desk/person.html", page=person_page(replace(read, done=signed)))


@bp.get("/people/<key>/history")
@doors.needs(TRAINER)
def history(key: str) -> str:
    """Show every entry of one person."""
    with rooms().record.reading() as reading:
        person, entries, everybody = services.read_history(reading, key)
    page = history_page(person, entries, everybody, Wish(**chosen(Wish, request.args)))
    return render_template("desk/history.html", page=page)


@bp.get("/entries/<int(max=2147483647):number>")
@doors.needs(TRAINER)
def entry(number: int) -> str:
    """Show one entry as it was written."""
    with rooms().record.reading() as reading:
        found = ledger.entry(reading, number)
        named = known(reading, [found])
    frame = desk_frame("desk.people", found.reference)
    return render_template("entry.html", page=entry_page(found, frame, named))


@bp.get("/hazards/<int(max=2147483647):number>")
@doors.needs(TRAINER)
def hazard(number: int) -> str:
    """Show a report of a hazard."""
    with rooms().record.reading() as reading:
        found, named = services.read_hazard(reading, number)
    return render_template("desk/hazard.html", page=hazard_page(found, named))


@bp.post("/hazards/<int(max=2147483647):number>")
@doors.needs(TRAINER)
def answer_hazard(number: int) -> Response | tuple[str, int]:
    """Write what was done about a report; an empty answer shows the sheet again."""
    words, closes = request.form.get("words", ""), request.form.get("closes") == "yes"
    try:
        with rooms().record.writing() as writing:
            hazards.answer(writing, number, by=g.person.key, words=words, closes=closes)
    except (UsageError, RecordError) as error:
        with rooms().record.reading() as reading:
            found, named = services.read_hazard(reading, number)
        page = hazard_page(found, named, typed=words, closes=closes, refusal=error.sentence)
        return render_template("desk/hazard.html", page=page), error.status
    return redirect(url_for("desk.hazard", number=number), 303)


@bp.get("/due")
@doors.needs(TRAINER)
def dues() -> str:
    """Show what is due within 90 days."""
    opened = rooms()
    with opened.record.reading() as reading:
        roster = gather(reading, opened.bank, on=reading.today())
        rows = due_records.due_list(reading, opened.bank, on=reading.today(), days=DAYS)
    page = dues_page(opened.bank, roster, rows, DueChoice(**chosen(DueChoice, request.args)))
    return render_template("desk/dues.html", page=page)


@bp.get("/machines")
@doors.needs(TRAINER)
def machines() -> str:
    """Show the machines and how many may run each."""
    opened = rooms()
    with opened.record.reading() as reading:
        roster = gather(reading, opened.bank, on=reading.today())
    return render_template("desk/machines.html", page=machines_page(roster, Wish(**chosen(Wish, request.args))))


@bp.get("/machines/<machine>")
@doors.needs(TRAINER)
def machine(machine: str) -> str:
    """Show one machine: whether its safeguard stands far enough, and what is on file."""
    return _machine_sheet(machine, Typed())


@bp.post("/machines/<machine>/readings")
@doors.needs(TRAINER)
def note_reading(machine: str) -> Response | tuple[str, int]:
    """Put a stopping time on file; a refusal shows the sheet again with what was typed."""
    return _noted(machine, services.note_reading)


@bp.post("/machines/<machine>/facts")
@doors.needs(TRAINER)
def note_fact(machine: str) -> Response | tuple[str, int]:
    """Put a fact on file; a refusal shows the sheet again with what was typed."""
    return _noted(machine, services.note_fact)


def _noted(machine: str, note: Callable[..., None]) -> Response | tuple[str, int]:
    fields = {name: value for name, value in request.form.items() if name != "csrf_token"}
    try:
        with rooms().record.writing() as writing:
            note(writing, machine, fields, by=g.person.key)
    except (UsageError, RecordError) as error:
        return _machine_sheet(machine, Typed(fields=fields, refusal=error.sentence)), error.status
    return redirect(url_for("desk.machine", machine=machine), 303)


def _machine_sheet(machine: str, typed: Typed) -> str:
    with rooms().record.reading() as reading:
        row, named = services.read_machine(reading, machine)
        today, past = reading.today(), happened_at(reading, machine)
    return render_template("desk/machine.html", page=machine_page(row, named, today, typed, past))


@bp.get("/questions")
@doors.needs(TRAINER)
def items() -> str:
    """Show what answers say about the questions and the papers."""
    opened = rooms()
    with opened.record.reading() as reading:
        found = item_records.findings(reading, opened.bank)
    return render_template("desk/items.html", page=items_page(opened.bank, found, Wish(**chosen(Wish, request.args))))


@bp.get("/questions/<path:item>")
@doors.needs(TRAINER)
def item(item: str) -> str:
    """Show what answers say about one question."""
    opened = rooms()
    with opened.record.reading() as reading:
        found = item_records.findings(reading, opened.bank)
    return render_template("desk/item.html", page=item_page(opened.bank, found, item))


@bp.get("/practicals")
@doors.needs(TRAINER)
def practicals() -> str:
    """Show who waits for a practical, and who may sign it."""
    opened = rooms()
    with opened.record.reading() as reading:
        roster = gather(reading, opened.bank, on=reading.today())
        judges = services.read_judges(reading)
    choice = PracticalChoice(**chosen(PracticalChoice, request.args))
    page = practicals_page(roster, judges, choice, me=g.person.key)
    return render_template("desk/practicals.html", page=page)


@bp.get("/practicals/<key>/<machine>/<role>")
@doors.needs(TRAINER)
def sign_off(key: str, machine: str, role: str) -> str:
    """Show the steps of a practical."""
    opened = rooms()
    with opened.record.reading() as reading:
        practical = services.read_practical(reading, opened.bank, key, machine, role)
        today = day(reading.today())
    form = signing.read_form({}, practical.checklist, evaluator=g.person.key, today=today)
    return render_template("desk/signoff.html", page=signing.sign_off_page(practical, form, None))


@bp.post("/practicals/<key>/<machine>/<role>")
@doors.needs(TRAINER)
def sign(key: str, machine: str, role: str) -> Response | tuple[str, int]:
    """Sign a practical; a refusal shows the sheet again with everything that was marked."""
    opened = rooms()
    with opened.record.reading() as reading:
        practical = services.read_practical(reading, opened.bank, key, machine, role)
    form = signing.read_form(request.form, practical.checklist, evaluator=g.person.key, today="")
    try:
        with opened.record.writing() as writing:
            made = signing.sign(
                writing, opened.bank, practical, form, signed_in=g.person.key, pins=request.form, place=place()
            )
    except (UsageError, RecordError) as error:
        page = signing.sign_off_page(practical, form, error.sentence)
        return render_template("desk/signoff.html", page=page), error.status
    return redirect(url_for("desk.person", key=key, signed=made.number), 303)


@bp.get("/assign", endpoint="assign")
@doors.needs(TRAINER)
def assign_form() -> str:
    """Show whom a programme would go to."""
    return _assign_sheet(AssignChoice(**chosen(AssignChoice, request.args)), None)


@bp.post("/assign")
@doors.needs(TRAINER)
def assign_now() -> Response | tuple[str, int]:
    """Enter the assignments, all or none; a refusal shows the list again."""
    choice = AssignChoice(**chosen(AssignChoice, request.form))
    try:
        with rooms().record.writing() as writing:
            made = assign(
                writing,
                rooms().bank,
                choice,
                people=request.form.getlist("people"),
                reason=request.form.get("reason", ""),
                by=g.person.key,
            )
    except (UsageError, RecordError) as error:
        return _assign_sheet(choice, error.sentence), error.status
    return redirect(url_for("desk.assigned", first=made[0].number, last=made[-1].number), 303)


@bp.get("/assigned")
@doors.needs(TRAINER)
def assigned() -> str:
    """Show the entries that an assignment made."""
    opened = rooms()
    first, last = (min(request.args.get(name, 0, type=int), MOST_NUMBER) for name in ("first", "last"))
    with opened.record.reading() as reading:
        entries = services.read_assigned(reading, first, last)
        named = known(reading, entries)
    return render_template("desk/assigned.html", page=assigned_page(opened.bank, entries, named))


def _assign_sheet(choice: AssignChoice, refusal: Sentence | None) -> str:
    opened = rooms()
    with opened.record.reading() as reading:
        roster = gather(reading, opened.bank, on=reading.today())
        choice = settle(opened.bank, roster, choice)
        given = services.read_given(reading, choice.programme)
    page = assign_page(opened.bank, roster, given, choice, refusal)
    return render_template("desk/assign.html", page=page)
