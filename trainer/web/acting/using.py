"""Noting that somebody worked at a machine, or was seen doing its pre-start check."""

from trainer.records import Reading, Writing, acts, machines
from trainer.records.ledger import Entry
from trainer.records.use import CHECKED, USED
from trainer.web.acting.act import Act, Asked, when
from trainer.web.acting.blanks import Blank
from trainer.web.words import _, _l
from trainer.wording import say


def _machines(r: Reading) -> tuple[tuple[str, str], ...]:
    return tuple((one.id, f"{one.id}, {one.name}") for one in machines.all_machines(r, in_use=True))


def _blanks(r: Reading, _asked: Asked) -> tuple[Blank, ...]:
    kinds = ((CHECKED, _("pre-start check, seen by me")), (USED, _("worked there")))
    return (
        Blank(name="what", label=_("What"), kind="choice", choices=kinds),
        Blank(name="machine", label=_("at"), kind="choice", choices=_machines(r)),
        when(),
    )


def _note(w: Writing, asked: Asked) -> list[Entry]:
    given = asked.given
    made = acts.note_use(
        w,
        person=asked.person.key,
        machine=given.one_of("machine", (value for value, _name in _machines(w)), say("Choose the machine.")),
        what=given.one_of("what", (USED, CHECKED), say("Choose what was seen.")),
        by=asked.by,
        happened_on=given.day("on", asked.today),
    )
    return [made]


USE = Act(
    id="use",
    title=_l("Note use of a machine"),
    note=_l("it counts where a programme pauses whoever has not used the machine for long"),
    told=(
        _l("Who is paused comes back by the way back and a pre-start check after it, not by working all the same."),
        _l("Nobody notes their own."),
    ),
    blanks=_blanks,
    do=_note,
)
