"""The text of a sheet fits it at kiosk size without scrolling."""

from collections.abc import Iterator
from typing import ClassVar

from trainer.bank.draft import Draft
from trainer.bank.model import Question, Text
from trainer.bank.render import plain
from trainer.findings import Finding

TOLD, ASKED, OPTION, WHY, HEADING, SETTING = 150, 75, 80, 200, 45, 150  # characters, as the sheets show them
ROOM = {"pick-all": 60, "order": 60, "match": 28, "point": 55, "spot": 55, "reasoned": 45}  # of an option, else OPTION
PARTNER, REASON = 48, 60
LESSON = 62  # words


class TooLongForSheet(Finding):
    """A text that would not fit its sheet."""

    code: ClassVar[str] = "too-long-for-sheet"
    title: ClassVar[str] = "The text is too long for its sheet."
    fix: ClassVar[str] = "Shorten it, or make two sheets of it."


class TooManyRows(Finding):
    """A question with more to press than its sheet has room for."""

    code: ClassVar[str] = "too-many-rows"
    title: ClassVar[str] = "There is more to press than the sheet has room for."
    fix: ClassVar[str] = "Keep to the number of options, and to no drawing, that content/README.md gives for the kind."


finds = (TooLongForSheet, TooManyRows)
MOST_ROWS = {"match": 4, "reasoned": 3, "pick-one": 4, "next": 4}  # else FIVE
FIVE, FOUR_BESIDE = 5, 110  # rows; letters told and asked beside a drawing from which on there is room for four
WITHOUT = frozenset({"match", "reasoned"})  # kinds that need the whole sheet for their lists
Measured = tuple[str, tuple[str, ...], Text, int]


def check(draft: Draft) -> Iterator[Finding]:
    """Measure each text of each sheet in each language, and count what is to be pressed."""
    for question in draft.bank.questions.values():
        yield from _rows(draft, question)
    for language in draft.bank.languages:
        for item, path, text, most in _texts(draft):
            count = len(text.words.get(language, ""))
            if count > most:
                note = f"It has {count} characters; {most} fit."
                yield draft.at_text(TooLongForSheet, item, language, *path, note=note)
        for lesson in draft.bank.lessons.values():
            count = len(plain(lesson.text.words.get(language, "")).split())
            if count > LESSON:
                note = f"It has {count} words; {LESSON} fit beside the drawing."
                yield draft.at_text(TooLongForSheet, lesson.id, language, "text", note=note)


def _rows(draft: Draft, question: Question) -> Iterator[Finding]:
    most = MOST_ROWS.get(question.kind, FIVE)
    if max(len(question.options), len(question.reasons)) > most:
        yield draft.at(TooManyRows, question.id, "options", note=f"{most} are the most.")
    if question.drawing and question.kind in WITHOUT:
        yield draft.at(TooManyRows, question.id, "drawing", note="There is no room for a drawing.")
    for language in draft.bank.languages if question.drawing and len(question.options) == FIVE else ():
        length = sum(len(text.words.get(language, "")) for text in (question.told, question.asked))
        if length > FOUR_BESIDE:
            note = f"Beside a drawing and five rows {FOUR_BESIDE} characters fit; told and asked have {length}."
            yield draft.at_text(TooLongForSheet, question.id, language, "told", note=note)


def _texts(draft: Draft) -> Iterator[Measured]:
    for question in draft.bank.questions.values():
        yield question.id, ("told",), question.told, TOLD
        yield question.id, ("asked",), question.asked, ASKED
        yield question.id, ("why",), question.why, WHY
        for option in question.options:
            yield question.id, ("options", option.id), option.text, ROOM.get(question.kind, OPTION)
            if option.partner:
                yield question.id, ("partners", option.id), option.partner, PARTNER
        for reason in question.reasons:
            yield question.id, ("reasons", reason.id), reason.text, REASON
    for drill in draft.bank.drills.values():
        yield drill.id, ("told",), drill.told, TOLD
        yield drill.id, ("asked",), drill.asked, ASKED + 25
        yield drill.id, ("title",), drill.title, HEADING
        for setting in getattr(drill, "settings", ()):
            yield drill.id, ("settings", setting.id), setting.told, SETTING
    for lesson in draft.bank.lessons.values():
        yield lesson.id, ("heading",), lesson.heading, HEADING
