"""A voice writes days and numbers as its readers do, and fills the places of a sentence after translating it."""

from datetime import date

import pytest
from exports.made import NOW, ZONE

from trainer.exports.voice import PLAIN, Voice
from trainer.wording import say

SPANISH = Voice("es", {"Short by {gap} on {day}.": "Faltan {gap} el {day}."}.get)


def test_english_is_what_stands_in_the_code():
    assert (
        PLAIN.tell(say("Short by {gap} on {day}.", gap="1.5 mm", day="2026-03-09")) == "Short by 1.5 mm on 9 Mar 2026."
    )


def test_another_language_takes_its_own_words_days_and_decimal_mark():
    assert SPANISH.tell(say("Short by {gap} on {day}.", gap="1.5 mm", day="2026-03-09")) == (
        "Faltan 1,5 mm el 9 mar 2026."
    )


@pytest.mark.parametrize(("value", "shown"), [("2026-02-30", "2026-02-30"), ("00241", "00241"), ("PB-1", "PB-1")])
def test_what_is_no_day_stays_as_it_is(value, shown):
    assert PLAIN.shown(value) == shown


def test_nothing_is_told_of_nothing():
    assert PLAIN.tell("") == PLAIN.tell(say("")) == PLAIN.day(None) == ""


def test_a_moment_is_told_at_the_site():
    assert PLAIN.moment(NOW, ZONE) == "9 Mar 2026, 08:12"
    assert SPANISH.day(date(2026, 1, 5)) == "5 ene 2026"
