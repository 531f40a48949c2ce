"""Who may come through which door.

Every view says who it is for: ``@doors.needs(...)`` names one or more roles, ``@doors.open`` lets anybody in. A view
that says nothing stops the application from starting. A PIN opens the kiosk alone; a trainer's or officer's password
opens desk and office as far as the person's roles go.
"""

from collections.abc import Callable
from datetime import datetime, timedelta
from typing import Any, TypeVar

from flask import Flask, abort, current_app, g, redirect, request, session, url_for
from werkzeug.wrappers import Response

from trainer.records import people, sessions
from trainer.web.rooms import rooms

View = TypeVar("View", bound=Callable[..., Any])

CHOOSING = "choosing"  # the door of who came in with a password for one use
ANYBODY = frozenset({"anybody"})
LEARNER, TRAINER, OFFICER = "learner", "trainer", "officer"
ROLES = frozenset({LEARNER, TRAINER, OFFICER})
IDLE = {"kiosk": timedelta(minutes=30), "office": timedelta(minutes=60)}  # the kiosk's own script warns long before
LONGEST = timedelta(hours=12)
PLACE = ("language", "swapped", "contrast")  # what belongs to the place, not to the person


class Doors:
    """Marks views with the roles they are for."""

    @staticmethod
    def needs(*roles: str) -> Callable[[View], View]:
        """Let in people who have one of ``roles``."""
        unknown = set(roles) - ROLES
        if unknown or not roles:
            raise ValueError(f"unknown roles {sorted(unknown)}; there are {sorted(ROLES)}")

        def dress(view: View) -> View:
            view.__roles__ = frozenset(roles)  # type: ignore[attr-defined]
            return view

        return dress

    @staticmethod
    def open(view: View) -> View:
        """Let anybody in."""
        view.__roles__ = ANYBODY  # type: ignore[attr-defined]
        return view


doors = Doors()


def enter(person: people.PersonRow, *, door: str, now: datetime, place: str = "") -> None:
    """Start a fresh session for a person who proved who they are: nothing of the old one survives but the place's own choices."""
    leave()
    with rooms().record.writing() as writing:
        token = sessions.begin(writing, person=person.key, door=door, place=place)
    session["person"], session["door"], session["token"] = person.key, door, token
    session["since"] = session["seen"] = now.isoformat()
    session.permanent = door != "kiosk"


def leave() -> None:
    """End the session, here and in the record; only the place's own choices stay."""
    if token := session.get("token"):
        with rooms().record.writing() as writing:
            sessions.end(writing, token)
    kept = {key: session[key] for key in PLACE if key in session}
    session.clear()
    session.update(kept)


def granted(person: people.PersonRow, door: str) -> frozenset[str]:
    """Return the roles that a session through ``door`` gives: a PIN at the kiosk never opens desk or office.

    Who came in with a password for one use has none until they have chosen their own.
    """
    if door == CHOOSING:
        return frozenset()
    return frozenset({LEARNER}) if door == "kiosk" else person.roles - {LEARNER}


def roles_of(endpoint: str) -> frozenset[str]:
    """Return the roles a view is for; raises LookupError for a view that says nothing."""
    view = current_app.view_functions[endpoint]
    if endpoint == "static" or endpoint.endswith(".static"):
        return ANYBODY
    found: frozenset[str] | None = getattr(view, "__roles__", None)
    if found is None:
        raise LookupError(f"the view {endpoint} does not say who it is for")
    return found


def init_app(app: Flask) -> None:
    """Guard every route of ``app``; refuses to start when a view does not say who it is for."""
    with app.app_context():
        for endpoint in app.view_functions:
            roles_of(endpoint)
    app.before_request(_identify)
    app.before_request(_guard)


def _identify() -> None:
    g.person, g.roles = None, frozenset()
    key = session.get("person")
    if key is None or request.endpoint == "static":
        return
    now = rooms().clock.now()
    door = session.get("door", "kiosk")
    if _stale(now, door):
        leave()
        return
    with rooms().record.reading() as reading:
        person = people.get(reading, key) if sessions.is_open(reading, session.get("token", ""), key) else None
    if person is None or person.status != "active":
        leave()
        return
    session["seen"] = now.isoformat()
    g.person, g.roles = person, granted(person, door)


def _stale(now: datetime, door: str) -> bool:
    seen, since = (datetime.fromisoformat(session[key]) for key in ("seen", "since"))
    return now - seen > IDLE.get(door, IDLE["office"]) or now - since > LONGEST


def _guard() -> Response | None:
    if request.endpoint is None:  # no such page: the error page says so
        return None
    needed = roles_of(request.endpoint)
    if needed is ANYBODY or needed & g.roles:
        return None
    if g.person is not None and session.get("door") == CHOOSING:
        return redirect(url_for("signin.choose_password"), 303)
    if g.person is not None:
        abort(403)
    if LEARNER in needed:
        return redirect(url_for("kiosk.start"), 303)
    return redirect(url_for("signin.sign_in", to=request.path if request.method == "GET" else None), 303)
