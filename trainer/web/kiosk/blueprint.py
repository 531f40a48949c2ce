"""The kiosk's blueprint, and what holds for each of its sheets."""

from flask import Blueprint, g, redirect, request, session, url_for
from werkzeug.wrappers import Response

from trainer.records import kiosks
from trainer.web.access import leave
from trainer.web.rooms import rooms

bp = Blueprint("kiosk", __name__)
COOKIE = "kiosk"  # holds the device's token; the record keeps its digest

WHILE_PAUSED = frozenset(
    f"kiosk.{name}"
    for name in (
        "paused",
        "go_on",
        "sign_out",
        "aside",
        "away",
        "start",
        "hazard",
        "reported",
        "hazard_done",
        "tongues",
    )
)


@bp.before_request
def know_kiosk() -> Response | None:
    """Know which enrolled kiosk this is; a session goes on at no other device, nor after its kiosk was withdrawn."""
    token = request.cookies.get(COOKIE, "")
    with rooms().record.reading() as r:
        g.kiosk = kiosks.of_token(r, token) if token else None
    if g.kiosk is None and session.get("door") == "kiosk":
        leave()
        g.person, g.roles = None, frozenset()
        return redirect(url_for("kiosk.start"), 303)
    return None


@bp.before_request
def keep_paused() -> Response | None:
    """Show nothing of a paused sitting until its person has given the PIN again."""
    if g.person is not None and session.get("paused") and request.endpoint not in WHILE_PAUSED:
        return redirect(url_for("kiosk.paused"), 303)
    return None
