"""Feedback: what an answer would do at the machine, where it went wrong, and why the right one is right."""

from collections.abc import Mapping
from string import ascii_uppercase

from markupsafe import Markup

from trainer import figures
from trainer.assessment import judging
from trainer.assessment.answers import Answer
from trainer.assessment.feedback import Feedback, feedback
from trainer.assessment.marking import Mark, Verdict
from trainer.bank.bank import Item
from trainer.bank.model import ComputeDrill, JudgeDrill, Number, OnDrawing, Question, RuleDrill, SelectDrill
from trainer.safeguarding.result import Step, Worked
from trainer.units import show
from trainer.web import language
from trainer.web.kiosk import sheets, work
from trainer.web.kiosk.labels import bare, step_label
from trainer.web.kiosk.looking_back import looked
from trainer.web.kiosk.pages import Compared, RacePage, WhyPage, WorkingLine
from trainer.web.rooms import rooms
from trainer.web.words import _
from trainer.wording import Sentence, say
from trainer.wording import mark as mark_

STANDS = mark_("stands: {distance}")  # beside the first row of the race
CROWDED = 5  # steps of a working beyond which its lines move closer


def feedback_page(desk: work.Desk) -> RacePage | WhyPage:
    """Return the page of a sheet that is answered and locked."""
    stored = desk.answer
    assert stored is not None  # noqa: S101  (a sheet is locked only with its answer)
    answer, mark = Answer.from_data(stored.answer), Mark.from_data(stored.mark)
    said = feedback(rooms().bank, desk.sheet, answer, mark, language.current())
    if isinstance(rooms().bank.item(desk.sheet.item), ComputeDrill | Number | JudgeDrill):
        return _race(desk, said)
    return _why(desk, said, answer, mark)


def _race(desk: work.Desk, said: Feedback) -> RacePage:
    lines = _working(said)
    return RacePage(
        frame=sheets.sheet_frame(desk, sheets.title_of(desk.sheet), carrier="aside"),
        turn=sheets.turn_of(desk, "feedback"),
        verdict=str(said.verdict),
        headline=said.headline,
        told=said.told,
        figure=_figure(said),
        drawing=sheets.drawing_of(desk.sheet),
        lines=lines,
        tells=() if any(line.slip for line in lines) else said.slip_tells,
        crowded=len(lines) >= CROWDED,
    )


def _figure(said: Feedback) -> figures.Figure | None:
    if said.worked is None or not figures.can_race(said.worked):
        return None
    if said.your is None:
        return None
    own = STANDS if said.stands else figures.YOURS
    return figures.race(said.worked, said.your, unit=said.worked.unit, translate=language.translate, own=own)


def _working(said: Feedback) -> tuple[WorkingLine, ...]:
    worked = said.worked
    if worked is None:
        return ()
    steps = list(enumerate(worked.steps, 1))
    gives = [number for number, step in steps if step.value == worked.value] or [len(steps)]
    return tuple(_line(number, step, said, worked, last=number == gives[-1]) for number, step in steps)


def _line(number: int, step: Step, said: Feedback, worked: Worked, *, last: bool) -> WorkingLine:
    label, numbers, amount, slip = step_label(step), step.substituted, step.shown, _slip(said, step)
    if last and said.needed is not None:
        if said.needed < worked.value:
            label = _("%(step)s, rounded down", step=label)
        elif said.needed > worked.value:
            label = _("%(step)s, rounded up", step=label)
        numbers = f"{bare(numbers, amount)} = {amount}"
        amount = show(said.needed, worked.unit, 4)
    return WorkingLine(
        number=number,
        label=label,
        formula=f"{step.symbol} = {step.formula}",
        numbers=numbers,
        amount=amount,
        slip=slip,
        used=_used(said) if slip else None,
    )


def _used(said: Feedback) -> Sentence | None:
    if not said.slip_used:
        return None
    return say("It says {used}.", used=said.slip_used) if said.others else say("You had {used}.", used=said.slip_used)


def _slip(said: Feedback, step: Step) -> tuple[Sentence, ...]:
    """Return what to say at the step that went wrong: the mistake by name."""
    if said.slip_symbol != step.symbol or not said.slip_tells:
        return ()
    return said.slip_tells[:2]


def _why(desk: work.Desk, said: Feedback, answer: Answer, mark: Mark) -> WhyPage:
    item = rooms().bank.item(desk.sheet.item)
    letters = dict(zip(desk.sheet.order, ascii_uppercase, strict=False))
    why: list[str | Sentence] = (
        [said.misconception, said.why, *said.reasons] if not mark.right else [said.why, *said.reasons]
    )
    listed = looked(item, desk.sheet, said) if isinstance(item, Question) else ()
    return WhyPage(
        frame=sheets.sheet_frame(desk, sheets.title_of(desk.sheet), carrier="aside"),
        turn=sheets.turn_of(desk, "feedback"),
        verdict="right" if mark.right else str(Verdict.WRONG),
        headline=said.headline,
        told=sheets.told_of(item, desk.sheet),  # type: ignore[arg-type]
        asked=item.asked.in_(language.current()),  # type: ignore[union-attr]
        drawing=_drawing(desk, item, answer, listed=bool(listed)),
        compared=() if listed else tuple(_compared(desk, answer, mark, letters, said)),
        looked=listed,
        why=tuple(part for part in why if part)[:2],
    )


def _drawing(desk: work.Desk, item: Item, answer: Answer, *, listed: bool) -> Markup | None:
    """Return the drawing of a sheet that is looked back on; a list without one of its own needs the room."""
    if isinstance(item, OnDrawing):
        return sheets.drawing_of(desk.sheet, answer.pressed, marked=True)
    if isinstance(item, RuleDrill):
        return sheets.outline()
    if listed:
        return None
    return None if isinstance(item, SelectDrill) else sheets.hazard_of(desk.sheet)


def _compared(
    desk: work.Desk, answer: Answer, mark: Mark, letters: Mapping[str, str], said: Feedback
) -> list[Compared]:
    item, chosen = rooms().bank.item(desk.sheet.item), answer.chosen or ""
    yours = Compared(
        label=_("You chose"), letter=letters.get(chosen, ""), words=sheets.option_words(item, chosen), yours=True
    )
    better = said.better if mark.better or not mark.right else ()
    if isinstance(item, RuleDrill) and not mark.right:
        key = judging.right_choice(item, desk.sheet.drawn).id
        return [
            yours,
            Compared(label=_("Right is"), letter=letters[key], words=sheets.option_words(item, key), yours=False),
        ]
    right = (said.key,) if said.key and not mark.right else tuple(map(language.translate, better))
    words = {sheets.option_words(item, option): letters[option] for option in desk.sheet.order}
    return [
        yours,
        *(Compared(label=_("Right is"), letter=words.get(text, ""), words=text, yours=False) for text in right),
    ]
