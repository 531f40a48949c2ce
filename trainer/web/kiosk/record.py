"""My record, three taps from the start: where one stands at each machine, since when, what is open, what is written."""

from flask import g, render_template, url_for

from trainer.errors import Missing
from trainer.records import asking, ledger
from trainer.records.dues import DueRow
from trainer.records.standing import Standing, standings
from trainer.records.work import Reading
from trainer.web import language
from trainer.web.access import LEARNER, doors
from trainer.web.entries import history_row
from trainer.web.filters import day
from trainer.web.kiosk import work
from trainer.web.kiosk.approvals import Facts
from trainer.web.kiosk.asidepages import Held, RecordPage, WrittenPage
from trainer.web.kiosk.blueprint import bp
from trainer.web.kiosk.frames import frame, my_boxes
from trainer.web.kiosk.mine import until_words
from trainer.web.kiosk.standing import facts_of
from trainer.web.rooms import rooms
from trainer.web.standings import SHAPES, role_name, told_standings
from trainer.web.words import _
from trainer.wording import say

ROWS, OPEN = 4, 3  # lines of each list that fit on the sheet
ENTRIES = 6  # on a sheet


@bp.get("/record")
@doors.needs(LEARNER)
def record() -> str:
    """Show where the person stands at each machine, with its dates, and what is open."""
    with rooms().record.reading() as r:
        found = told_standings(standings(r, rooms().bank, on=r.today(), person=g.person.key))
        rows = tuple(_held(one, facts_of(r, one, None, one.role)) for one in found[:ROWS])
        waiting = _open(r)
    page = RecordPage(
        frame=frame(_("My record"), name=_("my record"), boxes=my_boxes(), swap=True),
        rows=rows,
        more=max(0, len(found) - ROWS),
        open=waiting,
    )
    return render_template("kiosk/record.html", page=page)


@bp.get("/record/entries/<int(max=2147483647):number>")
@doors.needs(LEARNER)
def written(number: int) -> str:
    """Show what is written about the person, sheet by sheet, the newest first; nobody else is named."""
    with rooms().record.reading() as r:
        entries = list(reversed(list(ledger.entries(r, person=g.person.key))))
    count = max(1, -(-len(entries) // ENTRIES))
    if not 1 <= number <= count:
        raise Missing(say("There is no such sheet."))
    rows = [history_row(entry, {}) for entry in entries[(number - 1) * ENTRIES : number * ENTRIES]]
    name = _("%(number)s of %(count)s", number=number, count=count)
    page = WrittenPage(
        frame=frame(_("What is written about me"), name=name, boxes=my_boxes()),
        rows=tuple((f"L-{row.number}", day(row.happened), row.what) for row in rows),
        before=number - 1,
        after=number + 1 if number < count else 0,
    )
    return render_template("kiosk/written.html", page=page)


def _held(one: Standing, facts: Facts) -> Held:
    theory, practical = facts.theory, facts.practical
    signed = practical is not None and practical.body.get("result") == "passed"
    return Held(
        machine=one.machine,
        role=role_name(one.role),
        state=str(SHAPES[one.word].words),
        theory=day(theory.happened_on) if theory else _("open"),
        practical=day(practical.happened_on) if practical and signed else _("open"),
        until=_("until %(day)s", day=day(one.holds_until)) if one.may_run and one.holds_until else "",
        may=one.may_run,
        url=url_for("kiosk.standing", machine=one.machine, role=one.role),
    )


def _open(r: Reading) -> tuple[tuple[str, str], ...]:
    """Return what is open: papers to take, then questions that nobody has answered."""
    rows = [(_programme(row), until_words(row)) for row in work.waiting_for(r, g.person.key)]
    asked = asking.questions(r, person=g.person.key, only_open=True)
    rows += [(_("Your question %(number)s", number=row.reference), _("not answered yet")) for row in asked]
    return tuple(rows[:OPEN])


def _programme(row: DueRow) -> str:
    known = rooms().bank.programmes.get(row.programme)
    return known.name.in_(language.current()) if known else row.programme
