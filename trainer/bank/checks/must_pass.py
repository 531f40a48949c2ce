"""What must be passed can be asked: there are enough questions, and they find room in the paper."""

from collections.abc import Iterator, Mapping
from typing import ClassVar

from trainer.bank.bank import Bank
from trainer.bank.draft import Draft
from trainer.bank.model import Programme
from trainer.findings import Finding

PAPERS = 3  # papers in a row that can ask another question about it


class TooFewQuestions(Finding):
    """A competency that must be passed, with too few questions for three papers in a row."""

    code: ClassVar[str] = "too-few-questions"
    title: ClassVar[str] = "There are too few questions on a competency that must be passed."
    fix: ClassVar[str] = "Write more questions on it, or a drill, in the programme's scenarios."


class NoRoom(Finding):
    """Competencies that must be passed and do not all fit into one paper."""

    code: ClassVar[str] = "no-room"
    title: ClassVar[str] = "The paper has no room for each competency that must be passed."
    fix: ClassVar[str] = "Ask more questions of the scenarios that have questions on it."


finds = (TooFewQuestions, NoRoom)


def check(draft: Draft) -> Iterator[Finding]:
    """Look at each competency that a programme says must be passed."""
    for programme in draft.bank.programmes.values():
        drilled = _drilled(draft.bank, programme)
        wanted = [name for name in programme.blueprint.must_pass if name in draft.bank.competencies]
        for name in wanted:
            count = len(_questions(draft.bank, programme, name))
            if count < PAPERS and name not in drilled:
                note = f"{name} has {count}; three papers in a row need {PAPERS}."
                yield draft.at(TooFewQuestions, programme.id, "blueprint", "must_pass", note=note)
        for name in _left_over(draft.bank, programme, [name for name in wanted if name not in drilled]):
            yield draft.at(NoRoom, programme.id, "blueprint", "questions", note=f"{name} finds no place.")


def _drilled(bank: Bank, programme: Programme) -> set[str]:
    return {bank.drills[name].competency for name in programme.blueprint.drills if name in bank.drills}


def _questions(bank: Bank, programme: Programme, competency: str) -> list[str]:
    """Return the scenario of each question on a competency that the programme can ask."""
    asked = [name for name, count in programme.blueprint.questions.items() if count and name in bank.scenarios]
    return [name for name in asked for question in bank.scenarios[name].questions if question.competency == competency]


def _left_over(bank: Bank, programme: Programme, wanted: list[str]) -> list[str]:
    """Return what finds no seat when each competency takes one question of a scenario that has some on it."""
    seats: dict[tuple[str, int], str] = {}
    numbers = programme.blueprint.questions
    fits = {
        name: [(place, i) for place in set(_questions(bank, programme, name)) for i in range(numbers[place])]
        for name in wanted
    }
    return [name for name in wanted if fits[name] and not _seated(name, fits, seats, set())]


def _seated(
    name: str,
    fits: Mapping[str, list[tuple[str, int]]],
    seats: dict[tuple[str, int], str],
    tried: set[tuple[str, int]],
) -> bool:
    for seat in fits[name]:
        if seat in tried:
            continue
        tried.add(seat)
        if seat not in seats or _seated(seats[seat], fits, seats, tried):
            seats[seat] = name
            return True
    return False
