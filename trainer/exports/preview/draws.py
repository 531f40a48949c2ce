"""The preview of a drill: its draws with the right answer and what each slip makes of it, or its choices."""

from collections.abc import Iterator, Mapping
from html import escape
from itertools import islice
from random import Random

from trainer.assessment import drills, judging
from trainer.assessment.selecting import key_of
from trainer.assessment.selfcheck import sample
from trainer.assessment.slip_values import SlipValues, slip_values
from trainer.bank import Bank
from trainer.bank.model import ComputeDrill, Drill, JudgeDrill, RuleDrill, SelectDrill
from trainer.errors import TrainerError
from trainer.exports.preview.pieces import drawings, facts, idea, language_name, sources, table, texts, told
from trainer.safeguarding.problems import problem
from trainer.safeguarding.show import amount, as_text

MOST = 200  # draws; of a larger range an even share is shown
JUDGED = 12  # draws of a drill that judges; their choices differ from draw to draw
SAME = "–"  # a slip that changes nothing in a draw


def drill_lines(bank: Bank, drill: Drill) -> Iterator[str]:
    """Give a drill: what is the same in each language, its words, its drawing and its draws."""
    competency = bank.competencies.get(drill.competency)
    yield from facts(
        {
            "Kind": drill.kind,
            "Version": str(drill.version),
            "Competency": f"{competency.name.in_('en') if competency else 'NOT IN THE BANK'} [{drill.competency}]",
            "Critical": "yes: a wrong answer fails the paper" if drill.critical else "no",
            "Sources": sources(bank, drill.sources),
            **_own_facts(drill),
        }
    )
    yield from texts(bank, "Asked", {"title": drill.title, "told": drill.told, "asked": drill.asked})
    try:
        yield from _draws(bank, drill)
    except TrainerError as error:
        yield f'<p class="bad">{escape(str(error))}</p>'


def worked_lines(drill: ComputeDrill, drawn: Mapping[str, str]) -> Iterator[str]:
    """Give the worked solution of one draw, and what each slip makes of it."""
    yield "<p><strong>Worked solution</strong></p>"
    yield f'<pre tabindex="0">{escape(as_text(drills.worked(drill, drawn)))}</pre>'
    known = _known(drill, drawn)
    values = {codes[0]: figure for codes, figure in known.singles}
    if drill.slips:
        rows = ([_slip(drill, code), _amount(drill, values.get(code))] for code in drill.slips)
        yield from table("What each slip makes of it", ("Slip", "Leads to"), rows)


def _own_facts(drill: Drill) -> dict[str, str]:
    if isinstance(drill, ComputeDrill):
        return {"Problem": drill.problem, "Unit": drill.unit, "Too far beyond": drill.over}
    return {"Numbers of": drill.base.id} if isinstance(drill, JudgeDrill) else {}


def _draws(bank: Bank, drill: Drill) -> Iterator[str]:
    if isinstance(drill, ComputeDrill):
        yield from _computed(bank, drill)
    elif isinstance(drill, SelectDrill):
        for setting in drill.settings:
            yield from _setting(bank, drill, setting.id)
    elif isinstance(drill, RuleDrill):
        yield from _situations(bank, drill)
    elif isinstance(drill, JudgeDrill):
        yield from _judged(bank, drill)


def _computed(bank: Bank, drill: ComputeDrill) -> Iterator[str]:
    drawn = list({tuple(one.items()): one for one in sample(drill, MOST)}.values())
    asked = next((one for one in drawn if not drills.refused(drill, one)), drawn[0])
    yield from drawings(bank, drill, asked)
    yield from worked_lines(drill, asked)
    caption = f"{len(drawn)} of {drills.size(drill)} draws"
    head = [*drill.inputs, "Right", *drill.slips, "Asked"]
    yield from table(caption, head, (_row(drill, one) for one in drawn))
    yield f"<p>{SAME} stands where a slip changes nothing.</p>"


