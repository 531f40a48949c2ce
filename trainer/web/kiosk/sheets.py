"""The sheets of a paper: to read, to choose, to work out."""

import secrets
from collections.abc import Mapping
from datetime import date
from string import ascii_uppercase
from typing import Any

from markupsafe import Markup

from trainer import units
from trainer.assessment import drills, judging
from trainer.assessment.answers import AskBack, field_of
from trainer.assessment.paper import NOTHING_FITS, Sheet
from trainer.assessment.pressing import Pressed, takes_presses
from trainer.bank.bank import Item
from trainer.bank.model import (
    ComputeDrill,
    Drill,
    Lesson,
    Number,
    OnDrawing,
    Question,
    RuleDrill,
    SelectDrill,
)
from trainer.bank.render import html
from trainer.errors import UsageError
from trainer.figures import scene
from trainer.safeguarding.problems import problem
from trainer.safeguarding.published import published
from trainer.safeguarding.selection import SAFEGUARDS
from trainer.web import filters, language
from trainer.web.kiosk import place, pressed, work
from trainer.web.kiosk.formulas import formulas
from trainer.web.kiosk.frames import frame, item_boxes, zones
from trainer.web.kiosk.labels import given_amount, given_label, given_symbol
from trainer.web.kiosk.pages import DrillPage, Frame, Given, LessonPage, QuestionPage, ReadTable, Row, Turn
from trainer.web.rooms import rooms
from trainer.web.words import _
from trainer.wording import Sentence, say

NONE_FITS = say("None of these: do not run this job here.")
DRILL_UNITS = ("mm", "in")
LOW = {"view": "front", "size": (660, 330), "place": {"x": 145, "y": 324, "scale": 0.121}}
OUTLINE = ({"part": "floor"}, {"part": "brake"}, {"part": "tooling"}, {"part": "pedal", "x": 2200})
ROOMY = 4  # rows beyond which they move closer
WHOLE_SHEET = frozenset({"match", "reasoned"})  # kinds whose lists take the place of a drawing
TIGHT = 290  # characters of one sheet's words beyond which the lines move closer


def sheet_page(desk: work.Desk) -> LessonPage | QuestionPage | DrillPage:
    """Return the page of a sheet whose feedback has not been shown."""
    item = rooms().bank.item(desk.sheet.item)
    if isinstance(item, Lesson):
        return _lesson(desk, item)
    drill = item.drill if isinstance(item, Number) else item
    if isinstance(drill, ComputeDrill):
        return _drill(desk, drill)
    return _question(desk, item)


def sheet_frame(desk: work.Desk, title: str, *, carrier: str) -> Frame:
    """Return the frame of a sheet of a sitting."""
    sheet, count = desk.sheet, len(desk.paper.sheets)
    return frame(
        title,
        name=_("%(number)s of %(count)s", number=sheet.number, count=count),
        boxes=item_boxes(sheet.item, sheet.competency, desk.paper.edition),
        zones=zones(count, sheet.number),
        pause=desk.open,
        carrier=carrier,
    )


def turn_of(desk: work.Desk, stage: str, *, before: str = "") -> Turn:
    """Return where the keys of a sheet lead."""
    number, count = desk.sheet.number, len(desk.paper.sheets)
    return Turn(sitting=desk.row.id, number=number, stage=stage, before=before, last=number == count)


def drawing_of(sheet: Sheet, now: Pressed | None = None, *, marked: bool = False) -> Markup | None:
    """Return a sheet's drawing as SVG, or None where it has none.

    A question about places shows its balloons, filled where they are pressed ``now``; ``marked`` shows what is right.
    """
    found = rooms().bank.drawing(sheet.item)
    if found is None:
        return None
    spec, told = found
    item = rooms().bank.item(sheet.item)
    if isinstance(item, SelectDrill):
        spec = {**LOW, "parts": spec["parts"]}
    if isinstance(item, OnDrawing):
        spec = {**spec, "balloons": pressed.balloons(item, sheet, now or Pressed(), marked=marked)}
    return _drawn(spec, title_of(sheet), told.in_(language.current()), sheet.drawn)


