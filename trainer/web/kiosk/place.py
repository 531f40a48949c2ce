"""What a session at the kiosk remembers beside who it is: where to go back to, what was typed, how long a sheet took.

A cookie holds it, signed. No secret goes in.
"""

import re
from collections.abc import Mapping
from datetime import datetime, timedelta
from types import MappingProxyType

from flask import request, session, url_for

from trainer.web.kiosk.forms import LONGEST_TYPED
from trainer.web.rooms import rooms
from trainer.web.words import _l

MOST_STAYS = 10  # WCAG 2.2 (2023), 2.2.1: a time limit can be extended at least ten times
_INSIDE = re.compile(r"/(?:[A-Za-z0-9_-]+/?)*")
NO_SHEETS = frozenset(
    {"/pause", "/away", "/badge", "/back", "/wipe", "/language", "/hazard", "/hazard/kept", "/ask", "/ask/kept"}
)
OTHER_DOORS = ("/desk", "/office", "/sign-in", "/sign-out", "/static")
NOTICES = MappingProxyType(
    {
        "badge": _l("A badge was read. It changed nothing here."),
        "answer-first": _l("Save an answer first."),
        "answers-open": _l("This sheet is not answered yet."),
    }
)


def inside(path: str | None) -> str | None:
    """Return ``path`` if it is a sheet of the kiosk, else None."""
    if path and _INSIDE.fullmatch(path) and not path.startswith(OTHER_DOORS):
        return path
    return None


def remember_back() -> None:
    """Keep the sheet that a key in the head was pressed on."""
    path = inside(request.form.get("back"))
    if path is not None and path not in NO_SHEETS:
        session["back"] = path


def back() -> str:
    """Return the sheet to go back to."""
    return inside(session.get("back")) or url_for("kiosk.start")


def notify(code: str) -> None:
    """Let the next sheet say something, once."""
    session["notice"] = code


def notice() -> str:
    """Return what the last act has to say, and forget it."""
    return str(NOTICES.get(session.pop("notice", ""), ""))


def spot(sitting: str, number: int) -> str:
    """Name a sheet of a sitting."""
    return f"{sitting}/{number}"


def keep_draft(at: str, form: Mapping[str, str], *, tried: bool) -> None:
    """Keep what was typed on a sheet; ``tried`` when it was sent as an answer and could not be taken."""
    session["draft"] = {
        "at": at,
        "number": form.get("number", "")[:LONGEST_TYPED],
        "unit": form.get("unit", "")[:8],
        "tried": tried,
    }


def draft(at: str) -> dict[str, str]:
    """Return what was typed on a sheet and is not an answer yet; empty when there is nothing."""
    kept = session.get("draft")
    return dict(kept) if kept and kept.get("at") == at else {}


def drop_draft() -> None:
    """Forget what was typed: it was saved."""
    session.pop("draft", None)
    move_on()


def stay() -> None:
    """Count that somebody said they are there and did nothing else yet."""
    session["stays"] = session.get("stays", 0) + 1


def stays_left() -> int:
    """Return how often one may still say so before the kiosk signs out: ten times on end, fresh after each answer."""
    return max(0, MOST_STAYS - int(session.get("stays", 0)))


def move_on() -> None:
    """Note that the sitting goes on."""
    session.pop("stays", None)


def watch(at: str) -> None:
    """Start counting the time on a sheet, unless it is counted already."""
    held = session.get("watch")
    if not held or held["at"] != at:
        session["watch"] = {"at": at, "since": rooms().clock.now().isoformat(), "spent": 0}


def hold_watch() -> None:
    """Stop counting: the person is called away."""
    held = session.get("watch")
    if held and held["since"]:
        session["watch"] = {**held, "since": "", "spent": _spent(held)}


def resume_watch() -> None:
    """Go on counting."""
    held = session.get("watch")
    if held and not held["since"]:
        session["watch"] = {**held, "since": rooms().clock.now().isoformat()}


def took_ms(at: str) -> int:
    """Return how long a sheet has been on the glass, pauses left out, in ms; 0 when that is not known."""
    held = session.get("watch")
    return _spent(held) if held and held["at"] == at else 0


def _spent(held: Mapping[str, str | int]) -> int:
    if not held["since"]:
        return int(held["spent"])
    passed = rooms().clock.now() - datetime.fromisoformat(str(held["since"]))
    return int(held["spent"]) + max(0, passed // timedelta(milliseconds=1))
