"""Text for operators is plain: short sentences, easy words."""

from collections.abc import Iterator
from typing import ClassVar

from trainer.bank.checks.plainness import sentences, too_hard, words
from trainer.bank.draft import Draft
from trainer.bank.model import Text
from trainer.bank.render import plain
from trainer.findings import Finding


class SentenceTooLong(Finding):
    """A sentence with more words than the language allows."""

    code: ClassVar[str] = "sentence-too-long"
    title: ClassVar[str] = "The sentence is too long."
    fix: ClassVar[str] = "Make two sentences of it."


class HardToRead(Finding):
    """A text above the reading level of the language."""

    code: ClassVar[str] = "hard-to-read"
    title: ClassVar[str] = "The text is hard to read."
    fix: ClassVar[str] = "Use shorter sentences and everyday words."


finds = (SentenceTooLong, HardToRead)
Piece = tuple[tuple[str, ...], Text]


def check(draft: Draft) -> Iterator[Finding]:
    """Look at every text that an operator reads, in each language."""
    for item, texts in _texts(draft):
        pieces = [(path, text) for path, text in texts if not text.unwritten]
        for language in draft.bank.languages:
            yield from _look(draft, item, language, pieces)


def _look(draft: Draft, item: str, language: str, pieces: list[Piece]) -> Iterator[Finding]:
    reading = draft.bank.readings.get(language)
    if reading is None:
        return
    for path, text in pieces:
        for sentence in sentences(plain(text.words.get(language, ""))):
            count = len(words(sentence))
            if count > reading.longest_sentence:
                note = f"It has {count} words; {reading.longest_sentence} are the most: “{sentence[:40]}…”."
                yield draft.at_text(SentenceTooLong, item, language, *path, note=note)
    whole = "\n".join(plain(text.words.get(language, "")) for _, text in pieces)
    note = too_hard(whole, reading)
    if note:
        yield draft.at_text(HardToRead, item, language, note=note)


def _texts(draft: Draft) -> Iterator[tuple[str, list[Piece]]]:
    bank = draft.bank
    for lesson in bank.lessons.values():
        yield lesson.id, [(("heading",), lesson.heading), (("text",), lesson.text)]
    for question in bank.questions.values():
        options: list[Piece] = [(("options", option.id), option.text) for option in question.options]
        options += [(("partners", option.id), option.partner) for option in question.options if option.partner]
        options += [(("reasons", reason.id), reason.text) for reason in question.reasons]
        yield question.id, [(("told",), question.told), (("asked",), question.asked), *options]
        yield question.id, [(("why",), question.why)]
    for misconception in bank.misconceptions.values():
        yield misconception.id, [(("tell",), misconception.tell)]
    for drill in bank.drills.values():
        told: list[Piece] = [(("settings", setting.id), setting.told) for setting in getattr(drill, "settings", ())]
        yield drill.id, [(("told",), drill.told), (("asked",), drill.asked), *told]