def hazard_of(sheet: Sheet) -> Markup | None:
    """Return a sheet's drawing or, where it has none so that it gives nothing away, its scenario's first one."""
    own, scenario = drawing_of(sheet), rooms().bank.scenario_of(sheet.item)
    if own is not None or scenario is None:
        return own
    name = next((lesson.drawing for lesson in scenario.lessons if lesson.drawing in scenario.drawings), None)
    if name is None:
        return None
    told = scenario.drawing_texts[name].in_(language.current())
    return _drawn(scenario.drawings[name], title_of(sheet), told, {})


def outline() -> Markup:
    """Draw a brake on which nothing is going on, for a question whose own drawing would give it away."""
    return _drawn({**LOW, "parts": OUTLINE}, _("A press brake"), _("A press brake seen from the front."), {})


def _drawn(spec: Mapping[str, Any], title: str, told: str, numbers: Mapping[str, str]) -> Markup:
    words = rooms().bank.labels(language.current())
    svg = scene(
        spec,
        words=words,
        title=title,
        description=told,
        numbers={key: language.localise(value) for key, value in numbers.items()},
    )
    return Markup(svg)  # noqa: S704  (drawn by figures, which escapes every word)


def title_of(sheet: Sheet) -> str:
    """Return what a sheet is called: the scenario's title or the drill's."""
    bank, tongue = rooms().bank, language.current()
    item = bank.item(sheet.item)
    if isinstance(item, Lesson | Question):
        return bank.scenarios[item.scenario].title.in_(tongue)
    return item.title.in_(tongue)


def told_of(item: Question | Drill, sheet: Sheet) -> tuple[str, ...]:
    """Return what a sheet tells before it asks; a safeguard to pick tells its setting too."""
    tongue = language.current()
    more = ""
    if isinstance(item, SelectDrill):
        more = item.setting(sheet.drawn["setting"]).told.in_(tongue)
    elif isinstance(item, RuleDrill):
        more = item.situation(sheet.drawn["situation"]).told.in_(tongue)
    told = item.told.in_(tongue)
    if judging.MACHINE in sheet.drawn:  # what the drill tells of its invented machine is not so of this one
        day = filters.day(date.fromisoformat(sheet.drawn[judging.MEASURED]))
        told = _(
            "This is %(machine)s in this shop. Measured on %(day)s.", machine=sheet.drawn[judging.MACHINE], day=day
        )
    return tuple(text for text in (told, more) if text)


def option_words(item: Item, option: str) -> str:
    """Return the words of an answer that can be picked."""
    if isinstance(item, Question):
        found = item.option(option)
        return found.text.in_(language.current()) if found else option
    if isinstance(item, RuleDrill):
        return item.rules[option].in_(language.current())
    return language.translate(NONE_FITS if option == NOTHING_FITS else say(SAFEGUARDS[option].name))


def new_key() -> str:
    """Return a key for one form on the glass, so that what it sends is stored once."""
    return secrets.token_urlsafe(12)


def _lesson(desk: work.Desk, lesson: Lesson) -> LessonPage:
    tongue, number = language.current(), desk.sheet.number
    before = str(number - 1) if number > 1 else ""
    return LessonPage(
        frame=sheet_frame(desk, title_of(desk.sheet), carrier="aside"),
        turn=turn_of(desk, "lesson", before=before),
        drawing=drawing_of(desk.sheet),
        heading=lesson.heading.in_(tongue),
        text=Markup(html(lesson.text.in_(tongue))),  # noqa: S704  (cleaned by bank.render)
    )


def _question(desk: work.Desk, item: Question | Drill) -> QuestionPage:
    now = pressed.held(desk)
    told, asked = told_of(item, desk.sheet), item.asked.in_(language.current())
    rows = pressed.rows(item, desk.sheet, now) if isinstance(item, Question) else _offered(desk, item, now)
    own = drawing_of(desk.sheet, now)
    lists = isinstance(item, Question) and item.kind in WHOLE_SHEET
    length = len(asked) + sum(map(len, told)) + sum(len(row.words) for row in rows)
    several = takes_presses(item)
    return QuestionPage(
        frame=sheet_frame(desk, title_of(desk.sheet), carrier="aside"),
        turn=turn_of(desk, "answer"),
        drawing=None if lists else own or outline(),
        told=told,
        asked=asked,
        rows=rows,
        key=new_key(),
        saved=pressed.is_whole(desk),
        tight=(own is not None and length > TIGHT) or len(rows) > ROOMY,
        told_left=own is None or isinstance(item, SelectDrill),
        name="row" if several else "choice",
        kind=item.kind,
        hint=pressed.hint(item),
        begun=several and bool(now.given or now.chosen),
        firsts=pressed.firsts(item, desk.sheet, now) if isinstance(item, Question) else (),
        slots=pressed.slots(item, desk.sheet, now) if isinstance(item, Question) else (),
        places=isinstance(item, OnDrawing),
    )


