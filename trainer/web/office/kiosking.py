"""The kiosks of the plant: which devices they are, a code for another one, a new name, withdrawing one."""

from dataclasses import dataclass

from flask import g, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from trainer.errors import RecordError, UsageError
from trainer.records import kiosks, people
from trainer.records.kiosks import KioskRow
from trainer.records.work import Writing
from trainer.web.access import OFFICER, doors
from trainer.web.office.frames import office_frame
from trainer.web.office.views import bp
from trainer.web.rooms import rooms
from trainer.web.sheet import Box, Frame, Pages, moment, turn
from trainer.web.words import _, ngettext
from trainer.wording import Sentence, say


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One kiosk in the list: its name, its state in words, and since when by whose hand."""

    name: str
    state: str
    since: str


@dataclass(frozen=True, slots=True, kw_only=True)
class KiosksPage:
    """The kiosks; ``code`` is what was just made and is shown this once."""

    frame: Frame
    answer: str
    lines: tuple[Line, ...]
    pages: Pages
    used: tuple[tuple[str, str], ...]
    code: str
    refusal: Sentence | None
    given: dict[str, str]


@bp.get("/kiosks", endpoint="kiosks")
@doors.needs(OFFICER)
def kiosk_list() -> str:
    """Show the kiosks."""
    return _shown()


@bp.post("/kiosks")
@doors.needs(OFFICER)
def act_on_kiosk() -> str | Response | tuple[str, int]:
    """Make a code, rename or withdraw; the code is shown on the answer alone."""
    given = {name: request.form.get(name, "")[:500] for name in ("act", "name", "kiosk", "reason")}
    try:
        with rooms().record.writing() as w:
            code = _act(w, given)
    except (UsageError, RecordError) as error:
        return _shown(refusal=error.sentence, given=given), error.status
    return _shown(code=code) if code else redirect(url_for("office.kiosks"), 303)


def _act(w: Writing, given: dict[str, str]) -> str:
    act, by = given["act"], g.person.key
    if act == "invite":
        return kiosks.invite(w, given["name"], by=by)
    if act == "rename":
        kiosks.rename(w, given["kiosk"], given["name"], by=by)
    elif act == "withdraw":
        kiosks.withdraw(w, given["kiosk"], by=by, reason=given["reason"])
    else:
        raise UsageError(say("Choose what to do."))
    return ""


def _shown(*, code: str = "", refusal: Sentence | None = None, given: dict[str, str] | None = None) -> str:
    with rooms().record.reading() as r:
        rows = kiosks.all_of(r)
        names = {one.key: one.name for one in people.all_people(r)}
    used = [row for row in rows if row.state != kiosks.WITHDRAWN]
    enrolled = sum(row.state == kiosks.ENROLLED for row in rows)
    some, pages = turn(rows, request.args.get("page", "1"), "office.kiosks")
    page = KiosksPage(
        frame=office_frame("office.kiosks", _("Kiosks"), Box(label=_("Enrolled"), value=str(enrolled))),
        answer=ngettext("%(num)s device is enrolled.", "%(num)s devices are enrolled.", enrolled),
        lines=tuple(_line(row, names) for row in some),
        pages=pages,
        used=tuple((row.id, row.name) for row in used),
        code=f"{code[:5]} {code[5:]}" if code else "",
        refusal=refusal,
        given={name: (given or {}).get(name, "") for name in ("act", "name", "kiosk", "reason")},
    )
    return render_template("office/kiosks.html", page=page)


def _line(row: KioskRow, names: dict[str, str]) -> Line:
    by = names.get(row.withdrawn_by or row.invited_by, "")
    if row.state == kiosks.WITHDRAWN:
        state, at = _("withdrawn"), row.withdrawn_at
    elif row.state == kiosks.ENROLLED:
        state, at = _("enrolled"), row.enrolled_at
    elif row.state == kiosks.INVITED:
        state, at = _("waits for its code to be typed"), row.invited_at
    else:
        state, at = _("its code was not used in time"), row.invited_at
    return Line(
        name=row.name, state=state, since=_("%(moment)s, by %(name)s", moment=moment(at or row.invited_at), name=by)
    )
