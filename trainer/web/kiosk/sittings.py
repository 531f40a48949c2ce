"""The views of a sitting: start or go on, a sheet, an answer, the next sheet, handing in."""

from collections.abc import Iterator
from dataclasses import replace

from flask import g, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from trainer.assessment.answers import AskBack
from trainer.bank.model import JudgeDrill, RuleDrill
from trainer.errors import UsageError
from trainer.records.access import SignInRefused
from trainer.web import language
from trainer.web.access import LEARNER, doors
from trainer.web.kiosk import place, sheets, work
from trainer.web.kiosk.blueprint import bp
from trainer.web.kiosk.enrolment import here
from trainer.web.kiosk.feedback import feedback_page
from trainer.web.kiosk.forms import PinForm, looks_like_badge, pressed
from trainer.web.kiosk.frames import frame, short_name, zones
from trainer.web.kiosk.judged import judged_page
from trainer.web.kiosk.pages import Answered, Box, DrillPage, HandInPage, LessonPage, QuestionPage, RacePage, WhyPage
from trainer.web.kiosk.pressed import is_whole, pressed_form
from trainer.web.kiosk.proving import prove_again
from trainer.web.rooms import rooms
from trainer.web.words import _
from trainer.wording import Sentence

MOST_NAMED = 10  # lines of the last sheet
TEMPLATES = {
    LessonPage: "kiosk/lesson.html",
    QuestionPage: "kiosk/question.html",
    DrillPage: "kiosk/drill.html",
    RacePage: "kiosk/race.html",
    WhyPage: "kiosk/why.html",
}


@bp.post("/sittings")
@doors.needs(LEARNER)
def begin() -> Response:
    """Start what is waiting, or go on with it at the sheet where it was left."""
    row = work.begin(g.person, request.form.get("programme", ""), here())
    return _to(row.id, row.at)


@bp.get("/sittings/<sitting>/<int:number>")
@doors.needs(LEARNER)
def sheet(sitting: str, number: int) -> Response | str:
    """Show a sheet as far as the sitting has come; a locked one shows its feedback."""
    desk = work.find(g.person, sitting, number)
    if desk.open and number > desk.row.at:
        return _to(sitting, desk.row.at)
    page = feedback_page(desk) if desk.locked else _asking(desk)
    place.watch(place.spot(sitting, number))
    asked_back = isinstance(page, DrillPage) and page.readings
    return render_template("kiosk/ask.html" if asked_back else TEMPLATES[type(page)], page=page)


def _asking(desk: work.Desk) -> LessonPage | QuestionPage | DrillPage:
    item = rooms().bank.item(desk.sheet.item)
    return judged_page(desk, item) if isinstance(item, JudgeDrill | RuleDrill) else sheets.sheet_page(desk)


@bp.post("/sittings/<sitting>/<int:number>")
@doors.needs(LEARNER)
def answer(sitting: str, number: int) -> Response:
    """Take an answer: keep it, or ask back what it means, or say why it is none."""
    desk, form, at = work.find(g.person, sitting, number), request.form, place.spot(sitting, number)
    if looks_like_badge(form.get("number")):
        place.notify("badge")
        return _to(sitting, number)
    if "press" in form:
        place.keep_draft(at, {**form, "number": pressed(form.get("number", ""), form["press"])}, tried=False)
        return _to(sitting, number)
    try:
        read = work.read(desk, pressed_form(desk, form["row"]) if "row" in form else form)
    except UsageError:
        read = None
    if read is None or isinstance(read, AskBack):
        place.keep_draft(at, form, tried=True)
        return _to(sitting, number)
    work.save(desk, read, key=form.get("key") or sheets.new_key(), took_ms=place.took_ms(at))
    place.drop_draft()
    return _to(sitting, number)


@bp.post("/sittings/<sitting>/<int:number>/turn")
@doors.needs(LEARNER)
def turn(sitting: str, number: int) -> Response:
    """Go on: from a lesson or feedback to the next sheet, from an answer that is on disk to its feedback.

    The form says what was on the glass, so that a key pressed twice does not skip the feedback.
    """
    desk = work.find(g.person, sitting, number)
    if work.is_read(desk) or (desk.locked and request.form.get("stage") == "feedback"):
        following = work.turn(desk)
        place.move_on()
        return _to(sitting, following) if following <= len(desk.paper.sheets) else _after(desk)
    if not is_whole(desk):
        place.notify("answer-first")
    elif desk.open and not _changed(desk):
        work.lock(desk)
        place.drop_draft()
    return _to(sitting, number)


