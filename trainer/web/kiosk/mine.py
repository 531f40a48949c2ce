"""My sheets: what is waiting for a person, why, how long it takes, and where an open sitting goes on."""

from collections.abc import Collection, Sequence

from trainer.bank.model import Programme
from trainer.records.dues import DueRow
from trainer.records.sittings import SittingRow
from trainer.records.standing import Standing
from trainer.web import language
from trainer.web.filters import day
from trainer.web.kiosk.approvals import told_state
from trainer.web.kiosk.frames import frame, my_boxes
from trainer.web.kiosk.pages import MinePage, Waiting
from trainer.web.rooms import rooms
from trainer.web.words import _
from trainer.wording import say

ROWS = 4  # that fit on a sheet; the most pressing come first
HELD = (9, 6, 3, 1, 0)  # standings that fit below so many rows
MINUTES = {"lesson": 1, "question": 1, "drill": 4}  # common practice: about so long for somebody who reads slowly


def mine_page(
    waiting: Sequence[DueRow],
    open_ones: Sequence[SittingRow],
    standings: Sequence[Standing],
    to_coach: Collection[str] = (),
) -> MinePage:
    """Return the page: open sittings first, then what is due, then how one stands at each machine."""
    sat = {row.programme: row for row in open_ones}
    due = {row.programme: row for row in waiting}
    order = [*sat, *(name for name in due if name not in sat)]
    rows = [
        _row(number, name, due.get(name), sat.get(name), held=name in to_coach) for number, name in enumerate(order, 1)
    ]
    made = frame(_("My sheets"), name=_("my sheets"), boxes=my_boxes(), swap=True)
    held = tuple((one.machine, told_state(one.word, one.role, one.machine)) for one in standings)
    return MinePage(
        frame=made,
        rows=tuple(rows[:ROWS]),
        more=max(0, len(rows) - ROWS),
        held=held[: HELD[min(len(rows), ROWS)]],
    )


def _row(number: int, name: str, due: DueRow | None, sitting: SittingRow | None, *, held: bool) -> Waiting:
    """Show what is waiting; what a coach has to talk over first cannot be started, but an open one can be gone on with."""
    held = held and sitting is None
    programme = rooms().bank.programme(name)
    return Waiting(
        number=number,
        programme=name,
        name=programme.name.in_(language.current()),
        why=due.reason if due else say("You started it."),
        until=until_words(due),
        long=_("about %(count)s minutes", count=_minutes(programme)),
        place=_("first with your trainer") if held else _place(sitting),
        key="" if held else _("Go on") if sitting else _("Start"),
    )


def until_words(due: DueRow | None) -> str:
    """Say until when something has to be done."""
    if due is None:
        return ""
    if due.state == "overdue":
        return _("Overdue since %(day)s", day=day(due.due_on))
    return _("To be done by %(day)s", day=day(due.due_on))


def _place(sitting: SittingRow | None) -> str:
    if sitting is None:
        return ""
    return _("at sheet %(number)s of %(count)s", number=sitting.at, count=len(sitting.paper["sheets"]))


def _minutes(programme: Programme) -> int:
    """Say about how long a programme takes, in steps of five minutes."""
    bank = rooms().bank
    lessons = sum(len(bank.scenarios[name].lessons) for name in programme.scenarios)
    questions = sum(programme.blueprint.questions.values())
    total = lessons * MINUTES["lesson"] + questions * MINUTES["question"]
    total += len(programme.blueprint.drills) * MINUTES["drill"]
    return -(-total // 5) * 5
