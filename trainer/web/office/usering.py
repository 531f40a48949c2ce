"""Who may use desk and office: the list, one person's doors, and the acts on them. Every act asks for its reason."""

from collections.abc import Callable
from dataclasses import dataclass

from flask import g, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from trainer.errors import Missing, RecordError, UsageError
from trainer.records import doorkeeping, people
from trainer.records.work import Writing
from trainer.web.access import OFFICER, doors
from trainer.web.office.userpages import Secret, user_page, users_page
from trainer.web.office.views import bp
from trainer.web.rooms import rooms
from trainer.web.words import _
from trainer.wording import Sentence, say

Shown = str | Response | tuple[str, int]


@dataclass(frozen=True, slots=True, kw_only=True)
class Act:
    """One act on a person's doors: who, why, which role, which login."""

    person: str
    by: str
    reason: str
    role: str
    login: str


def _give(w: Writing, act: Act) -> None:
    doorkeeping.give_role(w, act.person, act.role, by=act.by, reason=act.reason)


def _withdraw(w: Writing, act: Act) -> None:
    doorkeeping.withdraw_role(w, act.person, act.role, by=act.by, reason=act.reason)


def _lend(w: Writing, act: Act) -> Secret:
    password = doorkeeping.lend_password(w, act.person, login=act.login, by=act.by, reason=act.reason)
    return Secret(
        title=_("Password for the first sign-in"),
        value=password,
        note=_(
            "It is shown this once. Hand it over in person. It works for 72 hours, until a password of their own is chosen."
        ),
    )


def _pin(w: Writing, act: Act) -> Secret:
    pin = doorkeeping.reset_pin(w, act.person, by=act.by, reason=act.reason)
    return Secret(
        title=_("New PIN for the kiosk"),
        value=pin,
        note=_("It is shown this once. Hand it over in person; the old PIN works no more."),
    )


def _end(w: Writing, act: Act) -> None:
    doorkeeping.end_sessions(w, act.person, by=act.by, reason=act.reason)


ACTS: dict[str, Callable[[Writing, Act], Secret | None]] = {
    "give": _give,
    "withdraw": _withdraw,
    "password": _lend,
    "pin": _pin,
    "sessions": _end,
}


@bp.get("/users")
@doors.needs(OFFICER)
def users() -> str:
    """Show who may use desk and office, or find somebody who may not yet."""
    who = request.args.get("who", "").strip()[:100]
    with rooms().record.reading() as reading:
        found = doorkeeping.users(reading)
        others = [one for one in people.find(reading, who) if one.status == people.ACTIVE] if who else []
        names = {one.key: one.name for one in people.all_people(reading)}
    page = users_page(found, names, who=who, others=others, wanted=request.args.get("page", "1"))
    return render_template("office/users.html", page=page)


@bp.get("/users/<key>")
@doors.needs(OFFICER)
def user(key: str) -> str:
    """Show one person's doors."""
    return _shown(key)


@bp.post("/users/<key>")
@doors.needs(OFFICER)
def act_on_user(key: str) -> Shown:
    """Do one act; a secret that it made is shown on the answer alone and never again."""
    form = request.form
    given = {name: form.get(name, "")[:1000] for name in ("reason", "role", "login")}
    try:
        with rooms().record.writing() as writing:
            secret = _chosen(form.get("act", ""))(writing, Act(person=key, by=g.person.key, **given))
    except Missing:
        raise
    except (UsageError, RecordError) as error:
        return _shown(key, refusal=error.sentence, given={**given, "act": form.get("act", "")}), error.status
    if secret is not None:
        return _shown(key, secret=secret)
    return redirect(url_for("office.user", key=key), 303)


def _chosen(act: str) -> Callable[[Writing, Act], Secret | None]:
    if act not in ACTS:
        raise UsageError(say("Choose what to do."))
    return ACTS[act]


def _shown(
    key: str, *, refusal: Sentence | None = None, secret: Secret | None = None, given: dict[str, str] | None = None
) -> str:
    with rooms().record.reading() as reading:
        found = doorkeeping.user(reading, key)
        names = {one.by: people.must(reading, one.by).name for one in found.held if one.by and len(one.by) == 32}
    page = user_page(found, names, me=g.person.key, refusal=refusal, secret=secret, given=given or {})
    return render_template("office/user.html", page=page)
