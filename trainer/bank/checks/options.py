"""Each question has the right options that its kind needs, and each wrong one shows a misconception that the bank has."""

from collections.abc import Iterator
from typing import ClassVar

from trainer.bank.draft import Draft
from trainer.bank.model import Match, Number, Option, Order, PickAll, Question, Reasoned
from trainer.findings import Finding


class NotOneKey(Finding):
    """A question with no right option, or with several where one is to be picked."""

    code: ClassVar[str] = "not-one-key"
    title: ClassVar[str] = "There is not exactly one right option."
    fix: ClassVar[str] = "Mark one option with right: true and no other."


class WrongKeyCount(Finding):
    """A question that asks for all that apply, in which everything, too little or nothing does."""

    code: ClassVar[str] = "wrong-key-count"
    title: ClassVar[str] = "The number of right options does not fit the kind of question."
    fix: ClassVar[str] = "Mark two or more in pick-all, one to three in spot, and leave at least one wrong."


class TooFewOptions(Finding):
    """A question that is easy to guess because there is little to choose from."""

    code: ClassVar[str] = "too-few-options"
    title: ClassVar[str] = "There are fewer than three options."
    fix: ClassVar[str] = "Add wrong options that people really pick."


class NoMisconception(Finding):
    """A wrong option that teaches nothing about the person who picks it."""

    code: ClassVar[str] = "no-misconception"
    title: ClassVar[str] = "The wrong option names no misconception."
    fix: ClassVar[str] = "Name the wrong idea that picking it shows."


class RightMisconception(Finding):
    """A right option that is said to show a wrong idea."""

    code: ClassVar[str] = "right-misconception"
    title: ClassVar[str] = "The right option names a misconception."
    fix: ClassVar[str] = "Take the misconception away, or the mark right: true."


class UnknownMisconception(Finding):
    """A misconception that ``misconceptions.yaml`` does not list."""

    code: ClassVar[str] = "unknown-misconception"
    title: ClassVar[str] = "The misconception is not listed."
    fix: ClassVar[str] = "Correct the id, or add it to misconceptions.yaml and its texts."


class UnknownStep(Finding):
    """A mistake that names an option that is not there."""

    code: ClassVar[str] = "unknown-step"
    title: ClassVar[str] = "The mistake names an option that is not there, or no mistake."
    fix: ClassVar[str] = "Name two options: the one that is put first or matched, and the other one."


finds = (
    NotOneKey,
    WrongKeyCount,
    TooFewOptions,
    NoMisconception,
    RightMisconception,
    UnknownMisconception,
    UnknownStep,
)
FEWEST, FEWEST_MANY = 3, 4  # options: where one is to be picked, where several are
SEVERAL = {"pick-all": range(2, 6), "spot": range(1, 4)}  # how many may be right
Listed = tuple[str, tuple[Option, ...]]


def check(draft: Draft) -> Iterator[Finding]:
    """Look at the options of each question."""
    for question in draft.bank.questions.values():
        if isinstance(question, Number):
            continue
        if len(question.options) < (FEWEST_MANY if question.kind in SEVERAL else FEWEST):
            yield draft.at(TooFewOptions, question.id, "options")
        if not isinstance(question, Order | Match):
            lists: tuple[Listed, ...] = (("options", question.options),)
            lists += (("reasons", question.reasons),) if isinstance(question, Reasoned) else ()
            for name, options in lists:
                yield from _count(draft, question, name, options)
                yield from _options(draft, question, name, options)
        yield from _mistakes(draft, question)


def _count(draft: Draft, question: Question, name: str, options: tuple[Option, ...]) -> Iterator[Finding]:
    right = [option.id for option in options if option.right]
    note = f"These are right: {', '.join(right)}." if right else "No option is right."
    several = SEVERAL.get(question.kind)
    if several is None and len(right) != 1:
        yield draft.at(NotOneKey, question.id, name, note=note)
    if several is not None and (len(right) not in several or len(right) == len(options)):
        yield draft.at(WrongKeyCount, question.id, name, note=note)


def _options(draft: Draft, question: Question, name: str, options: tuple[Option, ...]) -> Iterator[Finding]:
    for number, option in enumerate(options):
        path = (name, number)
        if option.right and option.misconception and not isinstance(question, PickAll):
            yield draft.at(RightMisconception, question.id, *path, note=f"Option {option.id} is right.")
        if not option.right and not option.misconception:
            yield draft.at(NoMisconception, question.id, *path, note=f"Option {option.id} names none.")
        yield from _known(draft, question, option.misconception, *path)


def _mistakes(draft: Draft, question: Question) -> Iterator[Finding]:
    ids = [option.id for option in question.options]
    for number, mistake in enumerate(question.mistakes):
        path = ("mistakes", number)
        named = [mistake.first, mistake.then]
        placed = [ids.index(one) for one in named if one in ids]
        right = isinstance(question, Order) and placed == sorted(placed)
        if len(set(placed)) < len(named) or right:
            yield draft.at(UnknownStep, question.id, *path, note=f"{mistake.first} before or with {mistake.then}.")
        yield from _known(draft, question, mistake.misconception, *path)


def _known(draft: Draft, question: Question, name: str | None, *path: str | int) -> Iterator[Finding]:
    if name and not draft.knows(name, draft.bank.misconceptions):
        note = f"“{name}” is not in misconceptions.yaml."
        yield draft.at(UnknownMisconception, question.id, *path, "misconception", note=note)
