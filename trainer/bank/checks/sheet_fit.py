"""The text of a sheet fits it at kiosk size without scrolling."""

from collections.abc import Iterator
from typing import ClassVar

from trainer.bank.draft import Draft
from trainer.bank.model import Text
from trainer.bank.render import plain
from trainer.findings import Finding

TOLD, ASKED, OPTION, WHY, HEADING, SETTING = 150, 75, 80, 200, 45, 150  # characters, as the sheets show them
LESSON = 62  # words


class TooLongForSheet(Finding):
    """A text that would not fit its sheet."""

    code: ClassVar[str] = "too-long-for-sheet"
    title: ClassVar[str] = "The text is too long for its sheet."
    fix: ClassVar[str] = "Shorten it, or make two sheets of it."


finds = (TooLongForSheet,)
Measured = tuple[str, tuple[str, ...], Text, int]


def check(draft: Draft) -> Iterator[Finding]:
    """Measure each text of each sheet in each language."""
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


def _texts(draft: Draft) -> Iterator[Measured]:
    for question in draft.bank.questions.values():
        yield question.id, ("told",), question.told, TOLD
        yield question.id, ("asked",), question.asked, ASKED
        yield question.id, ("why",), question.why, WHY
        for option in question.options:
            yield question.id, ("options", option.id), option.text, OPTION
    for drill in draft.bank.drills.values():
        yield drill.id, ("told",), drill.told, TOLD
        yield drill.id, ("asked",), drill.asked, ASKED + 25
        yield drill.id, ("title",), drill.title, HEADING
        for setting in getattr(drill, "settings", ()):
            yield drill.id, ("settings", setting.id), setting.told, SETTING
    for lesson in draft.bank.lessons.values():
        yield lesson.id, ("heading",), lesson.heading, HEADING