@bp.get("/sittings/<sitting>/hand-in")
@doors.needs(LEARNER)
def confirm(sitting: str) -> Response | str:
    """Ask once more before the paper is handed in."""
    desk = work.find(g.person, sitting, 1)
    if not desk.open:
        return redirect(url_for("kiosk.result", sitting=sitting), 303)
    missing = work.unanswered(desk.row, desk.paper)
    if missing:
        place.notify("answers-open")
        return _to(sitting, missing[0])
    return _confirm_sheet(desk)


@bp.post("/sittings/<sitting>/hand-in")
@doors.needs(LEARNER)
def hand_in(sitting: str) -> Response | str | tuple[str, int]:
    """Hand the paper in, once, confirmed with the person's own PIN."""
    desk, form = work.find(g.person, sitting, 1), PinForm()
    if desk.open and work.unanswered(desk.row, desk.paper):
        return redirect(url_for("kiosk.confirm", sitting=sitting), 303)
    if desk.open:
        if "press" in request.form:
            return _confirm_sheet(desk, pin=pressed(form.pin.data or "", request.form["press"]))
        if not form.validate():
            return _confirm_sheet(desk, refusal=str(form.pin.errors[0]) if form.pin.errors else ""), 422
        try:
            prove_again(form.pin.data)
        except SignInRefused as error:
            return _confirm_sheet(desk, refusal=error.sentence), error.status
        work.hand_in(desk)
    return redirect(url_for("kiosk.result", sitting=sitting), 303)


def _to(sitting: str, number: int) -> Response:
    return redirect(url_for("kiosk.sheet", sitting=sitting, number=number), 303)


def _after(desk: work.Desk) -> Response:
    return redirect(url_for("kiosk.confirm" if desk.open else "kiosk.result", sitting=desk.row.id), 303)


def _changed(desk: work.Desk) -> bool:
    """Keep a number that was typed after the last save and sent with the key for the next sheet; nothing is lost."""
    form = request.form
    if not form.get("number") or desk.answer is None or looks_like_badge(form["number"]):
        return False
    at = place.spot(desk.row.id, desk.sheet.number)
    try:
        read = work.read(desk, form)
    except UsageError:
        read = None
    if read is None or isinstance(read, AskBack):
        place.keep_draft(at, form, tried=True)
        return True
    if read.as_data() == dict(desk.answer.answer):
        return False
    work.save(desk, read, key=form.get("key") or sheets.new_key(), took_ms=place.took_ms(at))
    place.drop_draft()
    return True


def _confirm_sheet(desk: work.Desk, pin: str = "", refusal: Sentence | str = "") -> str:
    return render_template("kiosk/hand_in.html", page=replace(_confirm_page(desk), pin=pin, refusal=refusal))


def _confirm_page(desk: work.Desk) -> HandInPage:
    count = len(desk.paper.sheets)
    programme = rooms().bank.programme(desk.row.programme)
    boxes = (
        Box(label=_("You"), value=short_name(g.person)),
        Box(label=_("Programme"), value=programme.name.in_(language.current()), yields=True),
        Box(label=_("Edition"), value=str(desk.paper.edition)),
    )
    made = frame(_("Hand it in?"), name=_("hand in"), boxes=boxes, zones=zones(count, count + 1), pause=True)
    answers = tuple(_answered(desk))
    return HandInPage(frame=made, sitting=desk.row.id, answers=_told(answers), count=len(answers))


def _told(answers: tuple[Answered, ...]) -> tuple[Answered, ...]:
    """Name each answer, or, where they are many, those that were not right and the number of the others."""
    if len(answers) <= MOST_NAMED:
        return answers
    wrong = [one for one in answers if not one.done]
    named, others = wrong[: MOST_NAMED - 2], wrong[MOST_NAMED - 2 :]
    right = len(answers) - len(wrong)
    counted = [
        Answered(number=None, name=_("%(count)s more sheets", count=count), word=word, done=done)
        for count, word, done in ((len(others), _("not right"), False), (right, _("right"), True))
        if count
    ]
    return (*named, *counted)


def _answered(desk: work.Desk) -> Iterator[Answered]:
    for sheet in desk.paper.marked:
        if sheet.number not in desk.row.answers:  # the paper was settled before
            continue
        right = bool(desk.row.answers[sheet.number].mark["right"])
        word = _("right") if right else _("not right")
        yield Answered(number=sheet.number, name=sheets.title_of(sheet), word=word, done=right)
