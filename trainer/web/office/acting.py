"""The acts of the office on one person's record."""

from trainer.web.access import OFFICER, doors
from trainer.web.acting import views
from trainer.web.acting.correcting import CONFIRM, MOVE, WITHDRAW
from trainer.web.acting.holding import EXCUSE, REINSTATE, SUSPEND
from trainer.web.acting.preserving import HOLD, LIFT
from trainer.web.acting.prior import PRIOR
from trainer.web.acting.rights import JUDGE, REVOKE
from trainer.web.office.frames import office_frame
from trainer.web.office.views import bp

ACTS = {act.id: act for act in (SUSPEND, REINSTATE, EXCUSE, PRIOR, JUDGE, REVOKE, WITHDRAW, CONFIRM, MOVE, HOLD, LIFT)}


@bp.get("/people/<key>/acts/<name>")
@doors.needs(OFFICER)
def act(key: str, name: str) -> str:
    """Show the blanks of an act."""
    return views.show(views.by_id(ACTS, name), key, lambda title: office_frame("office.about", title))


@bp.post("/people/<key>/acts/<name>")
@doors.needs(OFFICER)
def do_act(key: str, name: str) -> views.Answer:
    """Look at an act, or enter it."""
    return views.enter(views.by_id(ACTS, name), key, lambda title: office_frame("office.about", title))
