"""Report a hazard: at which machine, in one's own words, with one's name or without."""

from flask import g, redirect, render_template, request, session, url_for
from markupsafe import Markup
from werkzeug.wrappers import Response

from trainer.errors import TrainerError
from trainer.figures import scene
from trainer.records import hazards, machines
from trainer.web import language
from trainer.web.access import doors
from trainer.web.kiosk import place
from trainer.web.kiosk.blueprint import bp
from trainer.web.kiosk.enrolment import here
from trainer.web.kiosk.forms import HazardForm
from trainer.web.kiosk.frames import frame, my_boxes, plant_boxes
from trainer.web.kiosk.pages import Box, HazardPage, NoticePage
from trainer.web.kiosk.sheets import new_key
from trainer.web.rooms import rooms
from trainer.web.words import _
from trainer.web.zones import ZONES, told_zone
from trainer.wording import Sentence

MACHINE = {
    "view": "front",
    "size": [416, 212],
    "place": {"x": 86, "y": 204, "scale": 0.078},
    "parts": [
        {"part": "floor"},
        {"part": "brake"},
        {"part": "tooling"},
        {"part": "curtain"},
        {"part": "pedal", "x": 2200},
    ],
}


@bp.route("/hazard", methods=["GET", "POST"])
@doors.open
def hazard() -> Response | str | tuple[str, int]:
    """Show the form, or keep a report; the same form sent twice is kept once."""
    form = _form()
    if request.method == "GET":
        form.key.data, form.words.data = new_key(), session.pop("words", "")
        return _page(form)
    if not form.validate_on_submit():
        return _page(form, refusal=next((str(one) for field in form for one in field.errors), "")), 422
    if session.get("reported", {}).get("key") != form.key.data:
        try:
            reference = _report(form)
        except TrainerError as error:
            return _page(form, refusal=error.sentence), error.status
        session["reported"] = {"key": form.key.data, "reference": reference}
    return redirect(url_for("kiosk.reported"), 303)


@bp.get("/hazard/kept")
@doors.open
def reported() -> Response | str:
    """Say that the report is kept, under which number, and what to do meanwhile."""
    kept = session.get("reported")
    if not kept:
        return redirect(url_for("kiosk.hazard"), 303)
    text = (
        _("It is kept as %(reference)s. A trainer sees it first thing on the desk.", reference=kept["reference"]),
        _("Can somebody get hurt now? Stop the machine and tell your lead at once. Do not wait for an answer here."),
    )
    made = frame(_("Report kept"), name=_("report"), boxes=_boxes(), hazard=False)
    key = ("now", url_for("kiosk.hazard_done"), _("Go back"))
    return render_template(
        "kiosk/notice.html", page=NoticePage(frame=made, lead=_("Thank you. It is kept."), text=text, keys=(key,))
    )


@bp.post("/hazard/done")
@doors.open
def hazard_done() -> Response:
    """Go back to the sheet from which the report was made."""
    session.pop("reported", None)
    return redirect(place.back(), 303)


def _report(form: HazardForm) -> str:
    named = form.named.data == "yes" and g.person is not None
    with rooms().record.writing() as w:
        kept = hazards.report(
            w,
            words=form.words.data,
            kiosk=here(),
            person=g.person.key if named else None,
            machine=form.machine.data or None,
            kind=form.kind.data,
            place=form.place.data or "",
        )
    return kept.reference


def _form() -> HazardForm:
    form = HazardForm()
    with rooms().record.reading() as r:
        places = machines.all_machines(r, in_use=True)
    named = [(one.id, f"{one.id}, {one.name}") for one in places]
    form.machine.choices = [*named, ("", _("elsewhere"))]
    form.kind.choices = [(hazards.HAZARD, _("a hazard")), (hazards.SUGGESTION, _("a suggestion"))]
    form.place.choices = [("", ""), *((zone, told_zone(zone)) for zone in ZONES)]
    form.named.choices = [("no", _("without my name")), ("yes", _("with my name"))]
    return form


def _page(form: HazardForm, refusal: Sentence | str = "") -> str:
    made = frame(_("Report a hazard"), name=_("report"), boxes=_boxes(), hazard=False, carrier="report")
    return render_template(
        "kiosk/hazard.html", page=HazardPage(frame=made, form=form, drawing=_drawing(), refusal=refusal)
    )


def _drawing() -> Markup:
    """Draw a machine without a word on it; the zones lie over it."""
    words = rooms().bank.labels(language.current())
    drawn = scene(MACHINE, words=words, title=_("The machine from the front"), description="")
    return Markup(drawn)  # noqa: S704  (figures escapes every word)


def _boxes() -> tuple[Box, ...]:
    return my_boxes() if g.person is not None else plant_boxes()