def _offered(desk: work.Desk, item: Drill, now: Pressed) -> tuple[Row, ...]:
    return tuple(
        Row(letter=letter, value=option, words=option_words(item, option), saved=option == now.chosen)
        for letter, option in zip(ascii_uppercase, desk.sheet.order, strict=False)
    )


def _drill(desk: work.Desk, drill: ComputeDrill) -> DrillPage:
    tongue = language.current()
    typed = _typed(desk, drill)
    refusal, readings = _doubt(desk, typed)
    worked = drills.worked(drill, desk.sheet.drawn)
    table = table_of(drill)
    return DrillPage(
        frame=sheet_frame(desk, title_of(desk.sheet), carrier="answer"),
        turn=turn_of(desk, "answer"),
        drawing=None if table else drawing_of(desk.sheet) or outline(),
        table=table,
        told=drill.told.in_(tongue),
        asked=drill.asked.in_(tongue),
        symbol=worked.steps[-1].symbol,
        given=given(drill, desk.sheet.drawn),
        formulas=formulas(worked),
        number=typed["number"],
        unit=typed["unit"],
        units=tuple(filter(None, DRILL_UNITS if field_of(drill).dimension == "length" else (drill.unit,))),
        decimal="," if tongue in units.DECIMAL_COMMA else ".",
        key=new_key(),
        saved=desk.answer is not None and not place.draft(place.spot(desk.row.id, desk.sheet.number)),
        refusal=refusal,
        readings=readings,
    )


def table_of(drill: ComputeDrill) -> ReadTable | None:
    """Return the published table that a drill is read from, in the reader's language."""
    found = published(drill.problem)
    if found is None:
        return None

    def words(cell: Sentence | str) -> str:
        return language.localise(cell) if isinstance(cell, str) else language.translate(cell)

    return ReadTable(
        caption=found.source,
        heads=tuple(map(words, found.heads)),
        rows=tuple(tuple(map(words, row)) for row in found.rows),
    )


def _typed(desk: work.Desk, drill: ComputeDrill) -> Mapping[str, str]:
    """Return what stands in the box: what was typed last, else what is on disk, else nothing."""
    kept = place.draft(place.spot(desk.row.id, desk.sheet.number))
    if kept:
        return {"number": kept["number"], "unit": kept["unit"] or _switch(drill.unit), "tried": kept["tried"]}
    if desk.answer is None:
        return {"number": "", "unit": _switch(drill.unit), "tried": ""}
    number, _space, unit = str(desk.answer.answer.get("value") or "").rpartition(" ")
    return {"number": language.localise(number), "unit": _switch(unit), "tried": ""}


def _switch(unit: str) -> str:
    return units.UNIT_SIGNS.get(unit, unit)


def _doubt(desk: work.Desk, typed: Mapping[str, str]) -> tuple[Sentence | str, tuple[str, ...]]:
    """Return why what was sent is no answer, or what it can mean; both empty when there is no doubt."""
    if not typed["tried"]:
        return "", ()
    try:
        read = work.read(desk, typed)
    except UsageError as error:
        return error.sentence, ()
    return (read.sentence, read.choices) if isinstance(read, AskBack) else ("", ())


def given(drill: ComputeDrill, drawn: Mapping[str, str], *more: Given) -> tuple[tuple[Given, ...], ...]:
    """Return what is given, in two columns: what was drawn as it was drawn, constants in the drill's unit, and ``more``."""
    fields = {field.symbol: field.key for field in problem(drill.problem).fields}
    rows = []
    for step in drills.worked(drill, drawn).given:
        key = fields.get(step.symbol, "")
        amount = drawn.get(key, step.shown)
        rows.append(Given(label=given_label(key, step), symbol=given_symbol(step), amount=given_amount(amount)))
    rows += more
    half = -(-len(rows) // 2)
    second = (*rows[half:], None) if len(rows) % 2 else tuple(rows[half:])
    return tuple(tuple(filter(None, pair)) for pair in zip(rows[:half], second, strict=True))
