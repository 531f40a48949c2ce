"""Where one stands: after a paper was handed in, and whenever one asks."""

from typing import Any

from flask import g, redirect, render_template, url_for
from markupsafe import Markup
from werkzeug.wrappers import Response

from trainer.errors import Missing
from trainer.figures import scene
from trainer.records import ledger, sittings
from trainer.records.chain import EntryKind
from trainer.records.ledger import Entry
from trainer.records.sittings import SittingRow
from trainer.records.standing import Standing, standings
from trainer.records.work import Reading
from trainer.web import language
from trainer.web.access import LEARNER, doors
from trainer.web.kiosk import work
from trainer.web.kiosk.approvals import Facts, ahead, approvals, shown, state, under
from trainer.web.kiosk.blueprint import bp
from trainer.web.kiosk.frames import frame, my_boxes, short_name, zones
from trainer.web.kiosk.pages import Box, Frame, NoticePage, Shown, StandingPage
from trainer.web.rooms import rooms
from trainer.web.standings import told_standings
from trainer.web.words import _

ONE_COLUMN, COLUMN = 8, 4  # rows
CLOSE = 7  # lines of the list beyond which they move closer
BESIDE: dict[str, Any] = {
    "view": "front",
    "size": [490, 216],
    "place": {"x": 123, "y": 208, "scale": 0.08},
    "parts": [
        {"part": "floor"},
        {"part": "brake"},
        {"part": "tooling"},
        {"part": "curtain"},
        {"part": "person", "x": -560},
    ],
}
WATCHER = {"part": "person", "x": 3600, "mirror": True}


@bp.get("/sittings/<sitting>/result")
@doors.needs(LEARNER)
def result(sitting: str) -> Response | str:
    """Show where a person stands after a paper."""
    desk = work.find(g.person, sitting, 1)
    if desk.open:
        return redirect(url_for("kiosk.sheet", sitting=sitting, number=desk.row.at), 303)
    role = str(desk.row.terms["role"])
    with rooms().record.reading() as r:
        mine = [one for one in _mine(r) if one.role == role]
        facts = facts_of(r, mine[0] if mine else None, desk.row.entry, role)
        row = desk.row
    return render_template("kiosk/standing.html", page=_page(facts, row, mine[1:]))


@bp.get("/standing")
@bp.get("/standing/<machine>/<role>")
@doors.needs(LEARNER)
def standing(machine: str = "", role: str = "") -> str:
    """Show where a person stands for a machine; without one, where it matters most."""
    with rooms().record.reading() as r:
        mine = _mine(r)
        asked = [one for one in mine if (one.machine, one.role) == (machine, role)] or mine
        if not asked:
            return _nothing()
        one = asked[0]
        facts = facts_of(r, one, _newest(r, one.role), one.role)
        row = _row(r, facts)
    return render_template("kiosk/standing.html", page=_page(facts, row, [each for each in mine if each is not one]))


def _mine(r: Reading) -> list[Standing]:
    return told_standings(standings(r, rooms().bank, on=r.today(), person=g.person.key))


def _newest(r: Reading, role: str) -> int | None:
    """Return the number of the entry of the newest paper for a role."""
    papers = ledger.entries(r, person=g.person.key, kind=EntryKind.SITTING_MARKED)
    return next((entry.number for entry in reversed(list(papers)) if entry.body.get("role") == role), None)


def _row(r: Reading, facts: Facts) -> SittingRow | None:
    """Return the sitting behind the newest paper; None where it is not kept any more."""
    try:
        return sittings.get(r, str(facts.marked.body["sitting"])) if facts.marked else None
    except Missing:
        return None


def facts_of(r: Reading, one: Standing | None, marked: int | None, role: str) -> Facts:
    """Read the entries behind a standing, and that of the newest paper, by its number."""
    numbers = {number for reason in (one.reasons if one else ()) for number in reason.entries}
    entries: tuple[Entry, ...] = tuple(ledger.entry(r, number) for number in sorted(numbers))
    paper = ledger.entry(r, marked) if marked is not None else None
    return Facts(standing=one, role=role, entries=entries, marked=paper)


