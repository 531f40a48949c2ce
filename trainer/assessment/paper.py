"""A paper: the sheets drawn for one sitting, the same again for the same seed.

A paper keeps everything that decides what was seen: items with their versions, the order of the options, the drawn
numbers, the bank's edition and fingerprint. So it can be printed again years later exactly as it was.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from enum import StrEnum
from random import Random
from types import MappingProxyType
from typing import Any, Self

from trainer.assessment import drills, judging
from trainer.assessment.choosing import choose
from trainer.assessment.own import OwnMachine, own_drill
from trainer.bank import Bank
from trainer.bank.model import (
    Drill,
    JudgeDrill,
    Lesson,
    Match,
    Number,
    Order,
    Programme,
    Question,
    RuleDrill,
    SelectDrill,
)
from trainer.errors import UsageError
from trainer.wording import say

TRIES = 20  # times that the choice is made again before a paper that repeats the last one is let through
NOTHING_FITS = "none"  # the option that says that no safeguard offered is usable here


class SheetKind(StrEnum):
    """What a sheet is for: to read, to pick an answer, or to work one out."""

    LESSON = "lesson"
    QUESTION = "question"
    DRILL = "drill"


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """One screen of a paper.

    ``order`` holds the ids of the options as shown, ``second`` those of the other list where a question has two:
    the partners to match, the reasons to give. ``drawn`` holds the inputs of a number as text with their units
    (``{"stopping-time": "120 ms"}``), or the setting of a drill that asks for a safeguard. A lesson has version 0.
    """

    number: int
    kind: SheetKind
    item: str
    version: int
    competency: str
    critical: bool = False
    order: tuple[str, ...] = ()
    second: tuple[str, ...] = ()
    drawn: Mapping[str, str] = field(default_factory=lambda: MappingProxyType({}))

    def as_data(self) -> dict[str, Any]:
        """Return it as plain data that JSON can hold."""
        data: dict[str, Any] = {
            "number": self.number,
            "kind": self.kind.value,
            "item": self.item,
            "version": self.version,
            "competency": self.competency,
            "critical": self.critical,
            "order": list(self.order),
            "drawn": dict(self.drawn),
        }
        return data | ({"second": list(self.second)} if self.second else {})

    @classmethod
    def from_data(cls, data: Mapping[str, Any]) -> Self:
        """Make it again from plain data."""
        return cls(
            number=int(data["number"]),
            kind=SheetKind(data["kind"]),
            item=str(data["item"]),
            version=int(data["version"]),
            competency=str(data["competency"]),
            critical=bool(data["critical"]),
            order=tuple(data["order"]),
            second=tuple(data.get("second") or ()),
            drawn=MappingProxyType(dict(data["drawn"])),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Paper:
    """The sheets drawn for one sitting, numbered from 1, with the bank and seed that they came from."""

    programme: str
    edition: int
    fingerprint: str
    seed: int
    sheets: tuple[Sheet, ...]

    @property
    def marked(self) -> tuple[Sheet, ...]:
        """Return the sheets that are marked: questions and drills."""
        return tuple(sheet for sheet in self.sheets if sheet.kind is not SheetKind.LESSON)

    @property
    def items(self) -> frozenset[str]:
        """Return the ids of what is asked."""
        return frozenset(sheet.item for sheet in self.marked)

    @property
    def asked(self) -> frozenset[str]:
        """Return the ids of what is asked, each followed by its drawn numbers."""
        return frozenset(_asked(sheet) for sheet in self.marked)

    def sheet(self, number: int) -> Sheet:
        """Return a sheet by its number; raises :class:`UsageError` where there is none."""
        if not 1 <= number <= len(self.sheets):
            raise UsageError(
                say("There is no sheet {number}. This paper has {count}.", number=number, count=len(self.sheets))
            )
        return self.sheets[number - 1]

    def as_data(self) -> dict[str, Any]:
        """Return it as plain data that JSON can hold."""
        return {
            "programme": self.programme,
            "edition": self.edition,
            "fingerprint": self.fingerprint,
            "seed": self.seed,
            "sheets": [sheet.as_data() for sheet in self.sheets],
        }

    @classmethod
    def from_data(cls, data: Mapping[str, Any]) -> Self:
        """Make it again from plain data; raises :class:`UsageError` where that is no paper."""
        try:
            return cls(
                programme=str(data["programme"]),
                edition=int(data["edition"]),
                fingerprint=str(data["fingerprint"]),
                seed=int(data["seed"]),
                sheets=tuple(Sheet.from_data(sheet) for sheet in data["sheets"]),
            )
        except (KeyError, TypeError, ValueError) as error:
            raise UsageError(say("This is not a stored paper: {reason}.", reason=repr(error))) from error


def build_paper(
    bank: Bank,
    programme_id: str,
    seed: int,
    *,
    recent: Sequence[frozenset[str]] = (),
    own: OwnMachine | None = None,
) -> Paper:
    """Draw a paper for a programme. The same bank, seed and history give the same paper.

    ``recent`` holds what the person's last papers asked, newest first: :attr:`Paper.items` or, better,
    :attr:`Paper.asked` of each. What was asked lately is avoided where there is something else to ask, and the newest
    paper never comes again as it was. A drill on a mounted distance is drawn from the shop's ``own`` machine where that
    gives a fair one.

    Raises :class:`~trainer.errors.Missing` for an unknown programme, :class:`~trainer.errors.BankError` where the bank
    cannot fill the paper.
    """
    programme = bank.programme(programme_id)
    rng = Random(seed)  # noqa: S311  (a paper has to come out the same again; it keeps no secret)
    lessons = [_lesson_sheet(bank, lesson) for name in programme.scenarios for lesson in bank.scenarios[name].lessons]
    for _ in range(TRIES):
        marked = _marked_sheets(bank, programme, rng, recent, own)
        paper = _numbered(bank, programme_id, seed, [*lessons, *marked])
        if not _repeats(paper, recent):
            break
    return paper


def changed_since(bank: Bank, paper: Paper) -> tuple[str, ...]:
    """Return the items of a paper that a bank no longer has as they were asked: another version, or gone."""
    known = {item.id: getattr(item, "version", 0) for item in bank.walk_items()}
    return tuple(sheet.item for sheet in paper.sheets if known.get(sheet.item) != sheet.version)


def _repeats(paper: Paper, recent: Sequence[frozenset[str]]) -> bool:
    return bool(recent) and recent[0] in (paper.items, paper.asked)


def _numbered(bank: Bank, programme: str, seed: int, sheets: Sequence[dict[str, Any]]) -> Paper:
    return Paper(
        programme=programme,
        edition=bank.edition,
        fingerprint=bank.fingerprint,
        seed=seed,
        sheets=tuple(Sheet(number=number, **sheet) for number, sheet in enumerate(sheets, 1)),
    )


def _marked_sheets(
    bank: Bank, programme: Programme, rng: Random, recent: Sequence[frozenset[str]], own: OwnMachine | None
) -> list[dict[str, Any]]:
    past = [frozenset(entry.split(" ", 1)[0] for entry in paper) for paper in recent]
    chosen = choose(bank, programme, rng, past)
    sheets = [question_sheet(pick.question, rng, critical=pick.critical) for pick in chosen]
    held = {sheet["competency"] for sheet in sheets if sheet["critical"]}
    must = set(programme.blueprint.must_pass) - held
    found = own_drill(bank, own) if own else None
    for name in programme.blueprint.drills:
        drill, drawn = bank.drills[name], None
        if found is not None and drill.kind == found[0].kind:
            drill, drawn = found
        sheets.append(_drill_sheet(drill, rng, must, drawn))
    rng.shuffle(sheets)
    if programme.stops is not None:  # what has to be asked comes before the paper may end
        sheets.sort(key=lambda sheet: not (sheet["critical"] or sheet["kind"] is SheetKind.DRILL))
    return sheets


def _lesson_sheet(bank: Bank, lesson: Lesson) -> dict[str, Any]:
    competency = next(iter(bank.scenarios[lesson.scenario].competencies), "")
    return {"kind": SheetKind.LESSON, "item": lesson.id, "version": 0, "competency": competency}


def question_sheet(question: Question, rng: Random, *, critical: bool) -> dict[str, Any]:
    """Return what the sheet of a question is made of, but for its number; what can be pressed is shuffled."""
    order = [option.id for option in question.options]
    second = [one.id for one in (question.options if isinstance(question, Match) else question.reasons)]
    for listed in (order, second):
        rng.shuffle(listed)
    if isinstance(question, Order) and order == [option.id for option in question.options]:
        order = [*order[1:], order[0]]  # not shown in the order that is asked for
    return {
        "kind": SheetKind.QUESTION,
        "item": question.id,
        "version": question.version,
        "competency": question.competency,
        "critical": critical,
        "order": tuple(order),
        "second": tuple(second),
        "drawn": MappingProxyType(dict(question.inputs) if isinstance(question, Number) else {}),
    }


def _drill_sheet(drill: Drill, rng: Random, must: set[str], drawn: Mapping[str, str] | None = None) -> dict[str, Any]:
    if drawn is None:
        drawn = draw(drill, rng)
    return {
        "kind": SheetKind.DRILL,
        "item": drill.id,
        "version": drill.version,
        "competency": drill.competency,
        "critical": drill.critical or drill.competency in must,
        "order": _offered(drill, drawn, rng),
        "drawn": MappingProxyType(dict(drawn)),
    }


def draw(drill: Drill, rng: Random) -> Mapping[str, str]:
    """Draw what the sheet of a drill of any kind shows; :class:`~trainer.errors.BankError` where nothing fair is found."""
    return judging.draw(drill, rng) if isinstance(drill, JudgeDrill | RuleDrill) else drills.draw(drill, rng)


def _offered(drill: Drill, drawn: Mapping[str, str], rng: Random) -> tuple[str, ...]:
    if isinstance(drill, JudgeDrill | RuleDrill):
        return _to_judge(drill, drawn, rng)
    if not isinstance(drill, SelectDrill):
        return ()
    offered = list(drill.setting(drawn["setting"]).offered)
    rng.shuffle(offered)
    offered.sort(key=lambda code: code == NOTHING_FITS)  # "none of these" is read last
    return tuple(offered)


def _to_judge(drill: Drill, drawn: Mapping[str, str], rng: Random) -> tuple[str, ...]:
    found = [choice.id for choice in judging.choices(drill, drawn)]
    if drill.kind != "find-error":  # the lines of a working stand as they were written
        rng.shuffle(found)
    return tuple(found)


def _asked(sheet: Sheet) -> str:
    numbers = ", ".join(f"{key}={value}" for key, value in sorted(sheet.drawn.items()))
    return f"{sheet.item} {numbers}".rstrip()
