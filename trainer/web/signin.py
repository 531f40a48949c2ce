"""Signing in at desk and office with a password, and signing out."""

from flask import Blueprint, g, redirect, render_template, request, session, url_for
from flask_babel import lazy_gettext as _l
from flask_wtf import FlaskForm
from werkzeug.wrappers import Response
from wtforms import HiddenField, PasswordField, StringField
from wtforms.validators import EqualTo, InputRequired, Length

from trainer.errors import TrainerError
from trainer.records import access as proofs
from trainer.records import people
from trainer.records.doorkeeping import change_password
from trainer.records.hashing import SHORTEST_PASSWORD, is_lent
from trainer.web.access import CHOOSING, OFFICER, TRAINER, doors, enter, leave
from trainer.web.language import choose, translate
from trainer.web.rooms import rooms

bp = Blueprint("signin", __name__)


class SignInForm(FlaskForm):  # type: ignore[misc]
    """Login and password."""

    login = StringField(_l("Login"), [InputRequired(_l("Type your login.")), Length(max=64)])
    password = PasswordField(_l("Password"), [InputRequired(_l("Type your password.")), Length(max=256)])
    to = HiddenField()


class ChooseForm(FlaskForm):  # type: ignore[misc]
    """A password of one's own, twice."""

    password = PasswordField(_l("New password"), [InputRequired(_l("Type your new password.")), Length(max=256)])
    again = PasswordField(
        _l("The same once more"), [EqualTo("password", _l("The two are not the same. Type both again."))]
    )


@bp.route("/sign-in", methods=["GET", "POST"])
@doors.open
def sign_in() -> Response | str | tuple[str, int]:
    """Show the form, or check it and go to the person's first sheet."""
    form = SignInForm(to=request.args.get("to", ""))
    refusal = ""
    if form.validate_on_submit():
        try:
            person, lent = _proved(form)
        except proofs.SignInRefused as error:
            refusal = translate(error.sentence)
        else:
            enter(person, door=CHOOSING if lent else "office", now=rooms().clock.now(), place=_place())
            after = url_for("signin.choose_password") if lent else _next(form.to.data, person.roles)
            return redirect(after, 303)
    return render_template("signin.html", form=form, refusal=refusal), (422 if form.is_submitted() else 200)


def _proved(form: SignInForm) -> tuple[people.PersonRow, bool]:
    """Return who it is, and whether the password was handed out and works this once."""
    with rooms().record.writing() as writing:
        person = proofs.sign_in_password(writing, form.login.data, form.password.data, place=_place())
        return person, is_lent(writing, person.key)


@bp.route("/sign-in/password", methods=["GET", "POST"])
@doors.open
def choose_password() -> Response | str | tuple[str, int]:
    """Let who came in with a password for one use choose their own; nothing else is open to them before."""
    if g.person is None or session.get("door") != CHOOSING:
        return redirect(url_for("signin.sign_in"), 303)
    form, refusal = ChooseForm(), ""
    if form.validate_on_submit():
        try:
            with rooms().record.writing() as writing:
                change_password(writing, g.person.key, form.password.data)
        except TrainerError as error:
            refusal = translate(error.sentence)
        else:
            enter(g.person, door="office", now=rooms().clock.now(), place=_place())
            return redirect(_next("", g.person.roles), 303)
    page = render_template("choose.html", form=form, refusal=refusal, least=SHORTEST_PASSWORD)
    return page, (422 if form.is_submitted() else 200)


@bp.post("/sign-out")
@doors.open
def sign_out() -> Response:
    """End the session and show the door it came through."""
    home = "signin.sign_in" if g.roles & {TRAINER, OFFICER} else "kiosk.start"
    leave()
    return redirect(url_for(home), 303)


@bp.post("/language")
@doors.open
def tongue() -> Response:
    """Take another language at desk and office, and show the same sheet again."""
    choose(request.form.get("language", ""))
    return redirect(inside(request.form.get("back")) or url_for("signin.sign_in"), 303)


def inside(wanted: str | None) -> str | None:
    """Return a path if it is one of the sheets of desk, office, sign-in or verification, else None."""
    if wanted and wanted.startswith(("/desk", "/office", "/sign-in", "/verify")) and "\\" not in wanted:
        return wanted
    return None


def _place() -> str:
    return f"address:{request.remote_addr or 'unknown'}"


def _next(wanted: str | None, roles: frozenset[str]) -> str:
    """Go where the person was headed, if that is a page of ours; else to their first sheet."""
    if wanted and not wanted.startswith("/sign-in") and (path := inside(wanted)):
        return path
    return url_for("desk.week" if TRAINER in roles else "office.questions")