def _row(drill: ComputeDrill, drawn: Mapping[str, str]) -> list[str]:
    inputs = [escape(drawn[key]) for key in drill.inputs]
    try:
        known, clash = _known(drill, drawn), next(drills.clashes(drill, drawn), None)
    except TrainerError as error:
        return [*inputs, "none", *(SAME for _ in drill.slips), f"no: {escape(str(error))}"]
    values = {codes[0]: figure for codes, figure in known.singles}
    slips = [_amount(drill, values.get(code)) for code in drill.slips]
    told_apart = f"no: {escape(clash.code)} is not told from {escape(clash.other)}" if clash else "yes"
    return [*inputs, f"<strong>{_amount(drill, known.right)}</strong>", *slips, told_apart]


def _known(drill: ComputeDrill, drawn: Mapping[str, str]) -> SlipValues:
    return slip_values(problem(drill.problem), drills.given(drill, drawn).numbers, drill.unit, drill.slips)


def _amount(drill: ComputeDrill, figure: object) -> str:
    rounded = getattr(figure, "rounded", None)
    return SAME if rounded is None else escape(amount(rounded, drill.unit, 3))


def _slip(drill: ComputeDrill, code: str) -> str:
    return f"{escape(problem(drill.problem).slip(code).title)} <code>{escape(code)}</code>"


def _setting(bank: Bank, drill: SelectDrill, ident: str) -> Iterator[str]:
    setting, key = drill.setting(ident), key_of(drill, ident)
    yield f"<section><h2>{escape(ident)}</h2>"
    yield from texts(bank, "Setting", {"told": setting.told})
    yield from drawings(bank, drill, {"setting": ident})
    rows = []
    for code in setting.offered:
        verdict = key.verdicts.get(code)
        word = verdict.verdict.value.replace("-", " ") if verdict else ""
        rows.append([escape(code), key.worth[code].value, escape(word), idea(bank, setting.tempting.get(code))])
    yield from table("Offered", ("Safeguard", "Worth", "Verdict of the rules", "Choosing it shows"), rows)
    yield from facts(drill.facts_of(ident))
    yield "</section>"


def _situations(bank: Bank, drill: RuleDrill) -> Iterator[str]:
    yield from drawings(bank, drill)
    for situation in drill.situations:
        yield f"<section><h2>{escape(situation.id)}</h2>"
        yield from texts(bank, "Situation", {"told": situation.told, "why": situation.why})
        choices = judging.choices(drill, {"situation": situation.id})
        rows = ([escape(one.id), _word(right=one.right), *told(bank, drill.rules.get(one.rule))] for one in choices)
        yield from table("Choices", ("Choice", "Key", *(language_name(code) for code in bank.languages)), rows)
        yield "</section>"


def _judged(bank: Bank, drill: JudgeDrill) -> Iterator[str]:
    """Give a few draws, always the same ones, with all that can be chosen."""
    seeds = (judging.draw(drill, Random(seed)) for seed in range(4 * JUDGED))  # noqa: S311  (a sample, no secret)
    drawn = list(islice({tuple(one.items()): one for one in seeds}.values(), JUDGED))
    yield from drawings(bank, drill, drawn[0])
    yield f"<p>{len(drawn)} draws of the {drills.size(drill.base)} of {escape(drill.base.id)}, with what is judged in each.</p>"
    for number, one in enumerate(drawn, 1):
        yield f"<section><h2>Draw {number}</h2>"
        yield from facts(dict(one))
        choices = judging.choices(drill, one)
        rows = (
            [escape(choice.id), _word(right=choice.right), _said(choice), _shows(bank, drill, choice)]
            for choice in choices
        )
        yield from table("Choices", ("Choice", "Key", "Says", "Choosing it shows"), rows)
        yield "</section>"
    yield "<p><strong>Right working of the first</strong></p>"
    yield f'<pre tabindex="0">{escape(as_text(judging.working(drill, drawn[0])))}</pre>'


def _said(choice: judging.Choice) -> str:
    if choice.step is not None:
        return escape(f"{choice.step.label}: {choice.step.symbol} = {choice.step.substituted} = {choice.step.shown}")
    return escape(str(choice.words or ""))


def _shows(bank: Bank, drill: JudgeDrill, choice: judging.Choice) -> str:
    if choice.right:
        return ""
    return _slip(drill.base, choice.slip) if choice.slip else idea(bank, choice.misconception or None)


def _word(*, right: bool) -> str:
    return "<strong>right</strong>" if right else "wrong"