def _page(facts: Facts, row: SittingRow | None, others: list[Standing]) -> StandingPage:
    rows = shown(facts)
    return StandingPage(
        frame=_frame(facts, row),
        state=state(facts),
        under=under(facts),
        approvals=approvals(facts),
        caption=_("What you have shown, and what is open"),
        shown=rows,
        ahead=ahead(facts),
        drawing=_beside(alone=facts.standing is not None and facts.standing.may_run),
        again=_again(row),
        others=tuple((url_for("kiosk.standing", machine=o.machine, role=o.role), o.machine) for o in others[:2]),
        close=len(rows) >= CLOSE,
        columns=_columns(rows),
    )


def _columns(rows: tuple[Shown, ...]) -> tuple[tuple[Shown, ...], ...]:
    """Put the rows into two columns where one would be too long, what is open first; what is shown may be counted only."""
    if len(rows) <= ONE_COLUMN:
        return (rows,)
    listed = sorted(rows, key=lambda row: row.done)
    if len(listed) > 2 * COLUMN:
        more = len(listed) - 2 * COLUMN + 1
        counted = Shown(name=_("%(count)s more", count=more), word=_("shown"), done=all(r.done for r in listed[-more:]))
        listed = [*listed[: 2 * COLUMN - 1], counted]
    half = -(-len(listed) // 2)
    return tuple(listed[:half]), tuple(listed[half:])


def _frame(facts: Facts, row: SittingRow | None) -> Frame:
    bank, tongue = rooms().bank, language.current()
    boxes = [Box(label=_("You"), value=short_name(g.person))]
    count = 0
    if row:
        known = bank.programmes.get(row.programme)
        name = known.name.in_(tongue) if known else row.programme
        boxes.append(Box(label=_("Programme"), value=name, yields=True))
        count = len(row.paper["sheets"])
    if facts.standing:
        boxes.append(Box(label=_("Machine"), value=facts.standing.machine))
    boxes.append(Box(label=_("Edition"), value=bank.edition_shown))
    return frame(_("Where you stand"), name=_("standing"), boxes=boxes, zones=zones(count, count + 1))


def _again(row: SittingRow | None) -> tuple[int, str] | None:
    """Return the first sheet that was not right, to look at once more."""
    if row is None:
        return None
    wrong = [number for number, stored in sorted(row.answers.items()) if stored.locked and not stored.mark["right"]]
    return (wrong[0], row.id) if wrong else None


def _beside(*, alone: bool) -> Markup:
    """Draw the person at the brake and, until they may work alone, who will watch them there."""
    title = told = _("You and the brake")
    spec = {**BESIDE, "labels": [{"word": _("you"), "at": [78, 52], "align": "mid"}]}
    if not alone:
        spec["parts"] = [*BESIDE["parts"], WATCHER]
        spec["labels"] = [*spec["labels"], {"word": _("evaluator"), "at": [412, 52], "align": "mid"}]
        told = _("You stand at the brake. On its other side, in broken line: the person who will watch you there.")
    words = rooms().bank.labels(language.current())
    return Markup(scene(spec, words=words, title=title, description=told))  # noqa: S704  (figures escapes every word)


def _nothing() -> str:
    made = frame(_("Where you stand"), name=_("standing"), boxes=my_boxes())
    page = NoticePage(
        frame=made,
        lead=_("Nothing is on record for you yet."),
        text=(_("Do not run a machine. Ask your trainer which sheets you need."),),
        keys=(("", url_for("kiosk.go_back"), _("Go back")), ("now", url_for("kiosk.sign_out"), _("Sign out"))),
    )
    return render_template("kiosk/notice.html", page=page)
