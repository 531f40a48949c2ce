"""Legal hold: while one is on, nothing about a person is taken out."""

from trainer.records import Reading, Writing
from trainer.records.ledger import Entry
from trainer.records.privacy import holds
from trainer.web.acting.act import Act, Asked, why
from trainer.web.acting.blanks import Blank
from trainer.web.words import _l


def _blanks(_r: Reading, _asked: Asked) -> tuple[Blank, ...]:
    return (why(),)


def _set(w: Writing, asked: Asked) -> list[Entry]:
    return [holds.set_hold(w, asked.person.key, by=asked.by, reason=asked.given.reason())]


def _lift(w: Writing, asked: Asked) -> list[Entry]:
    return [holds.lift_hold(w, asked.person.key, by=asked.by, reason=asked.given.reason())]


HOLD = Act(
    id="hold",
    title=_l("Set a legal hold"),
    note=_l("nothing about the person is taken out while it is on"),
    told=(_l("Neither a request nor a rule of retention overrules it."),),
    blanks=_blanks,
    do=_set,
)
LIFT = Act(
    id="lift",
    title=_l("Lift the legal hold"),
    note=_l("nobody lifts the one on their own data"),
    told=(_l("From then on the rules of retention count again."),),
    blanks=_blanks,
    do=_lift,
)
