"""Anybody may ask whether a certificate or a card still holds: by its code, and learns what it says and nothing else."""

from flask import Blueprint, make_response, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from trainer.exports import words
from trainer.exports.claims import Shown, State, look_up, plain
from trainer.records.access import look_up_missed, look_up_wait
from trainer.web.access import doors
from trainer.web.filters import day
from trainer.web.rooms import rooms
from trainer.web.words import _l

bp = Blueprint("verify", __name__)
LONGEST = 40  # characters of a code that are looked at
STATES = {
    State.AUTHORISED: ("solid", _l("Authorised"), _l("As it stands today. It may be suspended on any day.")),
    State.NOT: ("struck", _l("Not authorised"), _l("Whatever the paper says: not authorised today.")),
    State.UNKNOWN: (
        "broken",
        _l("Unknown"),
        _l("Nothing that can be relied on is on record. Unknown is not authorised."),
    ),
}


@bp.get("/verify")
@bp.get("/verify/")
@doors.open
def ask() -> Response | str:
    """Ask for a code, or go on to one that was typed."""
    code = request.args.get("code", "").strip()[:LONGEST]
    if code:
        return redirect(url_for("verify.verify", code=plain(code)), 303)
    return render_template("verify.html", shown=None, state=None, told="", today="")


@bp.get("/verify/<code>")
@doors.open
def verify(code: str) -> Response:
    """Say how what a code stands for stands today; the same sheet for each code that is none."""
    opened, place = rooms(), f"verify:{request.remote_addr or 'unknown'}"
    with opened.record.reading() as reading:
        if wait := look_up_wait(reading, place):
            return _waiting(wait)
        shown, today = look_up(reading, opened.bank, code[:LONGEST]), day(reading.today())
    if shown is None:
        with opened.record.writing() as writing:
            look_up_missed(writing, place)
    return _answer(shown, today)


def _answer(shown: Shown | None, today: str) -> Response:
    if shown is None:
        told = _l("There is no such code here. Treat whoever shows it as not authorised, and ask the plant.")
        page = render_template("verify.html", shown=None, state=None, told=told, today=today)
    else:
        page = render_template("verify.html", shown=_named(shown), state=STATES[shown.state], told="", today=today)
    return _quiet(make_response(page, 200 if shown else 404))


def _waiting(seconds: int) -> Response:
    told = _l("Too many codes that are none were tried from here. Try again later.")
    answer = make_response(render_template("verify.html", shown=None, state=None, told=told, today=""), 429)
    answer.headers["Retry-After"] = str(seconds)
    return _quiet(answer)


def _quiet(answer: Response) -> Response:
    answer.headers["X-Robots-Tag"] = "noindex, nofollow"
    return answer


def _named(shown: Shown) -> tuple[str, str, str]:
    """Return name, kind of machine and role as messages."""
    return shown.name, words.MACHINES.get(shown.kind, shown.kind), words.ROLES.get(shown.role, shown.role)
