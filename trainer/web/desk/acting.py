"""The acts of the trainer's desk on one person's record."""

from trainer.web.access import TRAINER, doors
from trainer.web.acting import views
from trainer.web.acting.holding import EXCUSE, REINSTATE, SUSPEND
from trainer.web.acting.prior import PRIOR
from trainer.web.acting.using import USE
from trainer.web.desk.blueprint import bp
from trainer.web.desk.frames import desk_frame

ACTS = {act.id: act for act in (SUSPEND, REINSTATE, EXCUSE, PRIOR, USE)}


@bp.get("/people/<key>/acts/<name>")
@doors.needs(TRAINER)
def act(key: str, name: str) -> str:
    """Show the blanks of an act."""
    return views.show(views.by_id(ACTS, name), key, lambda title: desk_frame("desk.people", title))


@bp.post("/people/<key>/acts/<name>")
@doors.needs(TRAINER)
def do_act(key: str, name: str) -> views.Answer:
    """Look at an act, or enter it."""
    return views.enter(views.by_id(ACTS, name), key, lambda title: desk_frame("desk.people", title))
