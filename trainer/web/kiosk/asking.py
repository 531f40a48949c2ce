"""Ask somebody: a named trainer of one's shift; and the answer, shown when one signs in again."""

import re

from flask import g, redirect, render_template, request, session, url_for
from werkzeug.wrappers import Response

from trainer.errors import Missing, TrainerError
from trainer.records import asking, people
from trainer.records.asking import AskedRow, Wish
from trainer.records.people import PersonRow
from trainer.records.work import Reading
from trainer.web.access import LEARNER, doors
from trainer.web.kiosk import place, sheets, work
from trainer.web.kiosk.asidepages import AnswerPage, AskPage
from trainer.web.kiosk.blueprint import bp
from trainer.web.kiosk.enrolment import here
from trainer.web.kiosk.forms import AskForm
from trainer.web.kiosk.frames import frame, my_boxes
from trainer.web.kiosk.pages import NoticePage
from trainer.web.rooms import rooms
from trainer.web.sheet import moment
from trainer.web.wishes import WISHES, told_question
from trainer.web.words import _
from trainer.wording import Sentence

_SHEET = re.compile(r"/sittings/(\w+)/(\d+)")


@bp.route("/ask", methods=["GET", "POST"])
@doors.needs(LEARNER)
def ask() -> Response | str | tuple[str, int]:
    """Show the form, or keep a question; the same form sent twice is kept once."""
    form = AskForm()
    form.wish.choices = [(wish.value, str(label)) for wish, label in WISHES.items()]
    if request.method == "GET":
        form.key.data, form.words.data = sheets.new_key(), session.pop("words", "")
        form.wish.data = session.pop("wish", "") or Wish.EXPLAIN.value
        return _page(form)
    if not form.validate_on_submit():
        return _page(form, refusal=next((str(one) for field in form for one in field.errors), "")), 422
    if session.get("asked", {}).get("key") != form.key.data:
        try:
            reference = _keep(form)
        except TrainerError as error:
            return _page(form, refusal=error.sentence), error.status
        session["asked"] = {"key": form.key.data, "reference": reference}
    return redirect(url_for("kiosk.asked"), 303)


@bp.get("/ask/kept")
@doors.needs(LEARNER)
def asked() -> Response | str:
    """Say that the question is kept, under which number, and who answers."""
    kept = session.get("asked")
    if not kept:
        return redirect(url_for("kiosk.ask"), 303)
    text = (
        _("It is kept as %(reference)s. It waits on the desk of %(name)s.", reference=kept["reference"], name=_who()),
        _("You see the answer here when you sign in again."),
        _("Are you not sure that it is safe? Do not run the machine until you know."),
    )
    made = frame(_("Question kept"), name=_("ask"), boxes=my_boxes(), ask=False)
    key = ("now", url_for("kiosk.ask_done"), _("Go back"))
    return render_template(
        "kiosk/notice.html", page=NoticePage(frame=made, lead=_("Your question is kept."), text=text, keys=(key,))
    )


@bp.post("/ask/done")
@doors.needs(LEARNER)
def ask_done() -> Response:
    """Go back to the sheet from which the question was asked."""
    session.pop("asked", None)
    return redirect(place.back(), 303)


@bp.get("/answers")
@doors.needs(LEARNER)
def answers() -> Response | str:
    """Show the oldest answer that was not shown yet; where there is none, my sheets."""
    with rooms().record.reading() as r:
        waiting = asking.unseen(r, g.person.key)
        if not waiting:
            return redirect(url_for("kiosk.mine"), 303)
        page = _answer_page(r, waiting[0], len(waiting) - 1)
    return render_template("kiosk/answered.html", page=page)


@bp.post("/answers/<int(max=2147483647):number>")
@doors.needs(LEARNER)
def answer_seen(number: int) -> Response:
    """Note that an answer was read, and go on to the next one or to what the key says."""
    with rooms().record.writing() as w:
        asking.mark_seen(w, number, person=g.person.key)
    session["back"] = url_for("kiosk.mine")
    return redirect(url_for("kiosk.ask" if request.form.get("again") else "kiosk.answers"), 303)


def _keep(form: AskForm) -> str:
    with rooms().record.writing() as w:
        to = asking.on_shift(w, g.person)
        kept = asking.ask(
            w,
            person=g.person.key,
            to=to.key if to else None,
            about=_about(),
            wish=Wish(form.wish.data),
            words=form.words.data or "",
            kiosk=here(),
        )
    return kept.reference


def _about() -> str:
    """Return the item that was on the glass when the key was pressed; empty beside a sitting."""
    found = _SHEET.fullmatch(place.back())
    if found is None:
        return ""
    try:
        return work.find(g.person, found[1], int(found[2])).sheet.item
    except Missing:
        return ""


def _who() -> str:
    with rooms().record.reading() as r:
        return _named(asking.on_shift(r, g.person))


def _named(person: PersonRow | None) -> str:
    return person.name if person else _("your trainer")


def _page(form: AskForm, refusal: Sentence | str = "") -> str:
    made = frame(_("Ask"), name=_("ask"), boxes=my_boxes(), ask=False, carrier="report")
    page = AskPage(frame=made, form=form, who=_who(), about=_about(), refusal=refusal)
    return render_template("kiosk/asking.html", page=page)


def _answer_page(r: Reading, row: AskedRow, more: int) -> AnswerPage:
    fresh = [one for one in row.answers if one.seen_at is None]
    made = frame(_("You asked"), name=row.reference, boxes=my_boxes())
    return AnswerPage(
        frame=made,
        number=row.id,
        asked=told_question(row),
        asked_at=moment(row.at),
        answers=tuple((_named(people.get(r, one.by)), moment(one.at), one.words) for one in fresh[-1:]),
        more=more,
    )
