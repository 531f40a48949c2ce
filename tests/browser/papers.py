"""Papers made for a test: a small one with each kind of sheet, and long ones that show everything there is."""

import random
from collections.abc import Iterable, Iterator, Sequence

from web.plant import Plant

from trainer.assessment import drills, judging
from trainer.assessment.answers import Answer
from trainer.assessment.marking import mark
from trainer.assessment.model_answers import right_answer, showing, shown_by
from trainer.assessment.paper import Paper, Sheet, SheetKind, question_sheet
from trainer.assessment.pressing import takes_presses
from trainer.bank import Bank
from trainer.bank.model import ComputeDrill, Drill, JudgeDrill, Question, RuleDrill, SelectDrill
from trainer.records import people, sittings
from trainer.safeguarding.problems import problem
from trainer.units import digits, magnitude

INDUCTION = "press-brake-operator-induction"
SEED = 5
PAPER = ("PB-S14/l1", "PB-S14/q2", "PB-D01", "PB-D03", "PB-S10/q3")


def seat(plant: Plant, number: str, *, at: int = 1, items: Iterable[str] = PAPER) -> str:
    """Let a person have an open sitting of the small paper, come to sheet ``at``; return its id."""
    bank = plant.site.bank
    sheets = [sheet_of(bank, place, item) for place, item in enumerate(items, 1)]
    return open_sitting(plant, number, sheets, at=at)


def open_sitting(plant: Plant, number: str, sheets: list[Sheet], *, at: int = 1, programme: str = INDUCTION) -> str:
    bank, record = plant.site.bank, plant.site.record
    paper = Paper(
        programme=programme, edition=bank.edition, fingerprint=bank.fingerprint, seed=SEED, sheets=tuple(sheets)
    )
    with record.writing() as w:
        (person,) = people.with_number(w, number)
        row = sittings.start(
            w, bank, person=person.key, programme=programme, paper=paper, language=person.language, kiosk="kiosk 1"
        )
        sittings.move_to(w, row.id, at)
    return row.id


def sheet_of(bank: Bank, number: int, item: str, drawn: dict[str, str] | None = None) -> Sheet:
    """Make the sheet of an item; what a drill draws comes from a fixed seed unless it is given."""
    found = bank.item(item)
    if isinstance(found, Question):
        made = question_sheet(found, random.Random(SEED), critical=False)
        kept = {} if takes_presses(found) else {"order": tuple(option.id for option in found.options)}
        return Sheet(number=number, **{**made, **kept})
    if isinstance(found, Drill):
        draw = judging.draw if isinstance(found, JudgeDrill | RuleDrill) else drills.draw
        return _drill(found, number, drawn or dict(draw(found, random.Random(SEED))))
    competency = bank.scenarios[found.scenario].competencies[0]
    return Sheet(number=number, kind=SheetKind.LESSON, item=item, version=0, competency=competency)


def _drill(drill: Drill, number: int, drawn: dict[str, str]) -> Sheet:
    order: Iterable[str] = ()
    if isinstance(drill, SelectDrill):
        order = drill.setting(drawn["setting"]).offered
    elif isinstance(drill, JudgeDrill | RuleDrill):
        order = [choice.id for choice in judging.choices(drill, drawn)]
    return Sheet(
        number=number,
        kind=SheetKind.DRILL,
        item=drill.id,
        version=drill.version,
        competency=drill.competency,
        order=tuple(order),
        drawn=drawn,
    )


Made = tuple[str, dict[str, str] | None, Answer | None]


