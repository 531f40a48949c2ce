"""How plain a text is."""

import pytest

from trainer.bank.checks.plainness import english_syllables, hardness, sentences, spanish_syllables, too_hard, words
from trainer.bank.model import Reading

ENGLISH = Reading(measure="flesch-kincaid", limit=8)
SPANISH = Reading(measure="fernandez-huerta", limit=65)


@pytest.mark.parametrize(
    ("word", "count"),
    [
        ("the", 1),
        ("brake", 1),
        ("brakes", 1),
        ("table", 2),
        ("edges", 2),
        ("closed", 1),
        ("guarded", 2),
        ("curtain", 2),
    ],
)
def test_english_syllables(word: str, count: int):
    assert english_syllables(word) == count


@pytest.mark.parametrize(
    ("word", "count"),
    [
        ("luz", 1),
        ("rey", 1),
        ("guía", 2),
        ("queda", 2),
        ("pingüino", 3),
        ("energía", 4),
        ("matriz", 2),
        ("ayudante", 4),
    ],
)
def test_spanish_syllables(word: str, count: int):
    assert spanish_syllables(word) == count


def test_a_sentence_ends_at_a_mark_or_a_line():
    assert sentences("One. Two!\nThree\n- four; five 2.5 mm") == ["One.", "Two!", "Three", "- four;", "five 2.5 mm"]
    assert words("It's 2.5 mm, over-blanked.") == ["It's", "2.5", "mm", "over-blanked"]


def test_the_english_index_is_the_grade_of_the_published_formula():
    text = "The cat sat on the mat. " * 6  # six words and six syllables in a sentence

    assert hardness(text, ENGLISH) == pytest.approx(0.39 * 6 + 11.8 * 1 - 15.59)


def test_the_spanish_index_is_that_of_the_published_formula():
    text = "La casa es mala. " * 7  # four words and six syllables in a sentence

    assert hardness(text, SPANISH) == pytest.approx(206.84 - 60 * 6 / 4 - 1.02 * 4)


def test_too_little_text_is_not_judged():
    assert hardness("Unauthorised individuals.", ENGLISH) is None


def test_a_hard_text_is_told_with_its_grade_and_the_limit():
    hard = "Unauthorised individuals inadvertently penetrating perimeter apertures necessitate discontinuation. " * 4

    assert too_hard(hard, ENGLISH).endswith("the limit is 8.")
    assert too_hard("The brake is off. " * 8, ENGLISH) == ""


def test_words_of_the_trade_are_not_counted_as_hard():
    text = "The operator looks at the operator. " * 5
    known = Reading(measure="flesch-kincaid", limit=8, trade_words=("Operator",))

    assert hardness(text, known) < hardness(text, ENGLISH)


def test_a_language_without_a_measure_is_judged_by_sentences_alone():
    assert hardness("word " * 50, Reading(measure="words")) is None
