"""One sheet of a talk as it is shown on the wall, with the drawing, the question to talk about, and the race."""

from collections.abc import Mapping
from string import ascii_uppercase
from typing import Any

from markupsafe import Markup

from trainer import figures, units
from trainer.assessment import drills
from trainer.assessment.paper import Sheet
from trainer.bank import Bank
from trainer.bank.model import ComputeDrill, Lesson, Question
from trainer.bank.render import html
from trainer.errors import BadQuantity
from trainer.figures.race import RACED
from trainer.safeguarding.result import Worked
from trainer.web.desk.frames import desk_frame
from trainer.web.desk.talkpages import Offered, ShownPage
from trainer.web.language import current, localise, translate
from trainer.web.sheet import Box
from trainer.web.words import _
from trainer.wording import Sentence, mark

ROOM = mark("the room: {distance}")


def racing(bank: Bank) -> list[tuple[str, str]]:
    """Return the drills whose answer can be shown as a race: id and title."""
    return [(one.id, one.title.in_(current())) for one in bank.computed.values() if one.problem in RACED]


def wall_page(bank: Bank, topic: str, sheet: Sheet, count: int, *, says: str, revealed: bool, here: str) -> ShownPage:
    """Build one sheet. ``says`` is the distance that the room agreed on, ``revealed`` whether the answer is shown."""
    item, language = bank.item(sheet.item), current()
    found: dict[str, Any] = dict(_NOTHING)
    if isinstance(item, Lesson):
        found |= {"heading": item.heading.in_(language), "text": Markup(html(item.text.in_(language)))}  # noqa: S704  (cleaned by bank.render)
    elif isinstance(item, Question):
        found |= _question(item, sheet, revealed=revealed)
    elif isinstance(item, ComputeDrill):
        found |= _drill(item, sheet, says, revealed=revealed)
    name = _("%(number)s of %(count)s", number=sheet.number, count=count)
    return ShownPage(
        frame=desk_frame("desk.talks", topic, Box(label=_("Sheet of the talk"), value=name)),
        topic=topic,
        number=sheet.number,
        count=count,
        drawing=_drawing(bank, sheet),
        revealed=revealed,
        says=says,
        here=here,
        **found,
    )


_NOTHING: Mapping[str, Any] = {
    "heading": "",
    "text": None,
    "told": (),
    "asked": "",
    "options": (),
    "why": "",
    "given": (),
    "race": None,
    "needed": "",
    "refusal": None,
    "is_drill": False,
}


def _question(item: Question, sheet: Sheet, *, revealed: bool) -> dict[str, Any]:
    language = current()
    options = [item.option(name) for name in sheet.order]
    return {
        "told": (item.told.in_(language),),
        "asked": item.asked.in_(language),
        "options": tuple(
            Offered(letter=letter, words=one.text.in_(language), right=revealed and one.right)
            for letter, one in zip(ascii_uppercase, options, strict=False)
            if one is not None
        ),
        "why": item.why.in_(language) if revealed else "",
    }


def _drill(item: ComputeDrill, sheet: Sheet, says: str, *, revealed: bool) -> dict[str, Any]:
    worked = drills.worked(item, sheet.drawn)
    race, refusal = _race(worked, says)
    needed = localise(units.show(worked.rounded, worked.unit))
    return {
        "told": (item.told.in_(current()),),
        "asked": item.asked.in_(current()),
        "given": tuple((translate(step.label), localise(step.shown)) for step in worked.given),
        "race": race,
        "refusal": refusal,
        "needed": needed if revealed or race else "",
        "is_drill": True,
    }


def _race(worked: Worked, says: str) -> tuple[Any | None, Sentence | None]:
    """Draw what the room's distance would do; a sentence instead where it cannot be read."""
    if not says.strip() or not figures.can_race(worked):
        return None, None
    try:
        value = units.parse(says, "length")
    except BadQuantity as error:
        return None, error.sentence
    return figures.race(worked, value, unit=worked.unit, translate=translate, own=ROOM), None


def _drawing(bank: Bank, sheet: Sheet) -> Markup | None:
    found = bank.drawing(sheet.item)
    if found is None:
        return None
    spec, told = found
    numbers = {key: localise(value) for key, value in sheet.drawn.items()}
    svg = figures.scene(
        spec,
        words=bank.labels(current()),
        title=told.in_(current()),
        description=told.in_(current()),
        numbers=numbers,
    )
    return Markup(svg)  # noqa: S704  (drawn by figures, which escapes every word)