def seated(plant: Plant, number: str, rows: Sequence[Made], *, lock: bool) -> list[str]:
    """Seat a person at papers that hold all of ``rows``, answered; return the address of every sheet.

    Each programme gets its share: a paper a thousand sheets long is read slowly, and nobody will ever sit one.
    """
    bank, found = plant.site.bank, []
    programmes = list(bank.programmes)
    share = -(-len(rows) // len(programmes))
    for programme, start in zip(programmes, range(0, len(rows), share), strict=False):
        some = rows[start : start + share]
        sheets = [sheet_of(bank, place, item, drawn) for place, (item, drawn, _answer) in enumerate(some, 1)]
        sitting = open_sitting(plant, number, sheets, at=len(sheets), programme=programme)
        answer_all(plant, sitting, sheets, [answer for _item, _drawn, answer in some], lock=lock)
        found += [f"/sittings/{sitting}/{sheet.number}" for sheet in sheets]
    return found


def asked(bank: Bank) -> list[Made]:
    """Give every sheet as it is asked, once."""
    return list(
        {
            (item, tuple((drawn or {}).items())): (item, drawn, answer) for item, drawn, answer in everything(bank)
        }.values()
    )


def told(bank: Bank) -> list[Made]:
    """Give every answer about which something is said."""
    return [one for one in everything(bank) if one[2] is not None]


def told_once(bank: Bank) -> list[Made]:
    """Give of every item one wrong answer, the last of those that there are."""
    return list({item: (item, drawn, answer) for item, drawn, answer in told(bank)}.values())


def fullest(bank: Bank, rows: Sequence[Made]) -> list[Made]:
    """Give what is likeliest not to fit: of each kind the third with the most to say, and of drills all."""
    few: set[str] = set()
    for kind in {_kind(bank, item) for item, _drawn, _answer in rows}:
        of_kind = sorted({one for one, _d, _a in rows if _kind(bank, one) == kind}, key=lambda one: _words(bank, one))
        few |= set(of_kind if kind.endswith("Drill") else of_kind[-max(6, len(of_kind) // 3) :])
    return [row for row in rows if row[0] in few]


def _kind(bank: Bank, item: str) -> str:
    return type(bank.item(item)).__name__


def _words(bank: Bank, item: str) -> tuple[int, str]:
    return len(bank.item(item).model_dump_json()), item


def everything(bank: Bank) -> Iterator[Made]:
    """Give every lesson, every question with each wrong answer, every safeguard to pick, every slip of every drill."""
    for lesson in bank.lessons:
        yield lesson, None, None
    for question in bank.questions.values():
        sheet = sheet_of(bank, 1, question.id)
        yield question.id, None, right_answer(question, sheet)
        for answer in filter(None, (showing(question, sheet, one) for one in shown_by(question))):
            yield question.id, None, answer
    for drill in bank.drills.values():
        if isinstance(drill, JudgeDrill | RuleDrill):
            yield from _judged(drill)
        else:
            yield from _select(drill) if isinstance(drill, SelectDrill) else _compute(drill)


def _select(drill: SelectDrill) -> Iterator[tuple[str, dict[str, str], Answer]]:
    for setting in drill.settings:
        for code in setting.offered:
            yield drill.id, {"setting": setting.id}, Answer(item=drill.id, chosen=code)


def _judged(drill: JudgeDrill | RuleDrill) -> Iterator[Made]:
    """Give a draw for every slip or situation, with each of its choices."""
    drawn = [dict(judging.draw(drill, random.Random(seed))) for seed in range(40)]
    named = {draw.get("situation") or draw.get(judging.SLIP): draw for draw in drawn}
    for draw in list(named.values())[:6]:
        for choice in judging.choices(drill, draw):
            yield drill.id, draw, Answer(item=drill.id, chosen=choice.id)


def _compute(drill: Drill) -> Iterator[tuple[str, dict[str, str], Answer]]:
    assert isinstance(drill, ComputeDrill)
    for code in drill.slips:
        for seed in range(40):
            drawn = dict(drills.draw(drill, random.Random(seed)))
            made = problem(drill.problem).wrong(problem(drill.problem).read(drawn), code)
            if made is not None:
                number = digits(magnitude(made.rounded, drill.unit), 3)
                yield drill.id, drawn, Answer(item=drill.id, value=f"{number} {drill.unit}")
                break


def answer_all(plant: Plant, sitting: str, sheets: list[Sheet], answers: list[Answer | None], *, lock: bool) -> None:
    """Put an answer on every sheet that asks for one."""
    with plant.site.record.writing() as w:
        for sheet, answer in zip(sheets, answers, strict=True):
            if answer is None:
                continue
            marked = mark(plant.site.bank, sheet, answer)
            sittings.save_answer(w, sitting, sheet.number, answer, marked, key=f"k{sheet.number}", took_ms=9_000)
            if lock:
                sittings.lock(w, sitting, sheet.number)
