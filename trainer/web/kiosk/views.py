"""The kiosk's views beside a sitting: start, my sheets, the keys in the head, pausing, going away."""

from datetime import datetime, timedelta

from flask import g, make_response, redirect, render_template, request, session, url_for
from werkzeug.datastructures import ImmutableMultiDict
from werkzeug.wrappers import Response

from trainer.records import access, coaching, sittings
from trainer.records.standing import standings
from trainer.web import language
from trainer.web.access import LEARNER, doors, enter, leave
from trainer.web.kiosk import place, work
from trainer.web.kiosk.blueprint import bp
from trainer.web.kiosk.enrolment import not_enrolled
from trainer.web.kiosk.forms import PinForm, SignInForm, clean_code, looks_like_badge, pressed
from trainer.web.kiosk.frames import GRACE_SECONDS, frame, my_boxes, plant_boxes
from trainer.web.kiosk.mine import mine_page
from trainer.web.kiosk.pages import NoticePage, PausePage, StartPage, TonguesPage
from trainer.web.kiosk.proving import prove_again, proved, where
from trainer.web.rooms import rooms
from trainer.web.standings import told_standings
from trainer.web.words import _, ngettext
from trainer.wording import Sentence

WIPE_SECONDS = 20
SWITCHES = {"swap": "swapped", "contrast": "contrast"}
KEPT_WORDS = 800  # of a report that is being written when the language is changed; a cookie holds no more


@bp.route("/", methods=["GET", "POST"])
@doors.open
def start() -> Response | str | tuple[str, int]:
    """Show the first sheet, or let somebody in; somebody who is in already goes to their sheets."""
    if _overdue():
        sign_out_now()
        return redirect(url_for("kiosk.start"), 303)
    if g.kiosk is None:
        return not_enrolled()
    if g.person is not None and LEARNER in g.roles:
        return redirect(url_for("kiosk.mine"), 303)
    form = SignInForm()
    if "press" in request.form:  # the keypad of a glass without script; a PIN is never put in the cookie
        return _start_page(form.number.data, pressed(form.pin.data or "", request.form["press"]))
    if not form.is_submitted():
        return _start_page()
    if not form.validate():
        return _start_page(form.number.data, refusal=form.fault()), 422
    try:
        person = proved(form.number.data, form.pin.data)
    except access.SignInRefused as error:
        return _start_page(form.number.data, refusal=error.sentence), error.status
    enter(person, door="kiosk", now=rooms().clock.now(), place=where())
    return redirect(url_for("kiosk.answers"), 303)


@bp.get("/sheets")
@doors.needs(LEARNER)
def mine() -> str:
    """Show what is waiting for the person who signed in."""
    with rooms().record.reading() as r:
        waiting, open_ones = work.waiting_for(r, g.person.key), sittings.open_for(r, g.person.key)
        stands = told_standings(standings(r, rooms().bank, on=r.today(), person=g.person.key))
        page = mine_page(waiting, open_ones, stands, coaching.waiting(r, g.person.key))
    return render_template("kiosk/mine.html", page=page)


@bp.post("/aside")
@doors.open
def aside() -> Response:
    """Do what a key in the head says, and keep what was typed on the sheet below it."""
    to = request.form.get("to", "")
    _keep_typed(request.form)
    place.remember_back()
    if to.startswith("language:"):
        language.choose(to.partition(":")[2])
    elif to in SWITCHES:
        session[SWITCHES[to]] = not session.get(SWITCHES[to])
    elif to in {"hazard", "tongues", "wipe", "ask"}:
        return redirect(url_for(f"kiosk.{to}"), 303)
    elif g.person is not None and to in {"pause", "away"}:
        return _step_away(to)
    if "words" in request.form:
        session["words"] = request.form["words"][:KEPT_WORDS]
        session["wish"] = request.form.get("wish", "")[:16]
    return redirect(place.inside(request.form.get("back")) or place.back(), 303)


@bp.get("/language")
@doors.open
def tongues() -> str:
    """Show every language on offer, where there are more than a key in the head can hold."""
    made = frame(_("Choose your language"), name=_("language"), boxes=plant_boxes())
    return render_template("kiosk/tongues.html", page=TonguesPage(frame=made))


@bp.get("/pause")
@doors.needs(LEARNER)
def paused() -> Response | str:
    """Show that the sitting is paused, and nothing of it."""
    if not session.get("paused"):
        return redirect(place.back(), 303)
    return _pause_page()


@bp.post("/pause")
@doors.needs(LEARNER)
def go_on() -> Response | str | tuple[str, int]:
    """Go on where it was left, once the person's own PIN was given."""
    form = PinForm()
    if "press" in request.form:
        return _pause_page(pin=pressed(form.pin.data or "", request.form["press"]))
    if not form.validate():
        return _pause_page(refusal=str(form.pin.errors[0]) if form.pin.errors else ""), 422
    try:
        prove_again(form.pin.data)
    except access.SignInRefused as error:
        return _pause_page(refusal=error.sentence), error.status
    session.pop("paused", None)
    place.resume_watch()
    return redirect(place.back(), 303)


