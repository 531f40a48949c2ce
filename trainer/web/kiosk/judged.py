"""Sheets on which the numbers or the working of somebody else are judged, or a rule is chosen for a situation."""

from functools import lru_cache
from string import ascii_uppercase

from trainer.assessment import judging
from trainer.assessment.judging import Choice
from trainer.bank.model import Drill, JudgeDrill, RuleDrill
from trainer.safeguarding.problems import problem
from trainer.web import language
from trainer.web.kiosk import pressed, sheets, work
from trainer.web.kiosk.formulas import formulas
from trainer.web.kiosk.labels import bare, given_amount, step_label
from trainer.web.kiosk.pages import Given, QuestionPage, Row
from trainer.web.words import _


def judged_page(desk: work.Desk, item: JudgeDrill | RuleDrill) -> QuestionPage:
    """Return the sheet: what is told and given on the left, what can be chosen on the right."""
    now = pressed.held(desk).chosen
    rows = tuple(
        Row(
            letter=letter,
            value=choice.id,
            words=words(item, choice),
            saved=choice.id == now,
            formula=_formula(choice.rule) if choice.rule else "",
        )
        for letter, choice in zip(ascii_uppercase, _shown(item, desk), strict=False)
    )
    return QuestionPage(
        frame=sheets.sheet_frame(desk, sheets.title_of(desk.sheet), carrier="aside"),
        turn=sheets.turn_of(desk, "answer"),
        drawing=sheets.drawing_of(desk.sheet) or sheets.outline(),
        told=sheets.told_of(item, desk.sheet),
        asked=item.asked.in_(language.current()),
        rows=rows,
        key=sheets.new_key(),
        saved=bool(now),
        tight=len(rows) > sheets.ROOMY,
        told_left=True,
        kind=f"judged {item.kind}",
        given=_given(item, desk),
    )


def words(item: Drill, choice: Choice) -> str:
    """Return what a choice says: its sentence, a line of the working, or what a rule counts."""
    if choice.step is not None:
        step = choice.step
        line = f"{bare(step.substituted, step.shown)} = {step.shown}" if step.substituted else step.shown
        return f"{step_label(step)}: {language.localise(line)}"
    if isinstance(item, RuleDrill):
        return item.rules[choice.rule].in_(language.current())
    return language.translate(choice.words) if choice.words else ""


def _shown(item: JudgeDrill | RuleDrill, desk: work.Desk) -> list[Choice]:
    known = {choice.id: choice for choice in judging.choices(item, desk.sheet.drawn)}
    return [known[ident] for ident in desk.sheet.order if ident in known]


def _given(item: JudgeDrill | RuleDrill, desk: work.Desk) -> tuple[tuple[Given, ...], ...]:
    if not isinstance(item, JudgeDrill):
        return ()
    stands = desk.sheet.drawn.get(judging.MOUNTED)
    more = [Given(label=_("It stands at"), symbol="", amount=given_amount(stands))] if stands else []
    return sheets.given(item.base, judging.numbers(desk.sheet.drawn), *more)


@lru_cache(maxsize=64)
def _formula(name: str) -> str:
    """Return the formula of a rule as the sums write it for their own example."""
    found = problem(name)
    examples = {field.key: field.example for field in found.fields if not field.optional}
    made = formulas(found.solve(found.read(examples)))
    return next((formula for formula in made if "max(" not in formula), made[0])
