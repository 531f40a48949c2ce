"""The desk's views of talks: prepare one, show its sheets on the wall, badge in one after another."""

import secrets
from typing import Any

from flask import g, redirect, render_template, request, session, url_for
from werkzeug.wrappers import Response

from trainer.errors import Missing, RecordError, TrainerError, UsageError
from trainer.records import ledger, talks
from trainer.records.ledger import EntryKind
from trainer.web.access import TRAINER, doors
from trainer.web.desk.blueprint import bp
from trainer.web.desk.talks import BACK, Prepared, begun, door_page, prepare, sheets_of, talks_page
from trainer.web.desk.wall import wall_page
from trainer.web.listing import Wish
from trainer.web.rooms import rooms
from trainer.web.roster import known
from trainer.web.sheet import chosen
from trainer.web.words import ngettext
from trainer.wording import Sentence, say

SEED_BITS = 32
LONGEST = 60  # characters of a badge, a number or a distance


@bp.get("/talks", endpoint="talks")
@doors.needs(TRAINER)
def all_talks() -> str:
    """Show what can be talked about, and the talks that were held."""
    opened = rooms()
    with opened.record.reading() as reading:
        entries = list(ledger.entries(reading, kind=EntryKind.ATTENDED, since=reading.today() - BACK))
        people = known(reading, entries)
    topic = request.args.get("item", "")[:LONGEST]
    page = talks_page(opened.bank, entries, people, Wish(**chosen(Wish, request.args)), topic=topic, going_on=_kept())
    return render_template("desk/talks.html", page=page)


@bp.post("/talks")
@doors.needs(TRAINER)
def open_talk() -> Response:
    """Open a talk; this browser keeps it until another one is opened."""
    data: dict[str, str | int] = {"id": secrets.token_hex(8), "seed": secrets.randbits(SEED_BITS), "begun": ""}
    data |= {name: request.form.get(name, "")[:LONGEST] for name in ("item", "drill")}
    session["talk"] = prepare(rooms().bank, data, presenter=g.person.key).as_data()
    return redirect(url_for("desk.talk_door"), 303)


@bp.get("/talks/door")
@doors.needs(TRAINER)
def talk_door() -> str:
    """Show who is here."""
    return _door()


@bp.post("/talks/door")
@doors.needs(TRAINER)
def badge_in() -> Response | tuple[str, int]:
    """Note who badged in, or that the talk begins now."""
    prepared = _must()
    if request.form.get("act") == "begin":
        session["talk"] = begun(prepared, rooms().clock.now()).as_data()
        return redirect(url_for("desk.talk_sheet", number=1), 303)
    typed = request.form.get("badge", "")[:LONGEST]
    try:
        with rooms().record.writing() as writing:
            talks.badge_in(writing, prepared.talk, typed)
    except (UsageError, RecordError) as error:
        return _door(typed=typed, refusal=error.sentence), error.status
    return redirect(url_for("desk.talk_door"), 303)


@bp.get("/talks/sheets/<int(max=999):number>")
@doors.needs(TRAINER)
def talk_sheet(number: int) -> str:
    """Show one sheet on the wall."""
    prepared, bank = _must(), rooms().bank
    sheets = sheets_of(bank, prepared)
    if not 1 <= number <= len(sheets):
        raise Missing(say("There is no sheet {number}. This paper has {count}.", number=number, count=len(sheets)))
    with rooms().record.reading() as reading:
        here = len(talks.attendance(reading, prepared.talk.id))
    page = wall_page(
        bank,
        prepared.talk.topic,
        sheets[number - 1],
        len(sheets),
        says=request.args.get("says", "")[:LONGEST],
        revealed=request.args.get("show") == "answer",
        here=ngettext("%(num)s is here", "%(num)s are here", here),
    )
    return render_template("desk/wall.html", page=page)


def _door(**more: Any) -> str:
    prepared = _must()
    with rooms().record.reading() as reading:
        entries = talks.attendance(reading, prepared.talk.id)
        people = known(reading, entries)
    return render_template("desk/door.html", page=door_page(prepared, entries, people, **more))


def _must() -> Prepared:
    kept = _kept()
    if kept is None:
        raise Missing(_none())
    return kept


def _none() -> Sentence:
    return say("No talk is open here. Open one first.")


def _kept() -> Prepared | None:
    """Return the talk that this browser keeps, if its presenter is signed in and the bank still has it."""
    data = session.get("talk")
    if not data:
        return None
    try:
        return prepare(rooms().bank, data, presenter=g.person.key)
    except TrainerError:
        return None
