"""Each programme is made of parts that the bank has, and its paper can be drawn."""

from collections.abc import Iterator, Mapping
from typing import ClassVar

from trainer.bank.draft import Draft
from trainer.bank.model import Programme
from trainer.findings import Finding


class UnknownPart(Finding):
    """A scenario, drill, competency or checklist that the bank does not have."""

    code: ClassVar[str] = "unknown-part"
    title: ClassVar[str] = "A part of the programme is not in the bank."
    fix: ClassVar[str] = "Correct the id, or add what it names."


class TooManyAsked(Finding):
    """A paper that asks more questions of a scenario than there are."""

    code: ClassVar[str] = "too-many-asked"
    title: ClassVar[str] = "The paper asks more questions than the scenario has."
    fix: ClassVar[str] = "Ask fewer, or write more questions."


class EmptyPaper(Finding):
    """A programme that anyone would pass because nothing is asked."""

    code: ClassVar[str] = "empty-paper"
    title: ClassVar[str] = "The programme asks nothing."
    fix: ClassVar[str] = "Put questions or drills into its blueprint."


class WrongChecklist(Finding):
    """A checklist for another role or kind of machine."""

    code: ClassVar[str] = "wrong-checklist"
    title: ClassVar[str] = "The checklist is for another role or machine."
    fix: ClassVar[str] = "Name a checklist of this role and of one of these kinds of machine."


finds = (UnknownPart, TooManyAsked, EmptyPaper, WrongChecklist)


def check(draft: Draft) -> Iterator[Finding]:
    """Look at the parts of each programme."""
    for programme in draft.bank.programmes.values():
        yield from _parts(draft, programme)
        yield from _counts(draft, programme)
        yield from _checklist(draft, programme)


def _parts(draft: Draft, programme: Programme) -> Iterator[Finding]:
    bank, plan = draft.bank, programme.blueprint
    named: tuple[tuple[tuple[str, ...], tuple[str, ...], Mapping[str, object]], ...] = (
        (("scenarios",), programme.scenarios, bank.scenarios),
        (("blueprint", "questions"), tuple(plan.questions), bank.scenarios),
        (("blueprint", "drills"), plan.drills, bank.drills),
        (("blueprint", "must_pass"), plan.must_pass, bank.competencies),
        (("checklist",), (programme.checklist,) if programme.checklist else (), bank.checklists),
    )
    for path, names, known in named:
        for name in names:
            if not draft.knows(name, known):
                yield draft.at(UnknownPart, programme.id, *path, note=f"The bank has no {name}.")


def _counts(draft: Draft, programme: Programme) -> Iterator[Finding]:
    plan = programme.blueprint
    for name, count in plan.questions.items():
        scenario = draft.bank.scenarios.get(name)
        if scenario and count > len(scenario.questions):
            note = f"{count} are asked of {name}, which has {len(scenario.questions)}."
            yield draft.at(TooManyAsked, programme.id, "blueprint", "questions", name, note=note)
    if not sum(plan.questions.values()) + len(plan.drills):
        yield draft.at(EmptyPaper, programme.id, "blueprint")


def _checklist(draft: Draft, programme: Programme) -> Iterator[Finding]:
    checklist = draft.bank.checklists.get(programme.checklist or "")
    if checklist is None:
        return
    if checklist.role is not programme.role or not set(checklist.machine_kinds) & set(programme.machine_kinds):
        yield draft.at(WrongChecklist, programme.id, "checklist", note=f"{checklist.id} does not go with it.")
