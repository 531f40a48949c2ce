"""Making a device a kiosk: the sheet of one that is none yet, the code, and the cookie that holds its token."""

from flask import current_app, g, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from trainer.records import access, kiosks, people
from trainer.web.access import OFFICER, doors
from trainer.web.kiosk.blueprint import COOKIE, bp
from trainer.web.kiosk.forms import EnrolForm, pressed
from trainer.web.kiosk.frames import frame, plant_boxes
from trainer.web.kiosk.pages import EnrolPage
from trainer.web.rooms import rooms
from trainer.web.words import _
from trainer.wording import Sentence

TRIED = "enrolled"  # in the address after a demo plant gave a token: who keeps no cookies is not led round in a circle
KEPT_FOR = 400 * 24 * 60 * 60  # s; browsers keep no cookie longer, so the first sheet sets it anew


def here() -> str:
    """Name this kiosk as sittings, questions and reports keep it."""
    return g.kiosk.name if g.kiosk is not None else "kiosk"


def not_enrolled(code: str = "", refusal: Sentence | str = "") -> Response | str:
    """Show that badge and PIN do nothing here and what to do; at a demo plant, enrol the browser instead."""
    new = COOKIE not in request.cookies and TRIED not in request.args
    if current_app.config["ENROLS_ANYBODY"] and new and request.method == "GET":
        return _enrol_demo()
    made = frame(_("This device is not enrolled"), name=_("not enrolled"), boxes=plant_boxes(), swap=True)
    return render_template("kiosk/enrol.html", page=EnrolPage(frame=made, code=code, refusal=refusal))


@bp.post("/enrol")
@doors.open
def enrol() -> Response | str | tuple[Response | str, int]:
    """Take the code that an officer made for this device."""
    if g.kiosk is not None:
        return redirect(url_for("kiosk.start"), 303)
    form = EnrolForm()
    if "press" in request.form:
        return not_enrolled(pressed(form.code.data or "", request.form["press"]))
    if not form.validate():
        return not_enrolled(refusal=str(form.code.errors[0]) if form.code.errors else ""), 422
    try:
        with rooms().record.writing() as w:
            token = kiosks.redeem(w, form.code.data, place=request.remote_addr or "unknown")
    except access.SignInRefused as error:
        return not_enrolled(form.code.data, error.sentence), error.status
    g.token = token
    return redirect(url_for("kiosk.start"), 303)


@bp.get("/enrol")
@doors.open
def enrol_again() -> Response:
    """Lead a reload of the code's sheet to the first sheet."""
    return redirect(url_for("kiosk.start"), 303)


@bp.after_request
def keep_token(answer: Response) -> Response:
    """Hand over a new token; on the first sheet, let the browser keep an old one for another while."""
    token = g.get("token") or (request.cookies.get(COOKIE) if g.get("kiosk") and request.path == "/" else None)
    if token:
        answer.set_cookie(
            COOKIE,
            token,
            max_age=KEPT_FOR,
            httponly=True,
            samesite="Strict",
            secure=rooms().settings.secure_cookies,
        )
    return answer


def _enrol_demo() -> Response:
    with rooms().record.writing() as w:
        officer = next(row for row in people.everybody(w) if OFFICER in row.roles)
        g.token = kiosks.enrol_demo(w, by=officer.key)
    return redirect(url_for("kiosk.start", enrolled="yes"), 303)
