"""How plain a text is: sentences, words, syllables, and two indices of how hard it is to read.

Flesch-Kincaid grade level for English (Kincaid, Fishburne, Rogers and Chissom, 1975): 0.39 words per sentence +
11.8 syllables per word - 15.59. Fernández Huerta's index for Spanish (1959): 206.84 - 60 syllables per word - 1.02 words
per sentence. Both count syllables by rule, which is near enough to tell a hard text from a plain one.
"""

import re
from collections.abc import Callable, Collection

from trainer.bank.model import Reading

SENTENCE_END = re.compile(r"(?<=[.!?:;…])[”\"’)]*\s+|\n+")
WORD = re.compile(r"[^\W\d_]+(?:['’-][^\W\d_]+)*|\d+(?:[.,/]\d+)*")
SILENT_E = re.compile(r"(?<![^aeiouy]l)(?<=[^aeiouy])e$|[^aeioutdy]ed$|(?<=[aeiouy])[^aeiouysxzcgh]es$")
ENOUGH = 25  # words; below that an index says nothing


def sentences(text: str) -> list[str]:
    """Split a text into its sentences; a new line ends one as well."""
    return [part for part in (piece.strip() for piece in SENTENCE_END.split(text)) if WORD.search(part)]


def words(text: str) -> list[str]:
    """Return the words and numbers of a text."""
    return WORD.findall(text)


def english_syllables(word: str) -> int:
    """Count the syllables of an English word by rule."""
    folded = word.casefold()
    count = len(re.findall(r"[aeiouy]+", folded))
    if SILENT_E.search(folded):
        count -= 1
    return max(count, 1)


def spanish_syllables(word: str) -> int:
    """Count the syllables of a Spanish word: two strong vowels, or a stressed weak one beside a strong one, part."""
    folded = re.sub(r"([qg])u([eiéí])", r"\1\2", word.casefold())
    groups: list[str] = re.findall(r"[aeiouáéíóúü]+|(?<![aeiouáéíóúü])y(?![aeiouáéíóú])", folded)
    return max(sum(_nuclei(group) for group in groups), 1)


def _nuclei(group: str) -> int:
    return max(len(re.findall(r"[aeoáéóíú]", group)), 1)


def hardness(text: str, reading: Reading) -> float | None:
    """Return the index of the language's measure; None where there is no measure or too little text."""
    found, parts = words(text), sentences(text)
    if reading.measure == "words" or len(found) < ENOUGH:
        return None
    per_sentence = len(found) / len(parts)
    easy = {word.casefold() for word in reading.trade_words}
    if reading.measure == "flesch-kincaid":
        return 0.39 * per_sentence + 11.8 * _per_word(found, easy, english_syllables) - 15.59
    return 206.84 - 60 * _per_word(found, easy, spanish_syllables) - 1.02 * per_sentence


def too_hard(text: str, reading: Reading) -> str:
    """Return why a text is too hard for the limit in force, or an empty text."""
    index = hardness(text, reading)
    if index is None:
        return ""
    if reading.measure == "flesch-kincaid" and index > reading.limit:
        return f"It reads at grade {index:.1f}; the limit is {reading.limit:g}."
    if reading.measure == "fernandez-huerta" and index < reading.limit:
        return f"Its index is {index:.0f}; it should be {reading.limit:g} or more."
    return ""


def _per_word(found: list[str], easy: Collection[str], count: Callable[[str], int]) -> float:
    """Return the mean syllables of a word; words of the trade count as one, since the reader knows them."""
    return sum(1 if word.casefold() in easy else count(word) for word in found) / len(found)
