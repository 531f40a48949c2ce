"""The kiosk's blueprint, and what holds for each of its sheets."""

from flask import Blueprint, g, redirect, request, session, url_for
from werkzeug.wrappers import Response

bp = Blueprint("kiosk", __name__)

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
def keep_paused() -> Response | None:
    """Show nothing of a paused sitting until its person has given the PIN again."""
    if g.person is not None and session.get("paused") and request.endpoint not in WHILE_PAUSED:
        return redirect(url_for("kiosk.paused"), 303)
    return None
