"""The desk's views of events: tell what happened, see whom it concerns, enter it."""

from flask import g, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from trainer.errors import RecordError, UsageError
from trainer.web.access import TRAINER, doors
from trainer.web.desk import services
from trainer.web.desk.blueprint import bp
from trainer.web.desk.eventpages import EventFields
from trainer.web.desk.events import enter, event_made_page, event_page
from trainer.web.desk.telling import LONGEST, read_event
from trainer.web.rooms import rooms
from trainer.web.roster import gather, known
from trainer.web.sheet import chosen
from trainer.wording import Sentence

MOST_NUMBER = 2**31 - 1


@bp.get("/events")
@doors.needs(TRAINER)
def events() -> str:
    """Show the form for what happened; nothing about anybody stands in an address but a number."""
    fields = EventFields(**chosen(EventFields, request.args))
    opened = rooms()
    with opened.record.reading() as reading:
        roster = gather(reading, opened.bank, on=reading.today())
    return render_template("desk/event.html", page=event_page(opened.bank, roster, fields))


@bp.post("/events")
@doors.needs(TRAINER)
def tell_event() -> Response | tuple[str, int]:
    """Show whom it concerns or, with the second key, enter it; a refusal keeps everything that was typed."""
    fields = EventFields(**(chosen(EventFields, request.form) | {"note": request.form.get("note", "")[: 2 * LONGEST]}))
    if request.form.get("act") != "enter":
        return _look(fields, None)
    opened = rooms()
    try:
        with opened.record.writing() as writing:
            roster = gather(writing, opened.bank, on=writing.today())
            event = read_event(writing, opened.bank, roster, fields)
            made = enter(
                writing,
                event,
                ticked=request.form.getlist("people"),
                seen=request.form.get("seen", ""),
                by=g.person.key,
            )
    except (UsageError, RecordError) as error:
        return _look(fields, error)
    first, last = made[0].number, made[-1].number
    return redirect(url_for("desk.events_made", first=first, last=last, machine=fields.machine or None), 303)


def _look(fields: EventFields, refused: UsageError | RecordError | None) -> tuple[str, int]:
    opened = rooms()
    ticked = request.form.getlist("people") if refused else None
    sentence: Sentence | None = refused.sentence if refused else None
    status, event = refused.status if refused else 200, None
    with opened.record.reading() as reading:
        roster = gather(reading, opened.bank, on=reading.today())
        try:
            event = read_event(reading, opened.bank, roster, fields)
        except (UsageError, RecordError) as error:
            sentence, status = error.sentence, error.status
    if event is not None and request.form.get("seen", "") != event.seen:
        ticked = None
    page = event_page(opened.bank, roster, fields, event, ticked=ticked, refusal=sentence)
    return render_template("desk/event.html", page=page), status


@bp.get("/events/made")
@doors.needs(TRAINER)
def events_made() -> str:
    """Show the entries that an event made."""
    first, last = (min(request.args.get(name, 0, type=int), MOST_NUMBER) for name in ("first", "last"))
    with rooms().record.reading() as reading:
        entries = services.read_made(reading, first, last)
        named = known(reading, entries)
    return render_template(
        "desk/event_made.html", page=event_made_page(entries, named, request.args.get("machine", ""))
    )
