"""The preview of a scenario, its lesson sheets and its questions."""

from collections.abc import Iterator
from html import escape
from string import ascii_uppercase

from trainer.bank import Bank
from trainer.bank.model import Lesson, Number, OnDrawing, Option, Order, Question, Scenario
from trainer.errors import TrainerError
from trainer.exports.preview.draws import worked_lines
from trainer.exports.preview.pieces import drawings, facts, idea, language_name, sources, table, texts, told

RIGHT, WRONG = "<strong>right</strong>", "wrong"


def scenario_lines(bank: Bank, scenario: Scenario) -> Iterator[str]:
    """Give everything of a scenario: its head, then its sheets."""
    yield from facts(
        {
            "Kind": "scenario",
            "Theme": scenario.theme or "",
            "Roles": ", ".join(scenario.roles),
            "Competencies": ", ".join(scenario.competencies),
            "Sources": sources(bank, scenario.sources),
        }
    )
    yield from texts(bank, "Title", {"title": scenario.title})
    for lesson in scenario.lessons:
        yield f"<section><h2>{escape(lesson.id)}</h2>"
        yield from lesson_lines(bank, lesson)
        yield "</section>"
    for question in scenario.questions:
        yield f"<section><h2>{escape(question.id)}</h2>"
        yield from question_lines(bank, question)
        yield "</section>"


def lesson_lines(bank: Bank, lesson: Lesson) -> Iterator[str]:
    """Give a lesson sheet."""
    yield from facts({"Kind": "lesson", "Sources": sources(bank, bank.scenarios[lesson.scenario].sources)})
    yield from texts(bank, "Lesson", {"heading": lesson.heading, "text": lesson.text}, markdown=True)
    yield from drawings(bank, lesson)


def question_lines(bank: Bank, question: Question) -> Iterator[str]:
    """Give a question with its key, what each wrong answer shows, why, and its sources."""
    competency = bank.competencies.get(question.competency)
    yield from facts(
        {
            "Kind": question.kind,
            "Version": str(question.version),
            "Competency": f"{competency.name.in_('en') if competency else 'NOT IN THE BANK'} [{question.competency}]",
            "Critical": "yes: a wrong answer fails the paper" if question.critical else "no",
            "Sources": sources(bank, question.sources),
        }
    )
    yield from texts(bank, "Asked", {"told": question.told, "asked": question.asked})
    yield from drawings(bank, question)
    if question.options:
        yield from _options(bank, question, question.options, "Options")
    if question.reasons:
        yield from _options(bank, question, question.reasons, "Reasons")
    if question.mistakes:
        joint = "with the partner of" if question.kind == "match" else "before"
        rows = (
            [f"{escape(one.first)} {joint} {escape(one.then)}", idea(bank, one.misconception)]
            for one in question.mistakes
        )
        yield from table("What mistakes show", ("Mistake", "Shows"), rows)
    if isinstance(question, Number):
        try:
            yield from worked_lines(question.drill, question.inputs)
        except TrainerError as error:
            yield f'<p class="bad">{escape(str(error))}</p>'
    yield from texts(bank, "Why", {"why": question.why})


def _options(bank: Bank, question: Question, listed: tuple[Option, ...], caption: str) -> Iterator[str]:
    partners = any(option.partner for option in listed)
    head = ["Option", "Key", "A wrong answer shows", *(language_name(code) for code in bank.languages)]
    head += [f"Partner, {language_name(code)}" for code in bank.languages] if partners else []
    yield from table(caption, head, (_option(bank, question, *one, partners=partners) for one in enumerate(listed)))


def _option(bank: Bank, question: Question, number: int, option: Option, *, partners: bool) -> list[str]:
    letter = f" (balloon {ascii_uppercase[number]})" if isinstance(question, OnDrawing) else ""
    row = [f"{escape(option.id)}{letter}", _key(question, number, option), idea(bank, option.misconception)]
    row += told(bank, option.text)
    return row + (told(bank, option.partner) if partners else [])


def _key(question: Question, number: int, option: Option) -> str:
    if isinstance(question, Order):
        return f"step {number + 1}"
    if question.kind == "match":
        return "with its partner"
    return RIGHT if option.right else WRONG