@bp.route("/away", methods=["GET", "POST"])
@doors.needs(LEARNER)
def away() -> Response:
    """Ask whether anybody is still there; a post says so and goes back to the sheet."""
    if request.method == "POST":
        session.pop("away", None)
        place.stay()
        place.resume_watch()
        return redirect(place.back(), 303)
    if not place.stays_left():  # a glass without script comes here by itself
        sign_out_now()
        return redirect(url_for("kiosk.start"), 303)
    session.setdefault("away", rooms().clock.now().isoformat())
    page = _notice(
        _("Are you still there?"),
        _("If nobody presses the key, you are signed out in %(count)s seconds.", count=GRACE_SECONDS),
        (_("What you saved is kept. Next time it goes on at the same sheet."), _still(place.stays_left())),
        keys=(("now", url_for("kiosk.away"), _("I am here")), ("", url_for("kiosk.sign_out"), _("Sign out"))),
        name=_("still there?"),
    )
    return _for_a_while(page, GRACE_SECONDS, url_for("kiosk.start"))


@bp.post("/badge")
@doors.open
def badge_read() -> Response:
    """Take a badge that was read while somebody is signed in; whose it is, is not shown."""
    code = clean_code(request.form.get("code"))
    _keep_typed(request.form)
    place.remember_back()
    own = g.person is not None and code in {g.person.badge, g.person.number}
    session["badge"] = "own" if own else "other"
    return redirect(url_for("kiosk.badge"), 303)


@bp.get("/badge")
@doors.needs(LEARNER)
def badge() -> str:
    """Say whose turn it is after a badge was read in the middle of a sheet."""
    if session.get("badge") == "own":
        title, lead, text = _("Is this you?"), _("That was your own badge. It changed nothing."), ""
    else:
        title, lead = _("Another badge was read"), _("That was not your badge. It changed nothing.")
        text = _("Does somebody else want the kiosk? Then sign out first. Your place is kept.")
    keys = (("now", url_for("kiosk.go_back"), _("Go on")), ("", url_for("kiosk.sign_out"), _("Sign out")))
    return _notice(title, lead, (text,) if text else (), keys=keys, name=_("badge"))


@bp.post("/back")
@doors.needs(LEARNER)
def go_back() -> Response:
    """Go back to the sheet that was left."""
    session.pop("badge", None)
    return redirect(place.back(), 303)


@bp.get("/wipe")
@doors.open
def wipe() -> Response:
    """Show a sheet on which nothing can be pressed, so that the glass can be wiped."""
    page = _notice(
        _("Wipe the glass now"),
        _("Nothing can be pressed for %(count)s seconds.", count=WIPE_SECONDS),
        name=_("wipe"),
    )
    return _for_a_while(page, WIPE_SECONDS, place.back())


@bp.post("/leave")
@doors.open
def sign_out() -> Response:
    """Sign out; the glass forgets everything, also the language, which the next person chooses."""
    sign_out_now()
    return redirect(url_for("kiosk.start"), 303)


def sign_out_now() -> None:
    """End the session at this kiosk."""
    leave()
    session.pop("language", None)
    for kept in SWITCHES.values():
        session.pop(kept, None)


def _overdue() -> bool:
    """Say whether the kiosk asked if somebody is there and nobody answered in time."""
    asked = session.get("away")
    if g.person is None or not asked:
        return False
    return rooms().clock.now() - datetime.fromisoformat(asked) >= timedelta(seconds=GRACE_SECONDS - 1)


def _keep_typed(form: ImmutableMultiDict[str, str]) -> None:
    if form.get("number") and form.get("at") and not looks_like_badge(form["number"]):
        place.keep_draft(form["at"], form, tried=False)


def _step_away(to: str) -> Response:
    place.hold_watch()
    if to == "pause":
        session["paused"] = True
        return redirect(url_for("kiosk.paused"), 303)
    if not place.stays_left():
        sign_out_now()
        return redirect(url_for("kiosk.start"), 303)
    session["away"] = rooms().clock.now().isoformat()
    return redirect(url_for("kiosk.away"), 303)


def _still(left: int) -> str:
    return ngettext("You can stay %(num)s more time.", "You can stay %(num)s more times.", left)


def _start_page(number: str = "", pin: str = "", refusal: Sentence | str = "") -> str:
    made = frame(_("Start here"), name=_("start"), boxes=plant_boxes(), swap=True, wipe=True)
    page = StartPage(
        frame=made, number=number, pin=pin, refusal=refusal, now="pin" if number and not refusal else "number"
    )
    return render_template("kiosk/start.html", page=page)


def _pause_page(pin: str = "", refusal: Sentence | str = "") -> str:
    made = frame(_("Paused"), name=_("paused"), boxes=my_boxes(), swap=True, ask=False)
    with rooms().record.reading() as r:
        row = next(iter(sittings.open_for(r, g.person.key)), None)
    where = (
        _("It goes on at sheet %(number)s of %(count)s.", number=row.at, count=len(row.paper["sheets"])) if row else ""
    )
    return render_template("kiosk/pause.html", page=PausePage(frame=made, place=where, refusal=refusal, pin=pin))


def _notice(
    title: str, lead: str, text: tuple[str, ...] = (), *, name: str, keys: tuple[tuple[str, str, str], ...] = ()
) -> str:
    boxes = my_boxes() if g.person else plant_boxes()
    if keys:
        made = frame(title, name=name, boxes=boxes)
    else:  # then there is none in the head either
        made = frame(title, name=name, boxes=boxes, hazard=False, tongues=())
    return render_template("kiosk/notice.html", page=NoticePage(frame=made, lead=lead, text=text, keys=keys))


def _for_a_while(page: str, seconds: int, following: str) -> Response:
    """Let a sheet stand for some seconds, then lead on by itself, with script or without."""
    answer = make_response(page)
    answer.headers["Refresh"] = f"{seconds}; url={following}"
    return answer
