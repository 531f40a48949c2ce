"""The sheets of a paper: to read, to choose, to work out."""

import secrets
from collections.abc import Mapping
from string import ascii_uppercase
from typing import Any

from markupsafe import Markup

from trainer import units
from trainer.assessment import drills
from trainer.assessment.answers import AskBack, field_of
from trainer.assessment.paper import NOTHING_FITS, Sheet
from trainer.bank.bank import Item
from trainer.bank.model import ComputeDrill, Drill, Lesson, Question, SelectDrill
from trainer.bank.render import html
from trainer.errors import UsageError
from trainer.figures import scene
from trainer.safeguarding.problems import problem
from trainer.safeguarding.selection import SAFEGUARDS
from trainer.web import language
from trainer.web.kiosk import place, work
from trainer.web.kiosk.formulas import formulas
from trainer.web.kiosk.frames import frame, item_boxes, zones
from trainer.web.kiosk.labels import given_label
from trainer.web.kiosk.pages import DrillPage, Frame, Given, LessonPage, QuestionPage, Row, Turn
from trainer.web.rooms import rooms
from trainer.web.words import _
from trainer.wording import Sentence, say

NONE_FITS = say("None of these: do not run this job here.")
DRILL_UNITS = ("mm", "in")
LOW = (660, 360)
TIGHT = 290  # characters of one sheet's words beyond which the lines move closer


def sheet_page(desk: work.Desk) -> LessonPage | QuestionPage | DrillPage:
    """Return the page of a sheet whose feedback has not been shown."""
    item = rooms().bank.item(desk.sheet.item)
    if isinstance(item, Lesson):
        return _lesson(desk, item)
    if isinstance(item, ComputeDrill):
        return _drill(desk, item)
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


def drawing_of(sheet: Sheet) -> Markup | None:
    """Return a sheet's drawing as SVG, or None where it has none."""
    found = rooms().bank.drawing(sheet.item)
    if found is None:
        return None
    spec, told = found
    words = rooms().bank.labels(language.current())
    if isinstance(rooms().bank.item(sheet.item), SelectDrill):
        spec = _lower(spec)
    svg = scene(
        spec,
        words=words,
        title=title_of(sheet),
        description=told.in_(language.current()),
        numbers={key: language.localise(value) for key, value in sheet.drawn.items()},
    )
    return Markup(svg)  # noqa: S704  (drawn by figures, which escapes every word)


def _lower(spec: Mapping[str, Any]) -> Mapping[str, Any]:
    """Draw the same parts on a lower sheet, so that there is room above it for what is told."""
    kept = {key: spec[key] for key in ("view", "parts")}
    return {**kept, "size": LOW, "place": {"x": 128, "y": 352, "scale": 0.132}}


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
    setting = item.setting(sheet.drawn["setting"]).told.in_(tongue) if isinstance(item, SelectDrill) else ""
    return tuple(text for text in (item.told.in_(tongue), setting) if text)


def option_words(item: Item, option: str) -> str:
    """Return the words of an answer that can be picked."""
    if isinstance(item, Question):
        found = item.option(option)
        return found.text.in_(language.current()) if found else option
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
    stored = desk.answer.answer.get("chosen") if desk.answer else None
    told, asked = told_of(item, desk.sheet), item.asked.in_(language.current())
    rows = tuple(
        Row(letter=letter, value=option, words=option_words(item, option), saved=option == stored)
        for letter, option in zip(ascii_uppercase, desk.sheet.order, strict=False)
    )
    drawing = drawing_of(desk.sheet)
    length = len(asked) + sum(map(len, told)) + sum(len(row.words) for row in rows)
    return QuestionPage(
        frame=sheet_frame(desk, title_of(desk.sheet), carrier="aside"),
        turn=turn_of(desk, "answer"),
        drawing=drawing,
        told=told,
        asked=asked,
        rows=rows,
        key=new_key(),
        saved=stored is not None,
        tight=drawing is not None and length > TIGHT,
        told_left=drawing is None or isinstance(item, SelectDrill),
    )


def _drill(desk: work.Desk, drill: ComputeDrill) -> DrillPage:
    tongue = language.current()
    typed = _typed(desk, drill)
    refusal, readings = _doubt(desk, typed)
    worked = drills.worked(drill, desk.sheet.drawn)
    return DrillPage(
        frame=sheet_frame(desk, title_of(desk.sheet), carrier="answer"),
        turn=turn_of(desk, "answer"),
        drawing=drawing_of(desk.sheet),
        told=drill.told.in_(tongue),
        asked=drill.asked.in_(tongue),
        symbol=worked.steps[-1].symbol,
        given=_given(drill, desk.sheet),
        formulas=formulas(worked),
        number=typed["number"],
        unit=typed["unit"],
        units=DRILL_UNITS if field_of(drill).dimension == "length" else (drill.unit,),
        decimal="," if tongue in language.DECIMAL_COMMA else ".",
        key=new_key(),
        saved=desk.answer is not None and not place.draft(place.spot(desk.row.id, desk.sheet.number)),
        refusal=refusal,
        readings=readings,
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


def _given(drill: ComputeDrill, sheet: Sheet) -> tuple[tuple[Given, ...], ...]:
    """Return what is given, in two columns: what was drawn as it was drawn, then constants in the drill's unit."""
    fields = {field.symbol: field.key for field in problem(drill.problem).fields}
    rows = []
    for step in drills.worked(drill, sheet.drawn).given:
        key = fields.get(step.symbol, "")
        amount = sheet.drawn.get(key, step.shown)
        rows.append(Given(label=given_label(key, step), symbol=step.symbol, amount=language.localise(amount)))
    half = -(-len(rows) // 2)
    second = (*rows[half:], None) if len(rows) % 2 else tuple(rows[half:])
    return tuple(tuple(filter(None, pair)) for pair in zip(rows[:half], second, strict=True))
